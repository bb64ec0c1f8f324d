using CsCheck;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Dynamisation;
using Halfpin.Stability.Overload;
using Xunit;

namespace Halfpin.Stability.Tests.Movement;

/// <summary>Loose clamps with stops, one way and friction, against tight ones, free ones and closed forms.</summary>
public class LooseSlideTests
{
    // Gap of 17 mm that never closes: what is carried is carried by the frame.
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

    // Two rods, clamps c1–c4 on the inner and c5–c8 on the outer one. Those of the distal fragment are loose on both: it slides along both.
    private static readonly string[] _distal = ["c3", "c4", "c7", "c8"];

    private static readonly Parts _tight = Bench.PartsOf(_twin);

    // A rigid block that slides on n clamps with friction F each holds n·F: below, a loose frame whose friction is not reached is a tight one but
    // for turning about the rods, which two rods prevent.
    [Theory]
    [InlineData(50, 3)]
    [InlineData(50, 4.9)]
    [InlineData(1000, 9)]
    public void Friction_thatIsNotReached_holdsAsIfTheSlideWereHeld(double frictionN, double kg)
    {
        FrameAssessment f = Assess(Loose(c => c with { SlideFrictionN = frictionN }), kg), far = Assess(Loose(c => c with { SlideFrictionN = 2000 }), kg);

        Assert.Equal(FrameStatus.Ok, f.Status);
        Assert.Equal(far.Motion!.AxialMm, f.Motion!.AxialMm, 1e-9);
        Assert.Equal(0, f.Stiffness!.AtFracture.AxialNPerMm);
        Assert.Equal(["axial"], f.Freedoms);
    }

    [Fact]
    public void LooseClampsThatFrictionHolds_moveLikeTightOnes()
    {
        FrameAssessment loose = Assess(Loose(c => c with { SlideFrictionN = 2000 }), 5), tight = Assess(_tight, 5);

        // They still turn about their rods, which softens the frame by some percent and never stiffens it.
        Assert.InRange(loose.Motion!.AxialMm / tight.Motion!.AxialMm, 1 - 1e-9, 1.3);
    }

    // Only c3 is loose: the frame holds by the other three, so its slide alone is a matter of elasticity. 50 N of friction on it carries what
    // is less than 50 N, exactly as a tight slide would.
    [Fact]
    public void SlideOfOneClamp_below50N_isHeld()
    {
        FrameAssessment friction = Assess(Loose(c => c with { SlideFrictionN = 50 }, "c3"), 1.5), held = Assess(Loose(c => c with { SlideStopMm = 0 }, "c3"), 1.5), free = Assess(Loose(c => c, "c3"), 1.5);

        Assert.Equal(held.Motion!.AxialMm, friction.Motion!.AxialMm, 1e-9);
        Assert.True(Math.Abs(free.Motion!.AxialMm) > Math.Abs(held.Motion.AxialMm) * (1 + 1e-6));
    }

    // Four clamps with 50 N hold 200 N, 20.4 kg.
    [Fact]
    public void Friction_ofAllClampsTogether_isWhatTheFrameHolds()
    {
        Assert.Equal(FrameStatus.Ok, Assess(Loose(c => c with { SlideFrictionN = 50 }), 199.9 / 9.81).Status);
        FrameAssessment beyond = Assess(Loose(c => c with { SlideFrictionN = 50 }), 200.1 / 9.81);

        Assert.Equal(FrameStatus.OutOfRange, beyond.Status);
        Assert.Contains("nothing stops the slide", beyond.Diagnosis!.Message, StringComparison.Ordinal);
        Assert.Equal(_distal, beyond.Diagnosis.Parts.Order());
        Assert.Null(beyond.Motion);
    }

    // Stops at s: a fragment whose clamps are all pressed runs s along the rods and is held from there as by tight slides. The load's line
    // passes between the rods, and one pin holds the distal fragment, so that both its clamps are pressed.
    [Theory]
    [InlineData(0.7)]
    [InlineData(2.3)]
    public void Stop_addsItsTravelToTheElasticMotion(double stopMm)
    {
        FrameAssessment stopped = AssessBetween(c => c with { SlideStopMm = stopMm }), held = AssessBetween(c => c with { SlideStopMm = 0 });

        Assert.Equal(held.Motion!.AxialMm - stopMm, stopped.Motion!.AxialMm, 1e-6);
        Assert.Equal(held.Motion.TiltDeg, stopped.Motion.TiltDeg, 1e-6);
        Assert.Equal(held.Utilisation[0].Value, stopped.Utilisation[0].Value, 1e-6);
    }

