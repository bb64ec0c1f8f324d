using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Xunit;

namespace Halfpin.Reports.Tests;

/// <summary>The report in a real browser: the page lies in a frame of a given width, and a script beside it measures.</summary>
public partial class BrowserTests
{
    // A word is broken when its letters stand on more than one line; only whole words of letters count, not those with hyphens.
    private const string Measure = """
        const page = document.querySelector('iframe').contentDocument;
        page.querySelectorAll('details').forEach(d => d.open = true);
        const wide = [...page.querySelectorAll('main *')].filter(e => !e.closest('.scroll') && e.getBoundingClientRect().right > page.documentElement.clientWidth + 1);
        const broken = [];
        for (const cell of page.querySelectorAll('th, td')) {
          const texts = page.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
          for (let t = texts.nextNode(); t; t = texts.nextNode())
            for (const m of t.data.matchAll(/(?<=^|[ (])[A-Za-z]+(?=$|[ .,;:)])/g)) {
              const range = page.createRange();
              range.setStart(t, m.index); range.setEnd(t, m.index + m[0].length);
              if (new Set([...range.getClientRects()].map(r => Math.round(r.top))).size > 1) broken.push(m[0]);
            }
        }
        const boxes = [...page.querySelectorAll('svg.figure')].map(s => { const b = s.getBBox(), v = s.viewBox.baseVal; return b.x >= -1 && b.y >= -1 && b.x + b.width <= v.width + 1 && b.y + b.height <= v.height + 1; });
        document.title = JSON.stringify({
          scroll: page.documentElement.scrollWidth, client: page.documentElement.clientWidth, wide: wide.length, broken, cut: boxes.filter(b => !b).length,
          figures: page.querySelectorAll('svg').length, unnamed: [...page.querySelectorAll('svg')].filter(s => !s.getAttribute('aria-label')).length,
          captions: [...page.querySelectorAll('figure')].filter(f => f.querySelector('figcaption').textContent.includes('left leg')).length,
          headings: [...page.querySelectorAll('h1,h2,h3')].map(h => +h.tagName[1]),
          small: [...page.querySelectorAll('summary')].filter(s => s.getBoundingClientRect().height < 24).length,
          font: Math.min(...[...page.querySelectorAll('main p, main li, main td, main small, main dt, main figcaption, main caption')].map(e => parseFloat(getComputedStyle(e).fontSize))) });
        """;

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    [InlineData(1440)]
    public void Report_atAWidth_doesNotOverflow(int width)
    {
        JsonNode seen = Look(width);

        Assert.Equal((int)seen["client"]!, (int)seen["scroll"]!);
        Assert.Equal(0, (int)seen["wide"]!);
    }

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    [InlineData(1440)]
    public void Report_wordsInTables_areNotBroken(int width) => Assert.Empty(Look(width)["broken"]!.AsArray());

    [Fact]
    public void Report_figures_allHaveATextForThoseWhoCannotSeeThem()
    {
        JsonNode seen = Look(1440);

        Assert.True((int)seen["figures"]! > 28);
        Assert.Equal(0, (int)seen["unnamed"]!);
    }

    [Fact]
    public void Report_figures_areNotCutOff() => Assert.Equal(0, (int)Look(1440)["cut"]!);

    // Two views, a section and a rose of each of seven frames.
    [Fact]
    public void Report_figures_allSayWhichLegTheyShow() => Assert.Equal(28, (int)Look(1440)["captions"]!);

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

    private static JsonNode Measured(int width) => Browser.InFolder(folder =>
    {
        string report = Policy().Replace(ComparisonReportTests.Page, "");
        string file = Path.Combine(folder, "look.html");
        File.WriteAllText(file, string.Create(CultureInfo.InvariantCulture, $"<!doctype html><meta charset=utf-8><body style=margin:0><iframe style=\"border:0;width:{width}px;height:900px\" srcdoc=\"{WebUtility.HtmlEncode(report)}\"></iframe><script>addEventListener('load', () => {{ {Measure} }});</script>"));
        string dom = Browser.Dom(folder, file, "--window-size=1600,1000");
        return JsonNode.Parse(WebUtility.HtmlDecode(Title().Match(dom).Groups[1].Value))!;
    });

    // The report's own policy forbids scripts; the copy that is measured goes without it.
    [GeneratedRegex("<meta http-equiv=\"Content-Security-Policy\"[^>]*>")]
    private static partial Regex Policy();

    [GeneratedRegex("<title>(\\{.*?\\})</title>")]
    private static partial Regex Title();
}
