using System.Diagnostics;
using Xunit;

namespace Halfpin.Reports.Tests;

/// <summary>Runs a real browser, and the programs that read what it prints.</summary>
internal static class Browser
{
    private static readonly string[] _quiet =
    [
        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ];

    /// <summary>The document after its scripts have run.</summary>
    public static string Dom(string folder, string file, params string[] more) =>
        Run("chromium", [.. _quiet, $"--user-data-dir={Path.Combine(folder, "profile")}", .. more, "--virtual-time-budget=4000", "--dump-dom", "file://" + file]);

    /// <summary>Prints a page to a PDF.</summary>
    public static void Print(string folder, string file, string pdf) =>
        Run("chromium", [.. _quiet, $"--user-data-dir={Path.Combine(folder, "profile")}", "--no-pdf-header-footer", $"--print-to-pdf={pdf}", "file://" + file]);

    /// <summary>Runs a program of the path, or skips the test where it is not installed.</summary>
    public static string Run(string program, params string[] arguments)
    {
        string? file = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
            .SelectMany(d => new[] { Path.Combine(d, program), Path.Combine(d, program + ".exe") }).FirstOrDefault(File.Exists);
        Assert.SkipUnless(file is not null, $"{program} is not installed: the report is not looked at.");
        using Process process = Process.Start(new ProcessStartInfo(file!, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0 ? output : throw new InvalidOperationException(error.Result);
    }

    /// <summary>Does something in a folder of its own.</summary>
    public static T InFolder<T>(Func<string, T> work)
    {
        string folder = Directory.CreateTempSubdirectory("halfpin-test").FullName;
        try
        {
            return work(folder);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
