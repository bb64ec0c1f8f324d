using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Geometry;
using Xunit;

namespace Halfpin.Planning.Tests.Alignment;

public class FrameReductionTests
{
    private const double DegPerRad = 180 / Math.PI;

    // By hand: pins point forward at radius 61 on a rod parallel to the bone; recurvatum 9.3° is undone about the fracture's centre. A pin
    // h below it, turned by A, meets the rod's line x = 61 at s = (61 + h·sin A)/cos A from the bone's axis, and there
    // h·cos A + s·sin A below the centre.
    [Fact]
    public void SingleRod_turnedInItsPlane_slidesAsByHand()
    {
        const double a = -9.3;
        ReductionWay way = Bench.Report(Bench.Exactly(0, a), Bench.Case(Side.Right, Bench.SingleRod(0))).Corrections[0].Ways.First(w => w.Id == "distalPinClamps");
        double sin = Math.Sin(-a / DegPerRad), cos = Math.Cos(a / DegPerRad), h = 293 - Bench.FractureMm;
        double s = (61 + (h * sin)) / cos;
        ClampTravel c4 = way.Clamps.First(c => c.Clamp == "c4");

        Assert.Equal(["c3", "c4"], way.Loosen);
        Assert.Equal(s - 61, c4.SlideAlongMemberMm, 1e-9);
        Assert.Equal((h * cos) - (s * -sin) - h, c4.SlideAlongRodMm, 1e-9);
        Assert.Equal(0, c4.MisfitMm, 1e-9);
        Assert.Equal(9.3, Math.Abs(c4.HingeDeg), 1e-9);
        Assert.Equal(0, c4.TurnAboutRodDeg, 1e-9);
    }

    // By hand: rotation about the bone turns a pin about the rod as well; its line then passes the rod's line, 61 mm out, at 61·sin.
    [Fact]
    public void SingleRod_cannotFollowRotation_byWhatGeometrySays()
    {
        AlignmentCorrection c = Bench.Report(Bench.Exactly(0, 0, 12.7), Bench.Case(Side.Right, Bench.SingleRod(41))).Corrections[0];
        ReductionWay way = c.Ways.First(w => w.Id == "distalPinClamps");

        Assert.Equal(Verdict.Fail, way.Verdict);
        Assert.All(way.Clamps, t => Assert.Equal(61 * Math.Sin(12.7 / DegPerRad), t.MisfitMm, 1e-9));
        Assert.All(way.Clamps, t => Assert.Equal(12.7, Math.Abs(t.TurnAboutRodDeg), 1e-9));
        Assert.Contains("12.7° of rotation", Assert.Single(c.CannotCorrect), StringComparison.Ordinal);
    }

    [Fact]
    public void SingleRod_deformedInItsPlane_isBarredFromNothing()
    {
        // A foot leaning toward azimuth 90 in the plane of pins at azimuth 90.
        AlignmentCorrection c = Bench.Report(Bench.Exactly(6.1, 0, null, 3.3, 0, -2.1), Bench.Case(Side.Right, Bench.SingleRod(90))).Corrections[0];

        Assert.Contains("nothing of this deformity lies out of it", Assert.Single(c.CannotCorrect), StringComparison.Ordinal);
        Assert.Equal(Verdict.Pass, c.Ways[0].Verdict);
    }

    // Deformity square to the plane of the pins: what they meet is out of it to the last tenth.
    [Fact]
    public void SingleRod_deformedSquareToItsPlane_namesAllOfIt()
    {
        AlignmentCorrection c = Bench.Report(Bench.Exactly(0, 8.3), Bench.Case(Side.Right, Bench.SingleRod(90))).Corrections[0];

        Assert.Contains("8.3° of angulation out of it", Assert.Single(c.CannotCorrect), StringComparison.Ordinal);
        Assert.Equal(Verdict.Fail, c.Ways[0].Verdict);
    }

