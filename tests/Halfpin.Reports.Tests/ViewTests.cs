using System.Globalization;
using System.Text.RegularExpressions;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Figures;
using Halfpin.Stability;
using Halfpin.Stability.Drawings;
using Xunit;

namespace Halfpin.Reports.Tests;

/// <summary>Which way round a limb is drawn. A reader who faces a patient sees the patient's left on the right.</summary>
public partial class ViewTests
{
    private static readonly LimbPoint _anterior = new(31, 0, -7), _medial = new(0, 31, -7);

    [Fact]
    public void Front_ofARightLeg_hasMedialOnTheRight() => Assert.Equal(31, View.Front(Side.Right).Right(_medial), 9);

    [Fact]
    public void Front_ofALeftLeg_hasMedialOnTheLeft() => Assert.Equal(-31, View.Front(Side.Left).Right(_medial), 9);

    [Theory]
    [InlineData(Side.Left)]
    [InlineData(Side.Right)]
    public void Front_hasAnteriorTowardTheReader(Side side) => Assert.Equal(31, View.Front(side).Toward(_anterior), 9);

    // From a right leg's medial side the toes point to the reader's left.
    [Theory]
    [InlineData(Side.Left, 31)]
    [InlineData(Side.Right, -31)]
    public void MedialView_hasAnteriorOnTheSideOfTheToes(Side side, double rightMm)
    {
        Assert.Equal(rightMm, View.Medial(side).Right(_anterior), 9);
        Assert.Equal(31, View.Medial(side).Toward(_medial), 9);
    }

    [Theory]
    [InlineData(Side.Left)]
    [InlineData(Side.Right)]
    public void Words_standWhereTheirDirectionsPoint(Side side)
    {
        Assert.Equal(View.Front(side).Right(_medial) > 0 ? "medial" : "lateral", View.Front(side).RightWord);
        Assert.Equal(View.Front(side).Right(_medial) > 0 ? "lateral" : "medial", View.Front(side).LeftWord);
        Assert.Equal(View.Medial(side).Right(_anterior) > 0 ? "anterior" : "posterior", View.Medial(side).RightWord);
        Assert.Equal(View.Medial(side).Right(_anterior) > 0 ? "posterior" : "anterior", View.Medial(side).LeftWord);
    }

    // Of a view from the foot and one from the front, both with the same side to the reader's right, medial is on that side in both.
    [Theory]
    [InlineData(Side.Left)]
    [InlineData(Side.Right)]
    public void Section_hasAnteriorUpAndMedialWhereTheFrontViewHasIt(Side side)
    {
        Assert.Equal(31, SectionFigure.Plane(side, _anterior).Up, 9);
        Assert.Equal(View.Front(side).Right(_medial), SectionFigure.Plane(side, _medial).Right, 9);
    }

    [Fact]
    public void LeftLeg_drawn_isTheMirrorImageOfARightOne()
    {
        foreach ((FrameFigure left, FrameFigure right) in Figures(Side.Left).Zip(Figures(Side.Right)))
        {
            (double X1, double X2)[] a = Pins(left), b = Pins(right);

            Assert.NotEmpty(a);
            Assert.Equal(left.Width, right.Width, 9);
            Assert.All(a.Zip(b), p => Assert.Equal(left.Width, p.First.X1 + p.Second.X1, 0.02));
            Assert.All(a.Zip(b), p => Assert.Equal(left.Width, p.First.X2 + p.Second.X2, 0.02));
        }
    }

    [Fact]
    public void AnteromedialPinOfALeftLeg_seenFromTheFront_pointsToTheLeft() => Assert.All(Pins(Figures(Side.Left)[0]), p => Assert.True(p.X2 < p.X1));

    // Of the proximal fragment of a left leg the lowest point lies where the plane slopes down to.
    [Theory]
    [InlineData(-60, true)]
    [InlineData(75, false)]
    public void FracturePlane_ofALeftLeg_slopesDownTowardItsTiltAzimuth(double tiltAzimuthDeg, bool lateral)
    {
        Case example = ComparisonReportTests.Example;
        string svg = Views(example with { Fractures = [example.Fractures[0] with { TiltAzimuthDeg = tiltAzimuthDeg }] })[0].Draw("front");
        (double X, double Y)[] proximal = [.. Bone().Match(svg).Groups[1].Value.Split(' ').Select(p => p.Split(',')).Select(p => (double.Parse(p[0], CultureInfo.InvariantCulture), double.Parse(p[1], CultureInfo.InvariantCulture)))];

        Assert.Equal(lateral, proximal.MaxBy(p => p.Y).X > proximal.Average(p => p.X));
    }

    [Fact]
    public void Wound_behindTheBone_isNotDrawnOnIt()
    {
        Case front = With(w => w with { FromAzimuthDeg = -55, ToAzimuthDeg = -15 }), behind = With(w => w with { FromAzimuthDeg = 160, ToAzimuthDeg = -160 });

        Assert.Contains("wound-area", Views(front)[0].Draw("front"), StringComparison.Ordinal);
        Assert.DoesNotContain("wound-area", Views(behind)[0].Draw("front"), StringComparison.Ordinal);
    }

    private static Case With(Func<Wound, Wound> change) => ComparisonReportTests.Example with { Wounds = [change(ComparisonReportTests.Example.Wounds[0])] };

    private static FrameFigure[] Figures(Side side) => Views(ComparisonReportTests.Example with { Limb = ComparisonReportTests.Example.Limb with { Side = side } });

    // A single rod at 50°.
    private static FrameFigure[] Views(Case value)
    {
        DrawingBuilder drawings = new(value);
        (FrameFigure front, FrameFigure medial) = FrameFigure.Of(value, drawings.Bone(), [drawings.Frame("far-far", new Assessor(value).PartsOf(value.Frames[0]))])[0];
        return [front, medial];
    }

    private static (double X1, double X2)[] Pins(FrameFigure figure) =>
        [.. Pin().Matches(figure.Draw("a frame")).Select(m => (Number(m.Groups[1]), Number(m.Groups[2])))];

    private static double Number(Group g) => double.Parse(g.Value, CultureInfo.InvariantCulture);

    [GeneratedRegex("<polygon points=\"([^\"]+)\" class=\"bone\"/>")]
    private static partial Regex Bone();

    [GeneratedRegex("<line x1=\"([-\\d.]+)\" y1=\"[-\\d.]+\" x2=\"([-\\d.]+)\" y2=\"[-\\d.]+\" stroke-width=\"[\\d.]+\" class=\"pin\"/>")]
    private static partial Regex Pin();
}
