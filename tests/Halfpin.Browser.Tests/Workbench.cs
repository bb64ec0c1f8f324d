using System.Diagnostics;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using System.Web;
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
    private readonly Lazy<Task<string>> _shown;
    private IBrowserContext? _context;

    public Workbench() => _shown = new(() => PostAsync());

    /// <summary>Path of the browser; null where there is none.</summary>
    public static string? Chromium { get; } = new[] { "chromium", "chromium-browser", "google-chrome" }
        .SelectMany(name => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Select(at => Path.Combine(at, name))).FirstOrDefault(File.Exists);

    /// <summary>The address with the access key.</summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>A work on the oblique fracture that tests look at together: none of them changes it.</summary>
    public Task<string> ShownAsync() => _shown.Value;

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

    /// <summary>A page of a new browser profile that knows the access key.</summary>
    /// <param name="at">Path of the page; the start page without it.</param>
    /// <param name="width">Width of the window, px.</param>
    /// <param name="height">Its height, px.</param>
    /// <param name="scheme">Light or dark.</param>
    /// <param name="touch">Whether it is a device worked by fingers.</param>
    public async Task<IPage> OpenAsync(string at = "/", int width = 1440, int height = 900, ColorScheme scheme = ColorScheme.Light, bool touch = false)
    {
        Assert.SkipWhen(Chromium is null, "No Chromium on this machine.");
        await (_context?.CloseAsync() ?? Task.CompletedTask); // The last test's: tests follow each other.
        IBrowserContext context = _context = await _browser!.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, ColorScheme = scheme, AcceptDownloads = true, HasTouch = touch, IsMobile = touch });
        context.SetDefaultTimeout(60_000);
        IPage page = await context.NewPageAsync();
        await page.GotoAsync(new Uri(Address, at + Address.Query).ToString());
        return page;
    }

    /// <summary>The page of a frame of a new work on the oblique fracture, live.</summary>
    public async Task<IPage> OpenFrameAsync(string frame = "near-far", int width = 1440, int height = 900, bool touch = false)
    {
        IPage page = await OpenAsync($"{await PostAsync()}/frame/{frame}", width, height, touch: touch);
        await LiveAsync(page);
        return page;
    }

    /// <summary>Begins a work as a program does; gives its path.</summary>
    /// <param name="change">What is changed of the example of the oblique fracture.</param>
    public async Task<string> PostAsync(Action<JsonObject>? change = null)
    {
        JsonObject value = JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "examples", "01-oblique-fracture.json")))!.AsObject();
        change?.Invoke(value);
        using HttpClient client = new() { BaseAddress = new(Address, "/") };
        client.DefaultRequestHeaders.Add("Halfpin-Key", HttpUtility.ParseQueryString(Address.Query)["key"]);
        using HttpResponseMessage answer = await client.PostAsync("/api/works", new StringContent(value.ToJsonString(), Encoding.UTF8, "application/json"));
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return $"/works/{JsonNode.Parse(text)!["id"]!.GetValue<string>()}";
    }

    /// <summary>Waits until a page answers: what is pressed before, on the page as it was first drawn, is lost.</summary>
    public static Task ReadyAsync(IPage page) => page.Locator("[data-ready]").WaitForAsync();

    /// <summary>Waits until the page of a frame answers and has its first live values.</summary>
    public static async Task LiveAsync(IPage page)
    {
        await ReadyAsync(page);
        await page.Locator("[data-shown]").WaitForAsync();
    }

    /// <summary>Runs a verb of the program and gives what it printed.</summary>
    public static async Task<string> RunAsync(params string[] args)
    {
        using Process process = Process.Start(new ProcessStartInfo("dotnet", [_program, .. args]) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
        string text = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return text;
    }
}
