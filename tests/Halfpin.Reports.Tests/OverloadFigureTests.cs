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

    // Whatever has a colour by day has another by night, and every drawn class has one.
    [Fact]
    public void Plot_afterDark_recoloursAllThatItDraws()
    {
        XElement svg = XDocument.Parse(OverloadFigure.Draw(_report)).Root!;
        string style = svg.Elements().Single(e => e.Name.LocalName == "style").Value, dark = style[style.IndexOf("(prefers-color-scheme:dark)", StringComparison.Ordinal)..];
        string[] drawn = [.. svg.Elements().Where(e => e.Name.LocalName is not "text" and not "style" and not "title").Select(e => e.Attribute("class")!.Value).Distinct()];

        Assert.All(drawn.Select(c => $".{c}{{").Append("text{"), rule => Assert.NotEqual(Colour(style, rule), Colour(dark, rule)));
    }

    private static string Colour(string style, string rule)
    {
        int at = style.IndexOf(rule, StringComparison.Ordinal), hash = style.IndexOf('#', at);
        Assert.True(at >= 0 && hash < style.IndexOf('}', at), rule);
        return style[hash..style.IndexOfAny(['}', ';'], hash)];
    }

    private static OverloadPoint Corner(double loadN, double closingMm) => new(loadN, -closingMm, 0, 0, 0, null);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
