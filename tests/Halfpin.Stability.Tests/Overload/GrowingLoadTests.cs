using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Xunit;

namespace Halfpin.Stability.Tests.Overload;

/// <summary>
/// First limit and stiffness of frames whose loose clamps have stops, one way or friction: found event by event, held against the equilibrium
/// under the load itself (another solver) and against frames whose slides are free or held.
/// </summary>
public class GrowingLoadTests
{
    private static readonly DoubleRod _twin = new()
    {
        Placement = PinPlacement.NearFar,
        NearMm = 27,
        FarMm = 103,
        AzimuthDeg = 0,
        StandoffMm = 31,
        RodSpacingMm = 37,
        Pin = Bench.Pin,
        Rod = Bench.Rod,
    };

    private static readonly string[] _distal = ["c3", "c4", "c7", "c8"];

    private static readonly Fracture _narrow = Bench.Gap with { GapMm = 0.4, Contact = true };

    [Theory]
    [InlineData(0.02, 0, "c7")]
    [InlineData(0.7, 9, "c3", "c4", "c7", "c8")]
    public void FirstLimit_isWhereTheEquilibriumUnderThatLoadReachesIt(double stopMm, double frictionN, params string[] loose)
    {
        Func<Clamp, Clamp> limits = c => c with { SlideStopMm = stopMm, SlideFrictionN = frictionN };
        FirstLimit first = Assess(limits, 3, Bench.Gap, loose).FirstLimit!;
        UtilisationEntry most = Assess(limits, first.LoadKg, Bench.Gap, loose).Utilisation.First(u => u.Check != "fatigue");

        Assert.Equal((first.Part, first.Check), (most.Part, most.Check));
        Assert.Equal(1, most.Value, 1e-6);
    }

    [Fact]
    public void FirstLimit_whereTheEndsTouchBefore_isTheirTouch()
    {
        FrameAssessment f = Assess(c => c with { SlideStopMm = 0.1 }, 3, _narrow, _distal);

        Assert.Equal(FirstLimits.Touch, f.FirstLimit!.Check);
        Assert.Equal(f.Contact!.FirstTouchN!.Value, f.FirstLimit.LoadN, 1e-6 * f.FirstLimit.LoadN);
    }

    // Four clamps with 50 N each: beyond 200 N they run, and no bone stops them.
    [Fact]
    public void FirstLimit_whereFrictionIsAllThatHolds_isItsSum()
    {
        FirstLimit first = Assess(c => c with { SlideFrictionN = 50 }, 3, Bench.Gap, _distal).FirstLimit!;

        Assert.Equal(FirstLimits.Runs, first.Check);
        Assert.Equal(200, first.LoadN, 1e-6);
    }

    [Fact]
    public void FirstLimit_whereFrictionGivesBeforeTheTouch_isTheTouchAtThatLoad()
    {
        FrameAssessment f = Assess(c => c with { SlideFrictionN = 17 }, 3, _narrow with { GapMm = 3 }, _distal);

        Assert.Equal(FirstLimits.Touch, f.FirstLimit!.Check);
        Assert.Equal(4 * 17, f.FirstLimit.LoadN, 1e-6);
        Assert.Equal(f.Contact!.FirstTouchN!.Value, f.FirstLimit.LoadN, 1e-5);
    }

    [Fact]
    public void FirstLimit_whereSlidesRunFreelyToBone_isNone()
    {
        FrameAssessment f = Assess(c => c with { SlideStopMm = 40 }, 3, _narrow, _distal);

        Assert.Null(f.FirstLimit);
        Assert.Equal((0, 0), (f.Contact!.FirstTouchN, f.Contact.AxialBeforeNPerMm));
    }

    [Fact]
    public void Steps_ofOneClampWithAStop_areTheStiffnessOfTheFreeSlideAndOfTheHeldOne()
    {
        BoneContact contact = Assess(c => c with { SlideStopMm = 0.02 }, 3, Bench.Gap, "c7").Contact!;
        double free = Assess(c => c, 3, Bench.Gap, "c7").Stiffness!.AtFracture.AxialNPerMm;
        double held = Assess(c => c with { SlideStopMm = 0 }, 3, Bench.Gap, "c7").Contact!.AxialBeforeNPerMm!.Value;

        Assert.Equal(2, contact.Steps.Length);
        Assert.Equal(0, contact.Steps[0].FromN);
        Assert.Equal(free, contact.Steps[0].AxialNPerMm!.Value, 1e-6 * free);
        Assert.Equal(held, contact.Steps[1].AxialNPerMm!.Value, 1e-6 * held);
        Assert.Equal([], contact.Steps[0].Held);
        Assert.Equal(["c7"], contact.Steps[1].Held);
        Assert.EndsWith("c7 held.", contact.Steps[1].Message, StringComparison.Ordinal);
        Assert.Null(contact.AxialBeforeNPerMm);
    }

