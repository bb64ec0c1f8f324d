using System.Text.RegularExpressions;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Html;
using Halfpin.Stability;
using Halfpin.Stability.Drawings;
using Halfpin.Storage.Cases;
using Xunit;

namespace Halfpin.Reports.Tests;

public partial class ComparisonReportTests
{
    private static readonly Case _case = Read("01-oblique-fracture.json");
    internal static readonly string Page = PageOf(_case);

    [Fact]
    public void Page_carriesTheSafetyNoteAndItsShortForm()
    {
        Assert.Contains(System.Net.WebUtility.HtmlEncode(Safety.Note), Page, StringComparison.Ordinal);
        Assert.Contains(Safety.ShortNote, Page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_carriesTheCautions() => Assert.All(Safety.Cautions, c => Assert.Contains(System.Net.WebUtility.HtmlEncode(c), Page, StringComparison.Ordinal));

    [Fact]
    public void Page_drawsEveryFrameAndItsRose()
    {
        Assert.Equal(7, Regex.Count(Page, "class=\"figure frame\""));
        Assert.Equal(7, Regex.Count(Page, "class=\"figure rose-figure\""));
    }

    [Fact]
    public void Page_hasNoScriptAndAsksForNothingElsewhere()
    {
        Assert.DoesNotContain("<script", Page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotMatch(Elsewhere(), Page);
        Assert.Contains("default-src 'none'", Page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_answerComesBeforeTheTable() =>
        Assert.True(Page.IndexOf("class=\"findings\"", StringComparison.Ordinal) < Page.IndexOf("Side by side", StringComparison.Ordinal));

    [Fact]
    public void Page_namesUnitsAndAssumptions()
    {
        Assert.Contains("N·m/deg", System.Net.WebUtility.HtmlDecode(Page), StringComparison.Ordinal);
        Assert.Contains("What the model assumes", Page, StringComparison.Ordinal);
        Assert.Contains("[ASSUMED]", Page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_hostileTitleAndNames_areInert()
    {
        Case hostile = _case with
        {
            Title = "<script>alert(1)</script>",
            Frames = [.. _case.Frames.Select(f => f with { Name = "\"><img src=x onerror=alert(1)>" })],
        };

        string page = PageOf(hostile);

        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<img", page, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Page_sameCaseTwice_isTheSameText() => Assert.Equal(Page, PageOf(_case));

    [Fact]
    public void Page_withAFrameThatDoesNotHold_showsWhyAndNoNumbers()
    {
        Assessor assessor = new(_case);
        Parts parts = assessor.PartsOf(_case.Frames[0]);
        Case loose = _case with
        {
            Frames = [_case.Frames[1], new() { Id = "loose", Name = "Loose frame", Parts = parts with { Clamps = [.. parts.Clamps.Select((c, i) => i < 2 ? c : c with { State = ClampState.Loose })] } }],
        };

        string page = System.Net.WebUtility.HtmlDecode(PageOf(loose));

        Assert.Contains("The proximal fragment turns about rod r1", page, StringComparison.Ordinal);
        Assert.Contains("does not hold", page, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Infinity", page, StringComparison.Ordinal);
    }

    // Seen from proximal with anterior up, medial lies to the left of a right limb and to the right of a left one.
    [Theory]
    [InlineData(Side.Right, true)]
    [InlineData(Side.Left, false)]
    public void Rose_ofEitherLimb_hasMedialOnItsOwnSide(Side side, bool medialIsLeft)
    {
        string page = PageOf(_case with { Limb = _case.Limb with { Side = side } });
        double X(string word) => double.Parse(Regex.Match(page, $"<text x=\"([0-9.]+)\"[^>]*>{word}</text>").Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture);

        Assert.Equal(medialIsLeft, X("med") < X("lat"));
    }

    private static string PageOf(Case value)
    {
        Assessor assessor = new(value);
        DrawingBuilder drawings = new(value);
        return ComparisonReport.Html(
            value, assessor.Assess(null, new("halfpin", "test"), "abc"), drawings.Bone(), [.. value.Frames.Select(f => drawings.Frame(f.Id, assessor.PartsOf(f)))]);
    }

    private static Case Read(string name) => new CaseReader([]).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", name))).Case!;

    [GeneratedRegex("(src|href)=|url\\(|@import", RegexOptions.IgnoreCase)]
    private static partial Regex Elsewhere();
}
