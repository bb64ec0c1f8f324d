using System.Globalization;
using System.Text.RegularExpressions;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Reports.Figures;
using Halfpin.Stability.Drawings;
using Xunit;

namespace Halfpin.Reports.Tests;

public partial class RoseTests
{
    // A word of seven letters at 13 px is a little under 50 px long.
    private const double Size = 380, WordPx = 50;

    [Fact]
    public void WeakName_inAnyDirection_staysWithinTheFigure()
    {
        for (int azimuth = -85; azimuth <= 90; azimuth += 5)
        {
            (double x, double y, bool fromHere) = WeakName(Drawn(Side.Left, azimuth));

            Assert.InRange(x, fromHere ? 0 : WordPx, fromHere ? Size - WordPx : Size);
            Assert.InRange(y, 12, Size - 18);
        }
    }

    [Fact]
    public void WeakLine_ofALeftLeg_runsFromAnterolateralOnTheRightToPosteromedial()
    {
        Match line = WeakLine().Match(Drawn(Side.Left, -40));

        Assert.Equal((Size / 2) + (146 * Math.Sin(40 * Math.PI / 180)), Number(line.Groups[1]), 0.01);
        Assert.Equal((Size / 2) - (146 * Math.Cos(40 * Math.PI / 180)), Number(line.Groups[2]), 0.01);
    }

    [Fact]
    public void Rings_sayTheirStiffnessWithItsUnit()
    {
        string svg = System.Net.WebUtility.HtmlDecode(Drawn(Side.Left, -40));

        Assert.Contains(">25 N·m/deg<", svg, StringComparison.Ordinal);
        Assert.Contains(">12.5<", svg, StringComparison.Ordinal);
    }

    private static string Drawn(Side side, double weakAzimuthDeg)
    {
        Case value = ComparisonReportTests.Example with { Limb = ComparisonReportTests.Example.Limb with { Side = side } };
        BendingRose rose = new(weakAzimuthDeg, 3.7, 11.3, [.. Enumerable.Repeat(7.1, 36)]);
        return RoseFigure.Draw(value, new DrawingBuilder(value).Bone(), rose, 25, "a rose");
    }

    private static (double X, double Y, bool FromHere) WeakName(string svg)
    {
        Match m = WeakWord().Match(svg);
        return (Number(m.Groups[1]), Number(m.Groups[2]), m.Groups[3].Value == "start");
    }

    private static double Number(Group g) => double.Parse(g.Value, CultureInfo.InvariantCulture);

    [GeneratedRegex("<text x=\"([-\\d.]+)\" y=\"([-\\d.]+)\" text-anchor=\"(\\w+)\" class=\"weak-name\">weakest")]
    private static partial Regex WeakWord();

    [GeneratedRegex("<line x1=\"([-\\d.]+)\" y1=\"([-\\d.]+)\" x2=\"[-\\d.]+\" y2=\"[-\\d.]+\" class=\"weak\"/>")]
    private static partial Regex WeakLine();
}
