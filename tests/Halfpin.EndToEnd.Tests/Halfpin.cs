using System.Diagnostics;
using System.Text;

namespace Halfpin.EndToEnd.Tests;

/// <summary>The program as a user runs it: a process with arguments, streams and an exit code.</summary>
internal sealed record Run(int ExitCode, string Out, string Error)
{
    public static readonly string Examples = Path.Combine(AppContext.BaseDirectory, "examples");

    /// <summary>Runs the program in a folder.</summary>
    public static Run Halfpin(string[] args, string input = "", string? folder = null)
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "halfpin.dll"), .. args])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
            StandardInputEncoding = new UTF8Encoding(false),
            WorkingDirectory = folder ?? AppContext.BaseDirectory,
        };
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync(), error = process.StandardError.ReadToEndAsync();
        try
        {
            process.StandardInput.Write(input);
            process.StandardInput.Close();
        }
        catch (IOException)
        {
            // The program may end before it has read everything, as for a file too large.
        }

        process.WaitForExit();
        return new(process.ExitCode, output.Result.ReplaceLineEndings("\n"), error.Result.ReplaceLineEndings("\n"));
    }

    public static Run Halfpin(params string[] args) => Halfpin(args, "");

    /// <summary>Starts the program in a folder, to be stopped.</summary>
    public static Process Start(string[] args, string folder) => Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "halfpin.dll"), .. args])
    {
        WorkingDirectory = folder,
        RedirectStandardOutput = true,
        RedirectStandardError = true,
    })!;

    public static string Example(string name) => Path.Combine(Examples, name);
}