    // 2 × 13 N of friction are taken off what the stops carry, and nothing else changes: the force of a clamp is what it was.
    [Fact]
    public void StopPastFriction_isReachedWithTheSameForces()
    {
        FrameAssessment bare = AssessBetween(c => c with { SlideStopMm = 1.6 }), rough = AssessBetween(c => c with { SlideStopMm = 1.6, SlideFrictionN = 13 });

        Assert.Equal(bare.Motion!.AxialMm, rough.Motion!.AxialMm, 1e-6);
    }

    // A clamp that nothing presses forward lies between its stops and holds nothing: softer than one that cannot slide at all.
    [Fact]
    public void Stops_ofClampsThatAreNotAllPressed_holdLessThanHeldSlides()
    {
        FrameAssessment stopped = Assess(Loose(c => c with { SlideStopMm = 0.7 }), 5), held = Assess(Loose(c => c with { SlideStopMm = 0 }), 5);

        Assert.True(-stopped.Motion!.AxialMm > 0.7 - held.Motion!.AxialMm + 1e-3);
    }

    // Compression shortens: one-way clamps run under it to their stop, and hold under traction.
    [Fact]
    public void OneWay_runsWhenPressedAndHoldsWhenPulled()
    {
        FrameAssessment pressed = AssessBetween(c => c with { OneWay = true, SlideStopMm = 1.9 }), held = AssessBetween(c => c with { SlideStopMm = 0 });

        Assert.Equal(held.Motion!.AxialMm - 1.9, pressed.Motion!.AxialMm, 1e-6);
        Assert.Equal(Pulled(c => c with { SlideStopMm = 0 }), Pulled(c => c with { OneWay = true }), 1e-9);
    }

    // The same on the other fragment and with the rods drawn the other way round.
    [Fact]
    public void OneWay_onTheProximalFragmentOrAReversedRod_hasTheSameSense()
    {
        Parts proximal = Loose(c => c with { OneWay = true, SlideStopMm = 1.9 }, "c1", "c2", "c5", "c6");
        Parts reversed = Loose(c => c with { OneWay = true, SlideStopMm = 1.9 });
        reversed = reversed with { Rods = [.. reversed.Rods.Select(r => r with { From = r.To, To = r.From })] };

        Assert.InRange(-Assess(proximal, 5).Motion!.AxialMm, 1.9, 3);
        Assert.Equal(Assess(Loose(c => c with { OneWay = true, SlideStopMm = 1.9 }), 5).Motion!.AxialMm, Assess(reversed, 5).Motion!.AxialMm, 1e-6);
    }

    // With 10 N each and all four driven past it, a stop carries what friction leaves.
    [Fact]
    public void FrictionAndStop_together_addTravelOnlyPastTheFriction()
    {
        Parts parts = Loose(c => c with { SlideFrictionN = 10, SlideStopMm = 1.3 });

        Assert.True(-Assess(parts, 3.9).Motion!.AxialMm < 1.3);
        Assert.True(-Assess(parts, 4.3).Motion!.AxialMm > 1.3);
    }

    // Free slides limited by a stop beyond the gap and no friction are free slides: bone stops them.
    [Fact]
    public void StopBeyondTheGap_leavesTheFreeSlide()
    {
        Fracture narrow = Bench.Gap with { GapMm = 1.1, Contact = true };
        FrameAssessment free = Bench.Assess(CaseOf(Loose(c => c, _distal, narrow), 9, narrow)), limited = Bench.Assess(CaseOf(Loose(c => c with { SlideStopMm = 40 }, _distal, narrow), 9, narrow));

        Assert.True(limited.Motion!.EndsTouch);
        Assert.Equal(free.Motion!.AxialMm, limited.Motion.AxialMm, 1e-6);
        Assert.Equal(free.Motion.FrameShare!.Value, limited.Motion.FrameShare!.Value, 1e-5);
        Assert.Equal(0, limited.Contact!.FirstTouchN);
    }

