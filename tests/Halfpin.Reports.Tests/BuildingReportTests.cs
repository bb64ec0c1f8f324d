using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Kit;
using Halfpin.Planning.Steps;
using Halfpin.Reports.Html;
using Halfpin.Stability;
using Halfpin.Stability.Drawings;
using Xunit;

namespace Halfpin.Reports.Tests;

public partial class BuildingReportTests
{
    private static readonly ProgramStamp _stamp = new("halfpin", "test");

    // A stock that lacks everything but two rods, so that the page has shortages and what blocks a proposal.
    private static readonly Stock _poor = new()
    {
        Format = Stock.FormatName,
        FormatVersion = 1,
        Title = "<b>Invented</b> poor stock",
        Items = [new StockRod { Name = "R & R", Quantity = 2, DiameterMm = 11, LengthMm = 251, Material = "carbon" }],
    };

    private static readonly KitReport _kit = new KitPlanner(ComparisonReportTests.Example).Plan(Frame("two-plane"), _poor, "ab12", _stamp, "cd34");
    private static readonly StepsReport _steps = new StepsPlanner(ComparisonReportTests.Example).Plan(Frame("two-plane"), _poor, _stamp, "cd34");
    private static readonly string _page = Page(_kit, _steps);

    [Fact]
    public void Page_hasABoxForEveryItemAndEveryStep() =>
        Assert.Equal(_kit.Items.Length + _steps.Steps.Length, Regex.Count(_page, "<input type=\"checkbox\">"));

    [Fact]
    public void Page_carriesStepsCautionsAndTheSafetyNote()
    {
        Assert.All(_steps.Steps, s => Assert.Contains(WebUtility.HtmlEncode(s.Text), _page, StringComparison.Ordinal));
        Assert.All(_steps.Steps.SelectMany(s => s.Cautions).Concat(_kit.Cautions), c => Assert.Contains(WebUtility.HtmlEncode(c.Text), _page, StringComparison.Ordinal));
        Assert.Contains(WebUtility.HtmlEncode(Safety.Note), _page, StringComparison.Ordinal);
        Assert.Contains(Safety.ShortNote, _page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_tellsWhatIsMissingFirst() =>
        Assert.InRange(_page.IndexOf("! Missing", StringComparison.Ordinal), 0, _page.IndexOf("To lay out", StringComparison.Ordinal));

    [Fact]
    public void Page_showsWordsOfAStockAsText()
    {
        Assert.DoesNotContain("<b>Invented</b>", _page, StringComparison.Ordinal);
        Assert.Contains("R &amp; R", _page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_loadsNothingAndHasNoScript()
    {
        Assert.DoesNotContain("<script", _page, StringComparison.Ordinal);
        Assert.DoesNotMatch("(src|href)=", _page);
    }

    [Fact]
    public void Page_ofAMechanism_saysFirstThatItDoesNotHold()
    {
        StepsReport steps = _steps with { Status = FrameStatus.Mechanism, Warning = "This frame does not hold the fracture. It slides.", Diagnosis = new("It slides.", ["c1"], "Tighten it.") };

        string page = Page(_kit, steps);

        Assert.InRange(page.IndexOf("This frame does not hold the fracture. It slides.", StringComparison.Ordinal), 0, page.IndexOf("! Missing", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    [InlineData(1440)]
    public void Page_atAWidth_neitherOverflowsNorGetsTooSmall(int width)
    {
        JsonNode seen = Look(width);

        Assert.Equal((int)seen["client"]!, (int)seen["scroll"]!);
        Assert.Equal(0, (int)seen["wide"]!);
        Assert.True((double)seen["font"]! >= 12);
    }

    private static JsonNode Look(int width) => Browser.InFolder(folder =>
    {
        const string Measure = """
            const page = document.querySelector('iframe').contentDocument;
            const wide = [...page.querySelectorAll('main *')].filter(e => !e.closest('.scroll') && e.getBoundingClientRect().right > page.documentElement.clientWidth + 1);
            document.title = JSON.stringify({ scroll: page.documentElement.scrollWidth, client: page.documentElement.clientWidth, wide: wide.length,
              font: Math.min(...[...page.querySelectorAll('main p, main li, main td, main small, main dt, main figcaption, main caption')].map(e => parseFloat(getComputedStyle(e).fontSize))) });
            """;
        string file = Path.Combine(folder, "look.html"), page = Policy().Replace(_page, "");
        File.WriteAllText(file, string.Create(CultureInfo.InvariantCulture, $"<!doctype html><meta charset=utf-8><body style=margin:0><iframe style=\"border:0;width:{width}px;height:900px\" srcdoc=\"{WebUtility.HtmlEncode(page)}\"></iframe><script>addEventListener('load', () => {{ {Measure} }});</script>"));
        return JsonNode.Parse(WebUtility.HtmlDecode(Title().Match(Browser.Dom(folder, file, "--window-size=1600,1000")).Groups[1].Value))!;
    });

    private static string Page(KitReport kit, StepsReport steps)
    {
        DrawingBuilder drawings = new(ComparisonReportTests.Example);
        return BuildingReport.Html(ComparisonReportTests.Example, kit, steps, drawings.Bone(), drawings.Frame("two-plane", new Assessor(ComparisonReportTests.Example).PartsOf(Frame("two-plane"))));
    }

    private static Domain.Frames.Frame Frame(string id) => ComparisonReportTests.Example.Frames.First(f => f.Id == id);

    [GeneratedRegex("<meta http-equiv[^>]*>")]
    private static partial Regex Policy();

    [GeneratedRegex("<title>(\\{.*?\\})</title>")]
    private static partial Regex Title();
}