    // By hand: the centre turns about a point 61 mm in front and h below it by 9.3°.
    [Fact]
    public void Turn_aboutAClamp_movesTheFractureAsByHand()
    {
        const double a = -9.3;
        PivotTravel pivot = Bench.Report(Bench.Exactly(0, a), Bench.Case(Side.Right, Bench.SingleRod(0))).Corrections[0].Ways
            .First(w => w.Id == "distalPinClamps").Pivots.First(p => p.Clamp == "c3");
        double sin = Math.Sin(-a / DegPerRad), cos = Math.Cos(a / DegPerRad), h = 213 - Bench.FractureMm;

        // Recurvatum leaned the foot forward; undone, the foot goes backward, the end above the clamp forward and up.
        double x = -61, z = h;
        Vec3 moved = new((x * cos) + (z * sin) - x, 0, (z * cos) - (x * sin) - z);
        Assert.Equal(Math.Abs(moved.X), pivot.Centre.AcrossMm, 1e-9);
        Assert.Equal(-moved.Z, pivot.Centre.OpeningMm, 1e-9);
        Assert.Equal(moved.X > 0 ? 0 : 180, Math.Abs(pivot.Centre.AzimuthDeg!.Value), 1e-9);

        // The face is square again after the turn: the cortices differ in what the turn closes, by the width of the bone times its sine.
        Assert.Equal(2 * Bench.RadiusMm * sin, Math.Abs(pivot.NearCortex.OpeningMm - pivot.FarCortex.OpeningMm), 1e-9);
        Assert.Equal(pivot.Centre.AcrossMm, pivot.LeftOver.AcrossMm, 1e-9);
    }

    [Fact]
    public void Modular_isDividedAtTheRodsBetweenItsFragments_andFollowsWhatASingleRodCannot()
    {
        AlignmentCorrection c = Bench.Report(Bench.Exactly(7.1, -4.9, 8.3, 2.7, -3.1, -2.3), Bench.Case(Side.Right, Bench.Modular())).Corrections[0];
        ReductionWay way = c.Ways.First(w => w.Id == "rodClamps");

        Assert.Equal(["x2"], way.Loosen);
        Assert.Empty(c.CannotCorrect);
        Assert.Single(way.Clamps);
    }

    // However the frame is looked at, proximal and distal ends may exchange their parts: what is loosened proximally meets the inverse.
    [Fact]
    public void ProximalWay_aboutASmallTurn_misfitsLikeTheDistalWayOfTheOppositeDeformity()
    {
        Case value = Bench.Case(Side.Right, Bench.SingleRod(90));
        ReductionWay one = Way(value, Bench.Exactly(0, 0, 5.3), "proximalPinClamps"), other = Way(value, Bench.Exactly(0, 0, -5.3), "distalPinClamps");

        Assert.Equal(other.MisfitMm!.Value, one.MisfitMm!.Value, 1e-9);
    }

    [Fact]
    public void LeftLeg_hasTheNumbersOfARightOne_andTurnsTheOtherWayOnTheViews()
    {
        AlignmentMeasurement m = Bench.Exactly(6.7, -8.3, 9.1, 3.3, -2.9, -4.7);
        AlignmentCorrection right = Bench.Report(m, Bench.Case(Side.Right, Bench.SingleRod(50))).Corrections[0], left = Bench.Report(m, Bench.Case(Side.Left, Bench.SingleRod(50))).Corrections[0];

        Assert.Equal(right.Ways.SelectMany(w => w.Clamps), left.Ways.SelectMany(w => w.Clamps));
        Assert.Contains("lateral by 6.7°, clockwise", right.Words[1], StringComparison.Ordinal);
        Assert.Contains("lateral by 6.7°, counterclockwise", left.Words[1], StringComparison.Ordinal);
        Assert.Contains("backward by 8.3°, counterclockwise", right.Words[2], StringComparison.Ordinal);
        Assert.Contains("backward by 8.3°, clockwise", left.Words[2], StringComparison.Ordinal);
    }

    // A frame and a deformity mirrored in the frontal plane of the limb: procurvatum and recurvatum, rotation, anterior and posterior change
    // places, and every clamp slides as before.
    [Fact]
    public void Mirrored_frameAndDeformity_slideAlike()
    {
        ReductionWay one = Way(Bench.Case(Side.Right, Bench.SingleRod(37)), Bench.Exactly(6.7, -8.3, 9.1, 3.3, -2.9, -4.7), "distalPinClamps");
        ReductionWay other = Way(Bench.Case(Side.Right, Bench.SingleRod(143)), Bench.Exactly(6.7, 8.3, -9.1, 3.3, 2.9, -4.7), "distalPinClamps");

        Assert.Equal(one.Clamps.Select(c => Math.Round(c.SlideAlongRodMm, 8)), other.Clamps.Select(c => Math.Round(c.SlideAlongRodMm, 8)));
        Assert.Equal(one.Clamps.Select(c => Math.Round(c.MisfitMm, 8)), other.Clamps.Select(c => Math.Round(c.MisfitMm, 8)));
        Assert.Equal(one.Clamps.Select(c => Math.Round(c.TurnAboutRodDeg, 8)), other.Clamps.Select(c => Math.Round(-c.TurnAboutRodDeg, 8)));
    }

    private static ReductionWay Way(Case value, AlignmentMeasurement m, string id) => Bench.Report(m, value).Corrections[0].Ways.First(w => w.Id == id);
}