    // With friction the frame goes on carrying what its clamps hold: no more than their sum, and the rest goes through bone.
    [Fact]
    public void FrictionOverANarrowGap_leavesTheFrameItsFriction()
    {
        Fracture narrow = Bench.Gap with { GapMm = 0.4, Contact = true };
        FrameAssessment f = Bench.Assess(CaseOf(Loose(c => c with { SlideFrictionN = 17 }, _distal, narrow), 30, narrow));

        Assert.InRange(f.Motion!.FrameShare!.Value * 30 * 9.81, 0.8 * 4 * 17, 4 * 17);
        Assert.InRange(f.Contact!.FirstTouchN!.Value, 1, 4 * 17 + 1);
    }

    // The same friction followed event by event: another solver, which knows friction as the capacity of a slide.
    [Fact]
    public void Friction_asTheOverloadPathFollowsIt_movesAlike()
    {
        Fracture narrow = Bench.Gap with { GapMm = 0.4, Contact = true };
        Case value = CaseOf(Loose(c => c with { SlideFrictionN = 17 }, _distal, narrow), 13, narrow) with { Model = new() { Clamp = new Domain.Modelling.SpringClamp { SlipMomentNm = 97 } } };
        OverloadPoint top = new OverloadAssessor(value).Assess(value.Frames[0], 13 * 9.81, new("halfpin", "test"), "").Path.MaxBy(p => p.LoadN)!;
        FractureMotion motion = Bench.Assess(value).Motion!;

        Assert.Equal(13 * 9.81, top.LoadN, 1e-9);
        Assert.Equal(top.AxialMm, motion.AxialMm, 1e-6);
        Assert.Equal(top.FrameShare!.Value, motion.FrameShare!.Value, 1e-6);
    }

    // The same stops followed event by event: there stops are bounds of slides, here states of an equilibrium under the whole load.
    [Theory]
    [InlineData(0.7, 0, false)]
    [InlineData(0.3, 17, false)]
    [InlineData(0.2, 0, true)]
    [InlineData(0.3, 17, true)]
    public void Stops_asTheOverloadPathFollowsThem_moveAlike(double stopMm, double frictionN, bool oneWay)
    {
        Fracture narrow = Bench.Gap with { GapMm = 0.4, Contact = true };
        Case value = PathOf(c => c with { SlideStopMm = stopMm, SlideFrictionN = frictionN, OneWay = oneWay }, narrow, 13, _distal);
        OverloadPoint top = Follow(value, 13 * 9.81).Path.MaxBy(p => p.LoadN)!;
        FractureMotion motion = Bench.Assess(value).Motion!;

        Assert.Equal(13 * 9.81, top.LoadN, 1e-9);
        Assert.Equal(motion.AxialMm, top.AxialMm, 1e-6);
        Assert.Equal(motion.TiltDeg, top.TiltDeg, 1e-6);
        Assert.Equal(motion.FrameShare!.Value, top.FrameShare!.Value, 1e-6);
    }

    // One loose clamp of eight is pressed along its slide in proportion to the load until the stop holds it, and leaves it at the same load.
    [Fact]
    public void Stop_ofOneClamp_isReachedAndLeftAtTheSameLoadAndNothingStays()
    {
        OverloadReport report = Follow(PathOf(c => c with { SlideStopMm = 0.02 }, Bench.Gap, 5, "c7"), 150);
        OverloadEvent[] stops = [.. report.Events.Where(e => e.Kind == OverloadEventKind.Stop)];

        Assert.True(report.Complete, report.Ended);
        Assert.Equal(["c7", "c7"], stops.Select(e => e.Part));
        Assert.Equal([false, true], stops.Select(e => e.OnWayBack));
        Assert.Equal(stops[0].LoadN, stops[1].LoadN, 1e-6);
        Assert.StartsWith("Clamp c7 reaches its stop on ", stops[0].Message, StringComparison.Ordinal);
        Assert.StartsWith("Clamp c7 leaves its stop on ", stops[1].Message, StringComparison.Ordinal);
        Assert.Equal(0, report.SetMm!.Value, 1e-9);
    }

