using System.Diagnostics;
using System.Text.RegularExpressions;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace Halfpin.Browser.Tests;

/// <summary>What must hold on every page: nothing axe finds, the safety note, no sideways scrolling, nothing from elsewhere.</summary>
public class PageTests(Workbench workbench)
{
    private static readonly AxeRunOptions _wcag = new() { RunOnly = new() { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] } };

    public static TheoryData<string> Views => ["frame", "case", "wound", "loading", "stock", "suggest", "compare", "vary", "course", "build", "align"];

    public static MatrixTheoryData<string, ColorScheme> Themes => new(Views.Select(v => v.Data), [ColorScheme.Light, ColorScheme.Dark]);

    // These tests change nothing, so that one work is enough for all of them.
    private async Task<IPage> ViewAsync(string view, int width = 1440, int height = 900, ColorScheme scheme = ColorScheme.Light)
    {
        IPage page = await workbench.OpenAsync($"{await workbench.ShownAsync()}/{view}", width, height, scheme);
        await (view == "frame" ? Workbench.LiveAsync(page) : Workbench.ReadyAsync(page));
        return page;
    }

    [Theory]
    [MemberData(nameof(Themes))]
    public async Task View_scannedByAxe_hasNothingAgainstWcag22AA(string view, ColorScheme scheme)
    {
        IPage page = await ViewAsync(view, scheme: scheme);
        AxeResult result = await page.RunAxe(_wcag);
        Assert.True(result.Violations.Length == 0, string.Join('\n', result.Violations.Select(v => $"{v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Take(4).Select(n => n.Html))}")));
    }

    [Theory]
    [MemberData(nameof(Views))]
    public async Task View_onAPhone_doesNotScrollSideways(string view)
    {
        IPage page = await ViewAsync(view, 390, 800);
        Assert.True(await page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth"));
    }

    [Theory]
    [MemberData(nameof(Views))]
    public async Task View_printed_carriesTheSafetyNote(string view)
    {
        Assert.SkipUnless(File.Exists("/usr/bin/pdftotext"), "No pdftotext on this machine.");
        IPage page = await ViewAsync(view);
        string file = Path.Combine(Path.GetTempPath(), $"halfpin-{view}-{Guid.NewGuid():N}.pdf");
        await page.PdfAsync(new() { Path = file, Format = "A4" });
        using Process reader = Process.Start(new ProcessStartInfo("pdftotext", ["-layout", file, "-"]) { RedirectStandardOutput = true })!;
        string text = await reader.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        File.Delete(file);
        Assert.Contains("not a medical device", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Save case file", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Example_pressedWhileThePageConnects_opens()
    {
        IPage page = await workbench.OpenAsync();
        await page.GotoAsync(workbench.Address.ToString(), new() { WaitUntil = WaitUntilState.Commit });
        await page.Locator("[data-example='01-oblique-fracture'] strong").HoverAsync();
        await page.Mouse.DownAsync();
        await Workbench.ReadyAsync(page);
        await page.Mouse.UpAsync();
        await Assertions.Expect(page).ToHaveURLAsync(new Regex("/works/[^/]+/frame"));
    }

    [Fact]
    public async Task Views_allTogether_askNothingFromElsewhereAndRaiseNoError()
    {
        string work = await workbench.ShownAsync();
        IPage page = await workbench.OpenAsync();
        List<string> wrong = [];
        page.Request += (_, request) =>
        {
            if (new Uri(request.Url) is { Scheme: "http" or "https" or "ws" } url && url.Host != workbench.Address.Host)
            {
                wrong.Add(request.Url);
            }
        };
        page.PageError += (_, error) => wrong.Add(error);
        foreach (string view in Views.Select(v => v.Data))
        {
            await page.GotoAsync(new Uri(workbench.Address, $"{work}/{view}").ToString());
            await (view == "frame" ? Workbench.LiveAsync(page) : Workbench.ReadyAsync(page));
        }

        Assert.Empty(wrong);
    }
}
