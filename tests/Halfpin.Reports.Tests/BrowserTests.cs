using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Xunit;

namespace Halfpin.Reports.Tests;

/// <summary>The report in a real browser: the page lies in a frame of a given width, and a script beside it measures.</summary>
public partial class BrowserTests
{
    private const string Measure = """
        const page = document.querySelector('iframe').contentDocument;
        const wide = [...page.querySelectorAll('main *')].filter(e => !e.closest('.scroll') && e.getBoundingClientRect().right > page.documentElement.clientWidth + 1);
        document.title = JSON.stringify({
          scroll: page.documentElement.scrollWidth, client: page.documentElement.clientWidth, wide: wide.length,
          figures: page.querySelectorAll('svg').length, unnamed: [...page.querySelectorAll('svg')].filter(s => !s.getAttribute('aria-label')).length,
          headings: [...page.querySelectorAll('h1,h2,h3')].map(h => +h.tagName[1]),
          small: [...page.querySelectorAll('summary')].filter(s => s.getBoundingClientRect().height < 24).length,
          font: Math.min(...[...page.querySelectorAll('main p, main li, main td, main small, main dt')].map(e => parseFloat(getComputedStyle(e).fontSize))) });
        """;

    [Theory]
    [InlineData(390)]
    [InlineData(1440)]
    public void Report_atAWidth_doesNotOverflow(int width)
    {
        JsonNode seen = Look(width);

        Assert.Equal((int)seen["client"]!, (int)seen["scroll"]!);
        Assert.Equal(0, (int)seen["wide"]!);
    }

    [Fact]
    public void Report_figures_allHaveATextForThoseWhoCannotSeeThem()
    {
        JsonNode seen = Look(1440);

        Assert.True((int)seen["figures"]! > 14);
        Assert.Equal(0, (int)seen["unnamed"]!);
    }

    [Fact]
    public void Report_headings_skipNoStep()
    {
        int[] levels = [.. Look(1440)["headings"]!.AsArray().Select(h => (int)h!)];

        Assert.Equal(1, levels[0]);
        Assert.All(levels.Zip(levels.Skip(1)), p => Assert.True(p.Second <= p.First + 1));
    }

    [Fact]
    public void Report_targetsAndType_areLargeEnough()
    {
        JsonNode seen = Look(390);

        Assert.Equal(0, (int)seen["small"]!);
        Assert.True((double)seen["font"]! >= 12);
    }

    // One look at each width serves all tests.
    private static readonly ConcurrentDictionary<int, Lazy<JsonNode>> _looks = new();

    private static JsonNode Look(int width) => _looks.GetOrAdd(width, w => new(() => Measured(w))).Value;

    private static JsonNode Measured(int width)
    {
        string? browser = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
            .SelectMany(d => new[] { Path.Combine(d, "chromium"), Path.Combine(d, "chromium.exe") }).FirstOrDefault(File.Exists);
        Assert.SkipUnless(browser is not null, "Chromium is not installed: the report is not looked at in a browser.");
        string folder = Directory.CreateTempSubdirectory("halfpin-test").FullName;
        try
        {
            string report = Policy().Replace(ComparisonReportTests.Page, "");
            string file = Path.Combine(folder, "look.html");
            File.WriteAllText(file, string.Create(CultureInfo.InvariantCulture, $"<!doctype html><meta charset=utf-8><body style=margin:0><iframe style=\"border:0;width:{width}px;height:900px\" srcdoc=\"{WebUtility.HtmlEncode(report)}\"></iframe><script>addEventListener('load', () => {{ {Measure} }});</script>"));
            ProcessStartInfo start = new(browser!, ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", $"--user-data-dir={Path.Combine(folder, "profile")}", "--window-size=1600,1000", "--virtual-time-budget=4000", "--dump-dom", "file://" + file])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            };
            using Process process = Process.Start(start)!;
            Task<string> error = process.StandardError.ReadToEndAsync();
            string dom = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return JsonNode.Parse(WebUtility.HtmlDecode(Title().Match(dom).Groups[1].Value)) ?? throw new InvalidOperationException(error.Result);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    // The report's own policy forbids scripts; the copy that is measured goes without it.
    [GeneratedRegex("<meta http-equiv=\"Content-Security-Policy\"[^>]*>")]
    private static partial Regex Policy();

    [GeneratedRegex("<title>(\\{.*?\\})</title>")]
    private static partial Regex Title();
}