    // Before the stop the frame is the one with the clamp free, after it the one with its slide held.
    [Fact]
    public void Stop_ofOneClamp_partsTheStiffnessOfTheFreeSlideFromThatOfTheHeldOne()
    {
        OverloadReport stopped = Follow(PathOf(c => c with { SlideStopMm = 0.02 }, Bench.Gap, 5, "c7"), 150);
        OverloadPoint corner = stopped.Path[1], top = stopped.Path[2];
        OverloadPoint free = Follow(PathOf(c => c, Bench.Gap, 5, "c7"), 150).Path.MaxBy(p => p.LoadN)!, held = Follow(PathOf(c => c with { SlideStopMm = 0 }, Bench.Gap, 5, "c7"), 150).Path.MaxBy(p => p.LoadN)!;

        Assert.Equal(free.AxialMm / free.LoadN, corner.AxialMm / corner.LoadN, 1e-9);
        Assert.Equal(held.AxialMm / held.LoadN, (top.AxialMm - corner.AxialMm) / (top.LoadN - corner.LoadN), 1e-9);
        Assert.True(held.AxialMm > free.AxialMm + 1e-6);
    }

    [Fact]
    public void StopAtTheStart_onAPath_isASlideThatFrictionHolds()
    {
        OverloadReport shut = Follow(PathOf(c => c with { SlideStopMm = 0 }, Bench.Gap, 5, _distal), 150), rough = Follow(PathOf(c => c with { SlideFrictionN = 2000 }, Bench.Gap, 5, _distal), 150);

        Assert.Equal(rough.Path.Length, shut.Path.Length);
        Assert.Equal(rough.Path[1].AxialMm, shut.Path[1].AxialMm, 1e-9);
        Assert.Empty(shut.Events);
    }

    [Fact]
    public void StopBeyondTheGap_onAPath_leavesTheFreeSlide()
    {
        Fracture narrow = Bench.Gap with { GapMm = 0.4, Contact = true };
        OverloadReport free = Follow(PathOf(c => c, narrow, 5, _distal), 150), wide = Follow(PathOf(c => c with { SlideStopMm = 40 }, narrow, 5, _distal), 150);

        Assert.True(free.Complete, free.Ended);
        Assert.Equal(free.Events.Select(e => e.Message), wide.Events.Select(e => e.Message));
        Assert.Equal(free.Path.Select(p => p.AxialMm), wide.Path.Select(p => p.AxialMm));
    }

    // Nothing holds the fragment but its stops: it falls on them under no load, and says that it is they who stop it.
    [Fact]
    public void DrivenSlide_onAPath_runsToItsStopsUnderNoLoad()
    {
        OverloadReport report = Follow(PathOf(c => c with { SlideStopMm = 0.7 }, Bench.Gap, 5, _distal), 60);

        Assert.True(report.Complete, report.Ended);
        Assert.Contains("until a clamp's stop holds it", report.Events[0].Message, StringComparison.Ordinal);
        Assert.Equal(0, report.Events[0].LoadN);
        Assert.InRange(report.SetMm!.Value, 0.1, 3);
        Assert.Contains(report.Assumptions, a => a.StartsWith("A stop of a loose clamp holds", StringComparison.Ordinal));
    }

    // More friction or a nearer stop never lets the frame close more.
    [Fact]
    public void MoreFrictionOrANearerStop_neverClosesMore() =>
        Gen.Select(Gen.Double[0, 60], Gen.Double[0, 60], Gen.Double[0.1, 3], Gen.Double[0.1, 3], Gen.Double[1, 12]).Sample(
            (frictionN, moreN, stopMm, moreMm, kg) =>
            {
                double easy = -Assess(Loose(c => c with { SlideFrictionN = frictionN, SlideStopMm = stopMm + moreMm }), kg).Motion!.AxialMm;
                double firm = -Assess(Loose(c => c with { SlideFrictionN = frictionN + moreN, SlideStopMm = stopMm }), kg).Motion!.AxialMm;
                return firm <= easy + 1e-7;
            },
            iter: 12);

    [Fact]
    public void MoreLimitedClampsThanAreFollowed_areRefusedWithTheReason()
    {
        Parts all = Loose(c => c with { SlideFrictionN = 5 }, "c1", "c2", "c3", "c7", "c8");

        Assert.Contains("at most 4 loose clamps", Assess(all, 5).Diagnosis!.Message, StringComparison.Ordinal);
    }

