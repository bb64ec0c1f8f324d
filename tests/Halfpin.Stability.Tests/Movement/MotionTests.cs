using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Movement;

public class MotionTests
{
    [Fact]
    public void Compression_closesTheGap()
    {
        FractureMotion m = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 7)).Motion!;

        Assert.True(m.AxialMm < 0);
        Assert.True(m.ClosingNearMm > 0);
    }

    [Fact]
    public void AxialMotion_timesStiffness_isTheLoad()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 7));

        Assert.Equal(7 * 9.81, -f.Motion!.AxialMm * f.Stiffness!.AtFracture.AxialNPerMm, 1e-9);
    }

    [Fact]
    public void Torsion_turnsTheProximalFaceWithItsSign()
    {
        FractureMotion m = Bench.Assess(Bench.CaseOf(Bench.NearFar) with { Loading = new() { TorsionNm = 0.7 } }).Motion!;

        Assert.Equal(0.7 / Bench.AtFracture(Bench.NearFar).TorsionNmPerDeg, m.TwistDeg, 1e-9);
    }

    [Fact]
    public void Strain_isTheLargestClosingOverTheGap()
    {
        FractureMotion m = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 7)).Motion!;

        Assert.Equal(100 * m.ClosingFarMm / 17, m.StrainPercent!.Value, 1e-9);
    }

    [Fact]
    public void Strain_atGapZero_isNull()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 7, Bench.Gap with { GapMm = 0 }));

        Assert.Null(f.Motion!.StrainPercent);
    }

    [Fact]
    public void ObliquePlane_underAxialMotion_slidesWithinItself()
    {
        // A purely axial motion u slides u·sin(tilt) along a plane tilted by the tilt; the frame's lateral motion is nil in a
        // symmetric one.
        Fracture tilted = Bench.Gap with { TiltDeg = 33, TiltAzimuthDeg = 41 };
        FractureMotion m = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 7, tilted)).Motion!;

        Assert.Equal(Math.Abs(m.AxialMm) * Math.Sin(33 * Math.PI / 180), m.ShearMm, 1e-6);
    }

    [Fact]
    public void EndsThatTouch_shareTheLoad()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 40, Bench.Gap with { GapMm = 2, Contact = true }));

        Assert.Equal(FrameStatus.Ok, f.Status);
        Assert.True(f.Motion!.EndsTouch);
        Assert.InRange(f.Motion.FrameShare!.Value, 0, 0.9);
        Assert.Equal(FirstLimits.Touch, f.FirstLimit!.Check);
    }

    [Fact]
    public void EndsThatNeverTouch_areNotAskedFor()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 20, Bench.Gap with { GapMm = 2, Contact = false }));

        Assert.Equal(FrameStatus.Ok, f.Status);
        Assert.False(f.Motion!.EndsTouch);
    }

    [Fact]
    public void LargeRotation_isRefusedAsOutOfRange()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar with { StandoffMm = 120 }, allowedKg: 60));

        Assert.Equal(FrameStatus.OutOfRange, f.Status);
        Assert.Contains("rotate", f.Diagnosis!.Message, StringComparison.Ordinal);
        Assert.Empty(f.Utilisation);
    }

    [Fact]
    public void OverloadCase_addsTheMeanExcess()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar with { StandoffMm = 25 }, allowedKg: 5));

        Assert.Equal((5 + (0.353 * 71)) * 9.81, f.OverloadMotion!.LoadN, 1e-9);
    }

    [Fact]
    public void Motion_readOnce_equalsTheFullModelsFaces()
    {
        FrameAnalyser analyser = Bench.Analysed(Bench.PartsOf(Bench.NearFar with { AzimuthDeg = 31 }), Bench.TibiaLimb);
        FractureContact contact = new(analyser);
        MotionReadout readout = new(analyser, contact.Ring, Bench.Gap);
        EndLoad load = new(0, 0, -71, 130, -210, 90);
        double upper = Sum(analyser, analyser.Plan.Site.UpperNode, load), lower = Sum(analyser, analyser.Plan.Site.LowerNode, load);

        // On the axis, arms along the axis leave axial motion alone.
        Assert.Equal(upper - lower, readout.Of(contact.Under(load)).AxialMm, 1e-9);
    }

    private static double Sum(FrameAnalyser analyser, int node, EndLoad load) =>
        Enumerable.Range(0, 6).Sum(c => load[c] * analyser.System.MotionOf(node, c).TranslationMm.Z);
}
