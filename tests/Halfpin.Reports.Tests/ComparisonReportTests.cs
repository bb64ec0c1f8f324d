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
    private static readonly string _page = PageOf(_case);

    [Fact]
    public void Page_carriesTheSafetyNoteAndItsShortForm()
    {
        Assert.Contains(System.Net.WebUtility.HtmlEncode(Safety.Note), _page, StringComparison.Ordinal);
        Assert.Contains(Safety.ShortNote, _page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_carriesTheCautions() => Assert.All(Safety.Cautions, c => Assert.Contains(System.Net.WebUtility.HtmlEncode(c), _page, StringComparison.Ordinal));

    [Fact]
    public void Page_drawsEveryFrameAndItsRose()
    {
        Assert.Equal(7, Regex.Count(_page, "class=\"figure frame\""));
        Assert.Equal(7, Regex.Count(_page, "class=\"figure rose-figure\""));
    }

    [Fact]
    public void Page_hasNoScriptAndAsksForNothingElsewhere()
    {
        Assert.DoesNotContain("<script", _page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotMatch(Elsewhere(), _page);
        Assert.Contains("default-src 'none'", _page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_answerComesBeforeTheTable() =>
        Assert.True(_page.IndexOf("class=\"findings\"", StringComparison.Ordinal) < _page.IndexOf("Side by side", StringComparison.Ordinal));

    [Fact]
    public void Page_namesUnitsAndAssumptions()
    {
        Assert.Contains("N·m/deg", System.Net.WebUtility.HtmlDecode(_page), StringComparison.Ordinal);
        Assert.Contains("What the model assumes", _page, StringComparison.Ordinal);
        Assert.Contains("[ASSUMED]", _page, StringComparison.Ordinal);
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
    public void Page_sameCaseTwice_isTheSameText() => Assert.Equal(_page, PageOf(_case));

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
