using System.Globalization;
using System.Xml.Linq;
using Halfpin.Domain.Assessments;
using Halfpin.Reports.Figures;
using Xunit;

namespace Halfpin.Reports.Tests;

public class OverloadFigureTests
{
    // Up with a bend at 150 N and 0.7 mm, down straight from 210 N and 1.3 mm to 0.4 mm; invented. Both ways pass 90 N, each at its own closing.
    private static readonly OverloadReport _report = new()
    {
        Program = new("halfpin", "test"),
        CaseSha256 = "",
        CaseTitle = "Test",
        SafetyNote = Safety.Note,
        Frame = "f",
        Name = "A <frame> & more",
        Status = FrameStatus.Ok,
        ToN = 210,
        Complete = true,
        SetMm = 0.4,
        Assumptions = [],
        Path = [Corner(0, 0), Corner(150, 0.7), Corner(210, 1.3), Corner(0, 0.4)],
        Events =
        [
            new(90, OverloadEventKind.Yield, "p1", "One.", false),
            new(150, OverloadEventKind.Slip, "c1", "Two.", false),
            new(90, OverloadEventKind.Slip, "c2", "Three.", true),
        ],
    };

    [Theory]
    [InlineData(0, 90 / 150.0 * 0.7)]
    [InlineData(1, 0.7)]
    [InlineData(2, 0.4 + (90 / 210.0 * 0.9))]
    public void Event_stands_onItsOwnWay(int number, double closingMm)
    {
        XElement svg = XDocument.Parse(OverloadFigure.Draw(_report)).Root!;
        XElement[] marks = [.. svg.Elements().Where(e => e.Name.LocalName == "circle")];
        double[] path = [.. svg.Elements().Single(e => e.Name.LocalName == "polyline").Attribute("points")!.Value.Split(' ').Select(p => Number(p.Split(',')[0]))];

        // The path's first and third corners give the scale.
        double expected = path[0] + (closingMm / 1.3 * (path[2] - path[0]));
        Assert.Equal(expected, Number(marks[number].Attribute("cx")!.Value), 0.02);
    }

    [Fact]
    public void Plot_standsAlone_withTheSafetyNote()
    {
        XElement svg = XDocument.Parse(OverloadFigure.Draw(_report)).Root!;

        Assert.Equal("http://www.w3.org/2000/svg", svg.Name.NamespaceName);
        Assert.Contains("not a medical device", svg.Value, StringComparison.Ordinal);
        Assert.Contains("A <frame> & more", svg.Value, StringComparison.Ordinal);
    }

    // The second fracture closes to 0.3 mm under the same loads; its ends touch at 150 N, those of the first at 90 N.
    private static readonly OverloadReport _two = _report with
    {
        Fractures =
        [
            new(120, _report.Path, 0.4),
            new(210, [Corner(0, 0), Corner(150, 0.2), Corner(210, 0.3), Corner(0, 0.1)], 0.1),
        ],
        Events =
        [
            new(90, OverloadEventKind.Contact, "fracture 1", "One.", false),
            new(150, OverloadEventKind.Contact, "fracture 2", "Two.", false),
            new(90, OverloadEventKind.Slip, "c2", "Three.", true),
        ],
    };

    [Fact]
    public void Plot_ofTwoFractures_hasAPanelForEachOnTheSameScales()
    {
        XElement svg = XDocument.Parse(OverloadFigure.Draw(_two)).Root!;
        (double X, double Y)[][] paths = [.. svg.Elements().Where(e => e.Name.LocalName == "polyline").Select(Points)];

        Assert.Equal(2, paths.Length);
        Assert.True(paths[1].Min(p => p.X) > paths[0].Max(p => p.X));
        Assert.Equal(paths[0].Select(p => p.Y), paths[1].Select(p => p.Y));
        Assert.Equal(1.3 / 0.3, (paths[0][2].X - paths[0][0].X) / (paths[1][2].X - paths[1][0].X), 0.01);
        Assert.Contains("Fracture 2, 0.10 mm left", svg.Value, StringComparison.Ordinal);
    }

    // Touch is marked at its own fracture, slip at both.
    [Fact]
    public void Event_ofBoneEnds_standsAtTheirFractureAlone()
    {
        XElement svg = XDocument.Parse(OverloadFigure.Draw(_two)).Root!;
        double middle = Points(svg.Elements().Where(e => e.Name.LocalName == "polyline").ElementAt(1)).Min(p => p.X) - 10;
        (bool Second, string Number)[] marks = [.. svg.Elements().Where(e => e.Attribute("class")?.Value == "number").Select(e => (Number(e.Attribute("x")!.Value) > middle, e.Value))];

        Assert.Equal([(false, "1"), (false, "3"), (true, "2"), (true, "3")], marks);
    }

    // Touch on the way up and coming apart on the way back fall on one corner of an elastic path.
    [Fact]
    public void Events_thatFallOnEachOther_shareAMark()
    {
        OverloadReport elastic = _report with
        {
            Path = [Corner(0, 0), Corner(150, 0.7), Corner(210, 1.3), Corner(150, 0.7), Corner(0, 0)],
            Events = [new(150, OverloadEventKind.Contact, "fracture", "One.", false), new(150, OverloadEventKind.Contact, "fracture", "Two.", true)],
        };
        XElement svg = XDocument.Parse(OverloadFigure.Draw(elastic)).Root!;

        Assert.Equal(["1, 2"], svg.Elements().Where(e => e.Attribute("class")?.Value == "number").Select(e => e.Value));
    }

    [Fact]
    public void Plot_forThoseWhoDoNotSeeIt_saysHowFarEachFractureCloses()
    {
        Assert.Equal(
            "Fracture 1 closes by 1.30 mm up to 210 N; 0.40 mm are left between its faces when the load is off. "
            + "Fracture 2 closes by 0.30 mm up to 210 N; 0.10 mm are left between its faces when the load is off.",
            OverloadFigure.Words(_two));
        Assert.Contains(OverloadFigure.Words(_two), XDocument.Parse(OverloadFigure.Draw(_two)).Root!.Value, StringComparison.Ordinal);
    }

    // Whatever has a colour by day has another by night, and every drawn class has one.
    [Fact]
    public void Plot_afterDark_recoloursAllThatItDraws()
    {
        XElement svg = XDocument.Parse(OverloadFigure.Draw(_report)).Root!;
        string style = svg.Elements().Single(e => e.Name.LocalName == "style").Value, dark = style[style.IndexOf("(prefers-color-scheme:dark)", StringComparison.Ordinal)..];
        string[] drawn = [.. svg.Elements().Where(e => e.Name.LocalName is not ("text" or "style" or "title" or "desc")).Select(e => e.Attribute("class")!.Value).Distinct()];

        Assert.All(drawn.Select(c => $".{c}{{").Append("text{"), rule => Assert.NotEqual(Colour(style, rule), Colour(dark, rule)));
    }

    private static string Colour(string style, string rule)
    {
        int at = style.IndexOf(rule, StringComparison.Ordinal), hash = style.IndexOf('#', at);
        Assert.True(at >= 0 && hash < style.IndexOf('}', at), rule);
        return style[hash..style.IndexOfAny(['}', ';'], hash)];
    }

    private static (double X, double Y)[] Points(XElement line) =>
        [.. line.Attribute("points")!.Value.Split(' ').Select(p => (Number(p.Split(',')[0]), Number(p.Split(',')[1])))];

    private static OverloadPoint Corner(double loadN, double closingMm) => new(loadN, -closingMm, 0, 0, 0, null);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