    // Far beyond the touch a stop holds its slide and friction holds nothing.
    [Fact]
    public void StiffnessAfterTheTouch_isThatOfHeldSlidesWithStopsAndOfFreeOnesWithFriction()
    {
        double After(Func<Clamp, Clamp> limits) => Assess(limits, 3, _narrow, _distal).Contact!.AxialAfterNPerMm!.Value;

        Assert.Equal(After(c => c with { SlideStopMm = 0 }), After(c => c with { SlideStopMm = 0.1 }), 1e-6);
        Assert.Equal(After(c => c), After(c => c with { SlideFrictionN = 17 }), 1e-6 * After(c => c));
        Assert.True(After(c => c with { SlideStopMm = 0 }) > 1.01 * After(c => c));
    }

    [Fact]
    public void StiffnessBeforeTheTouch_isThatOfTheLastStep()
    {
        BoneContact contact = Assess(c => c with { SlideStopMm = 0.02 }, 3, _narrow, "c7").Contact!;

        Assert.Equal(2, contact.Steps.Length);
        Assert.Equal(contact.Steps[^1].AxialNPerMm, contact.AxialBeforeNPerMm);
        Assert.True(contact.AxialAfterNPerMm > contact.AxialBeforeNPerMm);
        Assert.All(contact.Steps, s => Assert.True(s.FromN < contact.FirstTouchN));
    }

    [Fact]
    public void FatigueFrom_withStops_isWhereThePinReachesIt_andWithFrictionIsNotTold()
    {
        FirstLimit tired = Assess(c => c with { SlideStopMm = 0.3 }, 3, Bench.Gap, _distal).FatigueFrom!;
        UtilisationEntry pin = Assess(c => c with { SlideStopMm = 0.3 }, tired.LoadKg, Bench.Gap, _distal).Utilisation.First(u => u.Check == "fatigue");

        Assert.Equal(tired.Part, pin.Part);
        Assert.Equal(1, pin.Value, 1e-6);
        Assert.Null(Assess(c => c with { SlideStopMm = 0.3, SlideFrictionN = 5 }, 3, Bench.Gap, _distal).FatigueFrom);
    }

    // Along a line beside the bone's axis the path follows the chosen load as it grows in proportion.
    [Fact]
    public void Steps_underALoadBesideTheAxis_areThoseOfThatLoad()
    {
        Case value = CaseOf(c => c with { SlideStopMm = 0.3 }, 0, Bench.Gap, "c3", "c7") with { Loading = new() { AllowedKg = 7, LineOffsetApMm = 63 } };
        FrameAssessment at = Bench.Assess(value), less = Bench.Assess(value with { Loading = value.Loading with { AllowedKg = 6.9 } });
        AxialStep step = at.Contact!.Steps.Last(s => s.FromN < 6.9 * Loading.NewtonPerKg);

        Assert.Equal(0.1 * Loading.NewtonPerKg / (less.Motion!.AxialMm - at.Motion!.AxialMm), step.AxialNPerMm!.Value, 1e-5 * step.AxialNPerMm.Value);
    }

    private static FrameAssessment Assess(Func<Clamp, Clamp> limits, double kg, Fracture fracture, params string[] loose) => Bench.Assess(CaseOf(limits, kg, fracture, loose));

    private static Case CaseOf(Func<Clamp, Clamp> limits, double kg, Fracture fracture, params string[] loose)
    {
        Parts parts = Bench.PartsOf(_twin, fracture);
        parts = parts with { Clamps = [.. parts.Clamps.Select(c => loose.Contains(c.Id) ? limits(c with { State = ClampState.Loose }) : c)] };
        return Bench.CaseOf(new Frame { Id = "f", Parts = parts }, kg, fracture);
    }
}
