using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Xunit;

namespace Halfpin.Stability.Tests.Movement;

public class GaitTests
{
    private static readonly GaitPhase _nil = new() { Phase = "nil", FxN = 0, FyN = 0, FzN = 0, MxNm = 0, MyNm = 0, MzNm = 0 };
    private static readonly Fracture _narrow = Bench.Gap with { GapMm = 1.3, Contact = true, TiltDeg = 21, TiltAzimuthDeg = -70 };

    // Two ways to the same load: a case's own members, in kilograms with a line off the axis, and a wrench of the table.
    [Fact]
    public void Phase_equalToTheCasesOwnLoad_givesWhatAssessGives()
    {
        Loading loading = new() { AllowedKg = 23, LineOffsetApMm = 7, LineOffsetMlMm = -11, TorsionNm = 0.9, ApBendingNm = 0.3, MlBendingNm = -0.4 };
        double n = 23 * 9.81;
        GaitPhase same = _nil with { Phase = "same", FzN = -n, MxNm = -0.4 + (0.011 * n), MyNm = 0.3 + (0.007 * n), MzNm = 0.9 };
        FrameAssessment f = Assess(Bench.CaseOf(Bench.NearFar, fracture: _narrow) with { Loading = loading }, same);
        GaitPhaseResult phase = Assert.Single(f.Gait!.Phases);

        Assert.True(f.Motion!.EndsTouch);
        Assert.Equal(f.Motion.AxialMm, phase.Motions[0].AxialMm, 1e-9);
        Assert.Equal(f.Motion.ShearMm, phase.Motions[0].ShearMm, 1e-9);
        Assert.Equal(f.Motion.TwistDeg, phase.Motions[0].TwistDeg, 1e-9);
        Assert.Equal(f.Motion.FrameShare!.Value, phase.Motions[0].FrameShare!.Value, 1e-9);
        Assert.Equal(f.Utilisation.Select(u => u.Part), phase.Utilisation.Select(u => u.Part));
        Assert.Equal(f.Utilisation[0].Value, phase.Utilisation[0].Value, 1e-9);
        Assert.Equal(f.Utilisation[0].Value, f.Gait.NearestLimit!.Limit.Value, 1e-9);
    }

    // Over an open gap motion is linear in the load: a shear force moves the faces as the site's flexibility says, twice as much twice.
    [Fact]
    public void WorstPhase_isNamedForEachMotionByItself()
    {
        FrameAssessment f = Assess(
            Bench.CaseOf(Bench.NearFar),
            _nil with { Phase = "pressed", FzN = -113 }, _nil with { Phase = "twisted", MzNm = 1.3 }, _nil with { Phase = "sheared", FyN = 5.3 }, _nil with { Phase = "pulled", FzN = 57 });
        GaitResult gait = f.Gait!;

        Assert.Equal("pressed", gait.WorstAxial!.Phase);
        Assert.Equal(113 / f.Stiffness!.AtFracture.AxialNPerMm, gait.WorstAxial.SizeMm, 1e-9);
        Assert.Equal(gait.Phases.MaxBy(p => p.Motions[0].ShearMm)!.Phase, gait.WorstShear!.Phase);
        Assert.NotEqual("pressed", gait.WorstShear.Phase);
        Assert.True(gait.Phases[3].Motions[0].AxialMm > 0);
        Assert.Equal(gait.Phases.Max(p => p.Utilisation[0].Value), gait.NearestLimit!.Limit.Value);
    }

    [Fact]
    public void Contact_isInForceInEveryPhase()
    {
        GaitResult gait = Assess(Bench.CaseOf(Bench.NearFar, fracture: _narrow), _nil with { Phase = "light", FzN = -11 }, _nil with { Phase = "heavy", FzN = -310 }).Gait!;

        Assert.False(gait.Phases[0].Motions[0].EndsTouch);
        Assert.True(gait.Phases[1].Motions[0].EndsTouch);
        Assert.InRange(gait.Phases[1].Motions[0].FrameShare!.Value, 0, 0.95);
    }

    [Fact]
    public void Phase_beyondTheModel_saysWhyAndTheRestIsKept()
    {
        GaitResult gait = Assess(Bench.CaseOf(Bench.NearFar), _nil with { Phase = "fair", FzN = -71 }, _nil with { Phase = "wild", MxNm = 217 }).Gait!;

        Assert.Equal(1, gait.WithheldPhases);
        Assert.Contains("small-displacement", gait.Phases[1].Diagnosis!.Message, StringComparison.Ordinal);
        Assert.Empty(gait.Phases[1].Motions);
        Assert.Equal("fair", gait.WorstAxial!.Phase);
    }

    [Fact]
    public void Steps_allWithheld_nameNoWorst()
    {
        GaitResult gait = Assess(Bench.CaseOf(Bench.NearFar), _nil with { Phase = "wild", MxNm = 217 }).Gait!;

        Assert.Null(gait.WorstAxial);
        Assert.Null(gait.NearestLimit);
    }

    private static FrameAssessment Assess(Case value, params GaitPhase[] phases) =>
        new Assessor(value).Assess(null, new("halfpin", "test"), "", new([.. phases])).Frames[0];
}