    // Limits of a clamp that is tight as mounted count from the stage on that loosens it.
    [Fact]
    public void Stage_thatLoosensClampsWithStops_keepsThem()
    {
        Parts mounted = _tight with { Clamps = [.. _tight.Clamps.Select(c => c with { SlideStopMm = 1.7 })] };
        Case value = CaseOf(mounted, 5) with { Stages = [new() { Id = "s", Frame = "f", Loosen = [.. _distal] }] };
        StageResult[] stages = [.. new DynamisationAssessor(value).Assess(null, new("halfpin", "test"), "").Stages];

        FrameAssessment loose = Assess(Loose(c => c with { SlideStopMm = 1.7 }), 5);

        Assert.Equal(loose.Motion!.AxialMm, stages[1].Motion!.AxialMm, 1e-9);
        Assert.Equal(loose.FirstLimit, stages[1].FirstLimit);
        Assert.Equal(loose.Contact!.Steps.Select(s => s.Message), stages[1].Contact!.Steps.Select(s => s.Message));
        Assert.Equal(Assess(_tight, 5).Motion!.AxialMm, stages[0].Motion!.AxialMm, 1e-9);
    }

    // A construct's clamps have no members of their own: the stage says what limits them, and a later one may take it back.
    [Fact]
    public void Stage_thatLimitsSlidesOfAConstruct_doesWhatTheClampsOwnMembersDo()
    {
        Case value = Bench.CaseOf(_twin, 5) with
        {
            Stages =
            [
                new() { Id = "s", Frame = "f", Loosen = [.. _distal], Slides = [.. _distal.Select(c => new ClampSlide { Clamp = c, SlideFrictionN = 50, SlideStopMm = 2 })] },
                new() { Id = "t", Frame = "f", Slides = [.. _distal.Select(c => new ClampSlide { Clamp = c, SlideStopMm = 2 })] },
            ],
        };
        StageResult[] stages = [.. new DynamisationAssessor(value).Assess(null, new("halfpin", "test"), "").Stages];

        Assert.Equal(Assess(Loose(c => c with { SlideFrictionN = 50, SlideStopMm = 2 }), 5).Motion!.AxialMm, stages[1].Motion!.AxialMm, 1e-9);
        Assert.Equal(Assess(Loose(c => c with { SlideStopMm = 2 }), 5).Motion!.AxialMm, stages[2].Motion!.AxialMm, 1e-9);
    }

    // Rods stand at 44.7 and 81.7 mm from the axis.
    private static FrameAssessment AssessBetween(Func<Clamp, Clamp> limit) =>
        Bench.Assess(CaseOf(OnOnePin(limit), 0) with { Loading = new() { AllowedKg = 7, LineOffsetApMm = 63 } });

    // Clamps whose tight components never slip, so that what moves is the slides alone.
    private static Case PathOf(Func<Clamp, Clamp> limit, Fracture fracture, double kg, params string[] clamps) =>
        CaseOf(Loose(limit, clamps, fracture), kg, fracture) with { Model = new() { Clamp = new Domain.Modelling.SpringClamp { SlipMomentNm = 970 } } };

    private static OverloadReport Follow(Case value, double toN) => new OverloadAssessor(value).Assess(value.Frames[0], toN, new("halfpin", "test"), "");

    private static double Pulled(Func<Clamp, Clamp> limit)
    {
        GaitPhase pull = new() { Phase = "pull", FxN = 0, FyN = 0, FzN = 31, MxNm = 0, MyNm = -0.063 * 31, MzNm = 0 };
        return new Assessor(CaseOf(OnOnePin(limit), 0)).Assess(null, new("halfpin", "test"), "", new([pull])).Frames[0].Gait!.Phases[0].Motions[0].AxialMm;
    }

    private static Parts OnOnePin(Func<Clamp, Clamp> limit)
    {
        Parts parts = Loose(limit, "c3", "c7");
        return parts with { Pins = [.. parts.Pins.Where(p => p.Id != "p4")], Clamps = [.. parts.Clamps.Where(c => c.Pin != "p4")] };
    }

    private static Parts Loose(Func<Clamp, Clamp> limit, params string[] clamps) => Loose(limit, clamps.Length == 0 ? _distal : clamps, Bench.Gap);

    private static Parts Loose(Func<Clamp, Clamp> limit, string[] clamps, Fracture fracture)
    {
        Parts parts = Bench.PartsOf(_twin, fracture);
        return parts with { Clamps = [.. parts.Clamps.Select(c => clamps.Contains(c.Id) ? limit(c with { State = ClampState.Loose }) : c)] };
    }

    private static Case CaseOf(Parts parts, double kg, Fracture? fracture = null) => Bench.CaseOf(new Frame { Id = "f", Parts = parts }, kg, fracture);

    private static FrameAssessment Assess(Parts parts, double kg) => Bench.Assess(CaseOf(parts, kg));
}
