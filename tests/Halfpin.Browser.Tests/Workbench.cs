using System.Diagnostics;
using System.Text;
using Microsoft.Playwright;
using Xunit;

// One browser on two cores: pages beside each other would only wait for each other.
[assembly: CollectionBehavior(CollectionBehavior.CollectionPerAssembly)]
[assembly: AssemblyFixture(typeof(Halfpin.Browser.Tests.Workbench))]

namespace Halfpin.Browser.Tests;

/// <summary>The workbench as a user runs it: the program as a process, and a browser on its pages.</summary>
public sealed class Workbench : IAsyncLifetime
{
    private static readonly string[] _flags =
        ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

    private static readonly string _program = Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "..", "..", "Halfpin.Cli", Path.GetFileName(AppContext.BaseDirectory.TrimEnd(Path.DirectorySeparatorChar)), "halfpin.dll"));

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("halfpin-browser-");
    private Process? _server;
    private IPlaywright? _playwright;
    private IBrowser? _browser;
    private IBrowserContext? _context;

    /// <summary>Path of the browser; null where there is none.</summary>
    public static string? Chromium { get; } = new[] { "chromium", "chromium-browser", "google-chrome" }
        .SelectMany(name => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Select(at => Path.Combine(at, name))).FirstOrDefault(File.Exists);

    /// <summary>The address with the access key.</summary>
    public Uri Address { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        _server = Process.Start(new ProcessStartInfo("dotnet", [_program, "serve", "--port", "0", "--no-browser", "--folder", _folder.FullName]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        Address = new((await _server.StandardOutput.ReadLineAsync())!);
        _server.ErrorDataReceived += (_, _) => { };
        _server.BeginErrorReadLine();
        if (Chromium is null)
        {
            return;
        }

        Assertions.SetDefaultExpectTimeout(30_000);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new() { ExecutablePath = Chromium, Args = _flags });
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
        _server?.Kill(entireProcessTree: true);
        await (_server?.WaitForExitAsync() ?? Task.CompletedTask);
        _server?.Dispose();
        _folder.Delete(recursive: true);
    }

    /// <summary>A page of a new browser profile that knows the access key, on the start page.</summary>
    public async Task<IPage> OpenAsync(int width = 1440, int height = 900, ColorScheme scheme = ColorScheme.Light)
    {
        Assert.SkipWhen(Chromium is null, "No Chromium on this machine.");
        await (_context?.CloseAsync() ?? Task.CompletedTask); // The last test's: tests follow each other.
        IBrowserContext context = _context = await _browser!.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, ColorScheme = scheme, AcceptDownloads = true });
        context.SetDefaultTimeout(60_000);
        IPage page = await context.NewPageAsync();
        await page.GotoAsync(Address.ToString());
        return page;
    }

    /// <summary>Opens an example and waits until its frame is live; gives the address of the work.</summary>
    public static async Task<string> BeginAsync(IPage page, string example = "01-oblique-fracture", string? frame = "near-far")
    {
        await page.Locator($"[data-example='{example}']").ClickAsync();
        await page.WaitForURLAsync("**/works/**");
        string work = page.Url[..page.Url.IndexOf("/frame", StringComparison.Ordinal)];
        if (frame is not null)
        {
            await page.GotoAsync($"{work}/frame/{frame}");
            await LiveAsync(page);
        }

        return work;
    }

    /// <summary>Waits until the page of a frame has its first live values.</summary>
    public static Task LiveAsync(IPage page) => page.Locator("[data-shown]").WaitForAsync();

    /// <summary>Runs a verb of the program and gives what it printed.</summary>
    public static async Task<string> RunAsync(params string[] args)
    {
        using Process process = Process.Start(new ProcessStartInfo("dotnet", [_program, .. args]) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
        string text = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return text;
    }
}
