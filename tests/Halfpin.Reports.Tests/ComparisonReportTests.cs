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
    internal static readonly Case Example = Read("01-oblique-fracture.json");
    internal static readonly string Page = PageOf(Example);

    // What a reader sees of it: no style, no escapes.
    private static readonly string _text = System.Net.WebUtility.HtmlDecode(Page[Page.IndexOf("<body>", StringComparison.Ordinal)..]);

    [Fact]
    public void Page_carriesTheSafetyNoteAndItsShortForm()
    {
        Assert.Contains(System.Net.WebUtility.HtmlEncode(Safety.Note), Page, StringComparison.Ordinal);
        Assert.Contains(Safety.ShortNote, Page, StringComparison.Ordinal);
        Assert.Contains(Safety.NotChecked, Page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_carriesTheCautions() => Assert.All(Safety.Cautions, c => Assert.Contains(System.Net.WebUtility.HtmlEncode(c), Page, StringComparison.Ordinal));

    [Fact]
    public void Page_drawsEveryFrameInTwoViewsItsSectionAndItsRose()
    {
        Assert.Equal(14, Regex.Count(Page, "class=\"figure frame\""));
        Assert.Equal(7, Regex.Count(Page, "class=\"figure section-figure\""));
        Assert.Equal(7, Regex.Count(Page, "class=\"figure rose-figure\""));
    }

    [Fact]
    public void Page_saysFromWhereEachFigureIsSeen()
    {
        Assert.Equal(7, Regex.Count(_text, "<figcaption>Seen from the front, left leg<"));
        Assert.Equal(7, Regex.Count(_text, "<figcaption>Seen from the medial side, left leg<"));
        Assert.Equal(7, Regex.Count(_text, "<figcaption>Bone at the fracture, seen from the foot, left leg<"));
        Assert.Equal(7, Regex.Count(_text, "<figcaption>Bending stiffness by direction, seen from the foot, left leg\\."));
    }

    // The weak plane of a single rod at 50° is the one square to its pins.
    [Fact]
    public void Rose_namesItsWeakPlaneInWordsAndDegreesWithItsUnit() =>
        Assert.Matches(@"Weakest [\d.]+ N·m/deg in the anterolateral–posteromedial plane \(−40°\), strongest [\d.]+ square to it\.", _text);

    [Fact]
    public void Frame_tellsMotionStiffnessByPlaceAndNearestLimits()
    {
        Assert.Contains("Chosen: 5 kg axial", _text, StringComparison.Ordinal);
        Assert.Contains("Overload: 29 kg axial", _text, StringComparison.Ordinal);
        Assert.Equal(7, Regex.Count(_text, "<span>At the fracture<"));
        Assert.Equal(7, Regex.Count(_text, "<span>At the load, ends guided<"));
        Assert.Equal(7, Regex.Count(_text, "<span>Highest-stressed pin<"));
    }

    // 35.3 % of 68 kg beyond 5 kg slide the dynamised frame farther than small displacements describe.
    [Fact]
    public void Overload_beyondTheRangeOfTheModel_isWithheldWithItsReason() =>
        Assert.Single(Regex.Matches(_text, "Overload<small>withheld: beyond the range of the model<"));

    // All seven have results; the dynamised frame slides to the touch at once.
    [Fact]
    public void Frame_tellsHowItsBoneEndsComeToBear()
    {
        Assert.Equal(7, Regex.Count(_text, "<span>First touch<"));
        Assert.Matches(@"<span>First touch</span></td><td class=""text""[^>]*><span>from \d+ N \(\d+ kg\)<small>\w+, −?\d+°<", _text);
        Assert.Matches(@"\d+ N/mm before, up to \d+ N/mm after the touch", _text);
        Assert.Contains("no load to allow", _text, StringComparison.Ordinal);
    }

    [Fact]
    public void Frame_tellsHowItsPinsStandRepeatedSteps()
    {
        Assert.Contains("Pins in 10 million steps at the chosen load", _text, StringComparison.Ordinal);
        Assert.Matches(@"10 million and more<small>[\d.]+ million – 10 million and more<", _text);
    }

    // It closes a gap of 3 mm in the softest frame.
    [Fact]
    public void Overload_thatBringsTheEndsTogether_saysWhoCarriesTheLoad() =>
        Assert.Matches(@"Overload: 29 kg axial<small>bone ends bear; the frame carries \d\d %<", _text);

    [Fact]
    public void Motion_showsWhatTheInputsMayDo() => Assert.Matches(@"softest to stiffest</span></td><td data-name=""Axial, mm""><span>\d\.\d\d–\d\.\d\d<", _text);

    [Fact]
    public void Frame_sizesEveryPinAndRodThatIsDrawn()
    {
        string frame = _text[_text.IndexOf("<h3>Two-plane V", StringComparison.Ordinal).._text.IndexOf("<h3>Double rod, far-far", StringComparison.Ordinal)];

        Assert.All(Enumerable.Range(1, 8), i => Assert.Matches($"<td><span>p{i}</span></td>.*<span>steel</span>.*<span>5[2-9](\\.\\d)? to r[12] \\(c{i}\\)</span>", frame));
        Assert.All(new[] { "r1", "r2" }, r => Assert.Matches($"<td><span>{r}</span></td>.*<span>11</span>.*<span>carbon</span>.*<span>4 pins, l1 \\(x[12]\\), l2 \\(x[34]\\)</span>", frame));
        Assert.Equal(2, Regex.Count(frame, "<small>cross-link</small>"));
    }

    [Fact]
    public void Page_countsCrossLinksApart() => Assert.Contains("8 pins, 2 rods + 2 cross-links, 12 clamps", _text, StringComparison.Ordinal);

    [Fact]
    public void Page_showsTheNotesOfTheCase() => Assert.Contains("Invented for demonstration. No real patient, place or product.", _text, StringComparison.Ordinal);

    [Fact]
    public void Page_ofASegmentalFracture_drawsThreeFragmentsAndTellsMotionAtBothFractures()
    {
        Case value = Read("04-segmental-fracture.json");
        string page = System.Net.WebUtility.HtmlDecode(PageOf(value));

        // Two views of three frames, each with three fragments, and a section of the bone each.
        Assert.Equal((2 * 3 * 3) + 3, Regex.Count(page, "<polygon [^>]*class=\"bone\""));
        Assert.Equal(2, Regex.Count(page, "<span>Fracture 1\\. Chosen: 5 kg axial"));
        Assert.Equal(2, Regex.Count(page, "<span>Fracture 2\\. Overload: 30 kg axial"));
        Assert.Equal(2, Regex.Count(page, "<span>At fracture 2<"));
        Assert.Contains("oblique fracture at level 138 mm, gap 2 mm, tilted 20° down to posteromedial and comminuted fracture at level 214 mm, gap 5 mm;", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_ofACaseWithoutNotes_hasNoRoomForThem() => Assert.DoesNotContain("Notes of the case", PageOf(Example with { Notes = [] }), StringComparison.Ordinal);

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
        Case hostile = Example with
        {
            Title = "<script>alert(1)</script>",
            Notes = ["<script>alert(2)</script>", "<img src=x onerror=alert(3)>", "</main></body>"],
            Frames = [.. Example.Frames.Select(f => f with { Name = "\"><img src=x onerror=alert(1)>" })],
        };

        string page = PageOf(hostile);

        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<img", page, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(1, Regex.Count(page, "</main>"));
    }

    [Fact]
    public void Page_sameCaseTwice_isTheSameText() => Assert.Equal(Page, PageOf(Example));

    [Fact]
    public void Page_withAFrameThatDoesNotHold_showsWhyAndNoNumbers()
    {
        Assessor assessor = new(Example);
        Parts parts = assessor.PartsOf(Example.Frames[0]);
        Case loose = Example with
        {
            Frames = [Example.Frames[1], new() { Id = "loose", Name = "Loose frame", Parts = parts with { Clamps = [.. parts.Clamps.Select((c, i) => i < 2 ? c : c with { State = ClampState.Loose })] } }],
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
