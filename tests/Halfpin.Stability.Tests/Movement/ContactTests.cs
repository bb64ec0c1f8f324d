using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Movement;

/// <summary>Bone ends that bear on each other, against statics, closed forms and the whole frame with springs between its faces.</summary>
public class ContactTests
{
    private static readonly Fracture _narrow = Bench.Gap with { GapMm = 1.3, Contact = true };

    private static readonly Fracture _oblique = _narrow with { Pattern = FracturePattern.Oblique, TiltDeg = 37, TiltAzimuthDeg = -61 };

    private static readonly DoubleRod _dynamised = new()
    {
        Placement = PinPlacement.FarFar,
        FarMm = 97,
        AzimuthDeg = 23,
        StandoffMm = 37,
        RodSpacingMm = 31,
        Pin = Bench.Pin,
        Rod = Bench.Rod,
        Dynamised = true,
    };

    public static TheoryData<Construct, Fracture, EndLoad> Loaded => new()
    {
        { Bench.NearFar, _narrow, EndLoad.Compression(310) },
        { Bench.NearFar, _oblique, EndLoad.Compression(270) },
        { Bench.NearFar with { AzimuthDeg = 41 }, _narrow with { GapMm = 0 }, new(13, -7, -230, 900, -2100, 1300) },
        { _dynamised, _narrow, EndLoad.Compression(190) },
        { _dynamised, _oblique, new(0, 0, -190, 1100, 700, -800) },
        { _dynamised, _oblique with { GapMm = 0 }, EndLoad.Compression(410) },
    };

    // Two factorisations of one frame, and a contact some hundred times as stiff as the frame: rounding times condition.
    private const double Rounding = 2e-6;

    [Theory]
    [MemberData(nameof(Loaded))]
    public void Faces_thatBear_moveAsInTheWholeFrameWithSpringsBetweenThem(Construct construct, Fracture fracture, EndLoad load)
    {
        (FrameAnalyser analyser, FractureContact contact) = Solved(construct, fracture);
        SiteState state = contact.Under(load);
        FullModel full = new(analyser, contact.Rings, state);

        Assert.NotEqual(0u, state.Bearing);
        double size = full.Faces.TranslationMm.Length + (100 * full.Faces.RotationRad.Length);
        Assert.Equal(0, (full.Faces.TranslationMm - state.Faces.TranslationMm).Length / size, Rounding);
        Assert.Equal(0, 100 * (full.Faces.RotationRad - state.Faces.RotationRad).Length / size, Rounding);
    }

    [Theory]
    [MemberData(nameof(Loaded))]
    public void EveryPart_ofAFrameWhoseEndsBear_carriesWhatTheWholeFrameSays(Construct construct, Fracture fracture, EndLoad load)
    {
        (FrameAnalyser analyser, FractureContact contact) = Solved(construct, fracture);
        SiteState state = contact.Under(load);
        FullModel full = new(analyser, contact.Rings, state);
        DemandAnalysis demand = new(analyser);

        Assert.All(Enumerable.Range(0, analyser.Plan.Members.Length), m =>
        {
            var ours = demand.WrenchAbout(m, analyser.System.Member(m).AtMm, state.Load);
            var theirs = full.WrenchOn(m);
            Assert.Equal(0, (ours.ForceN - theirs.ForceN).Length / -load.Fz, 1e-4);
            Assert.Equal(0, (ours.MomentNmm - theirs.MomentNmm).Length / (-load.Fz * 100), 1e-4);
        });
    }

    [Fact]
    public void LargestRotation_withContact_isThatOfTheWholeFrame()
    {
        (FrameAnalyser analyser, FractureContact contact) = Solved(Bench.NearFar, _oblique);
        SiteState state = contact.Under(EndLoad.Compression(270));
        double ours = new MotionReadout(analyser, contact.Ring, _oblique).LargestRotationDeg(state);

        // The faces' rotation against each other may exceed that of any part.
        Assert.Equal(Math.Max(new FullModel(analyser, contact.Rings, state).LargestRotationDeg, state.Faces.RotationRad.Length * 180 / Math.PI), ours, 1e-6);
    }

    [Fact]
    public void WholeFrame_withThePointsFound_pressesAtThoseAndNowhereElse()
    {
        // The conditions of Signorini (1959) at every point of the ring, with the whole frame's motion.
        (FrameAnalyser analyser, FractureContact contact) = Solved(Bench.NearFar, _narrow);
        SiteState state = contact.Under(EndLoad.Compression(310));
        Motion faces = new FullModel(analyser, contact.Rings, state).Faces;

        Assert.All(Enumerable.Range(0, CorticalRing.Points), i =>
        {
            double opening = contact.Ring.Contacts[i].GapMm + contact.Ring.PlaneNormal.Dot(faces.At(contact.Ring.OffsetMm(i)).TranslationMm);
            Assert.Equal((state.Bearing >> i & 1) != 0, opening < 0);
        });
    }

    [Fact]
    public void FirstTouch_inAssessment_isTheLoadFromWhichOnTheEndsBear()
    {
        FrameAssessment f = Assess(_narrow, allowedKg: 1);
        double touchKg = f.Contact!.FirstTouchKg!.Value;

        Assert.False(Assess(_narrow, touchKg * 0.9999).Motion!.EndsTouch);
        Assert.True(Assess(_narrow, touchKg * 1.0001).Motion!.EndsTouch);
    }

    [Fact]
    public void FirstTouch_ofASymmetricFrame_liesOppositeThePins()
    {
        FrameAssessment f = Assess(_narrow, allowedKg: 1);

        Assert.Equal(180, f.Contact!.FirstTouchAzimuthDeg!.Value, 1e-6);
    }

    [Fact]
    public void FirstTouch_ofATransverseFracture_isWhereTheFarCortexHasClosedTheGap()
    {
        FrameAssessment open = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 1, _narrow with { Contact = false }));
        double kgToClose = 1.3 / open.Motion!.ClosingFarMm;

        Assert.Equal(kgToClose, Assess(_narrow, allowedKg: 1).Contact!.FirstTouchKg!.Value, 1e-9);
    }

    [Fact]
    public void AxialStiffness_beforeTheTouch_isThatOfTheFrame()
    {
        FrameAssessment f = Assess(_narrow, allowedKg: 3);

        Assert.Equal(f.Stiffness!.AtFracture.AxialNPerMm, f.Contact!.AxialBeforeNPerMm!.Value, 1e-9);
    }

    [Fact]
    public void AxialStiffness_afterTheTouch_isWhatTheSlopeRisesTo()
    {
        (_, FractureContact contact) = Solved(Bench.NearFar, _narrow);
        double at = contact.Under(EndLoad.Compression(90_000)).Faces.TranslationMm.Z, beyond = contact.Under(EndLoad.Compression(90_900)).Faces.TranslationMm.Z;
        FrameAssessment f = Assess(_narrow, allowedKg: 3);

        Assert.Equal(900 / (at - beyond), f.Contact!.AxialAfterNPerMm!.Value, 1e-3 * f.Contact.AxialAfterNPerMm.Value);
        Assert.True(f.Contact.AxialAfterNPerMm > 5 * f.Contact.AxialBeforeNPerMm);
    }

    [Fact]
    public void FrameShare_overAnOpenGap_isOne()
    {
        FractureMotion m = Assess(_narrow, allowedKg: 1).Motion!;

        Assert.Equal(1, m.FrameShare);
        Assert.Equal(RingBearing.None, m.Bearing);
        Assert.Null(m.BearingFromDeg);
    }

    [Fact]
    public void FrameAndBone_together_carryTheAxialLoad()
    {
        // Cut through the gap: what the rod carries along the axis and what the bone ends press make up the load.
        FrameAssessment f = Assess(_narrow, allowedKg: 23);
        double rod = f.InternalForces.Single(p => p.Part == "r1").Stations.First(s => s.Place == "clamp c3").AxialN;

        Assert.True(f.Motion!.EndsTouch);
        Assert.Equal(-f.Motion.FrameShare!.Value * 23 * 9.81, rod, 1e-5);
    }

    [Fact]
    public void BoneAtItsFace_carriesWhatTheEndsPress()
    {
        FrameAssessment f = Assess(_narrow, allowedKg: 23);
        ForceStation face = f.InternalForces.Single(p => p.Part == "fragment1").Stations.First(s => s.Place == "proximal face");

        Assert.Equal(-(1 - f.Motion!.FrameShare!.Value) * 23 * 9.81, face.AxialN, 1e-5);
    }

    [Fact]
    public void Bearing_ofASymmetricFrame_isAnArcOppositeThePins()
    {
        (FrameAnalyser analyser, FractureContact contact) = Solved(Bench.NearFar, _narrow);
        FractureMotion m = new MotionReadout(analyser, contact.Ring, _narrow).Of(contact.Under(EndLoad.Compression(1700)));

        // Symmetric about the pins' plane: from 180° − a through 180° to −(180° − a).
        Assert.Equal(RingBearing.Part, m.Bearing);
        Assert.InRange(m.BearingFromDeg!.Value, 1, 179);
        Assert.Equal(-m.BearingFromDeg.Value, m.BearingToDeg!.Value, 1e-6);
    }

    [Fact]
    public void DemoFrame_reducedNarrowAndComminuted_leavesTheFrameMoreOfTheLoadInThatOrder()
    {
        FrameAssessment Demo(Func<Fracture, Fracture> change)
        {
            Case demo = Bench.Example("01-oblique-fracture.json");
            Case changed = demo with
            {
                Fractures = [change(demo.Fractures[0])],
                Loading = new() { AllowedKg = 25 },
                Frames = [demo.Frames.Single(f => f.Id == "near-far")],
            };
            return Bench.Assess(changed);
        }

        FractureMotion reduced = Demo(f => f with { GapMm = 0 }).Motion!, narrow = Demo(f => f with { GapMm = 2 }).Motion!;
        FractureMotion comminuted = Demo(f => f with { GapMm = 22, Pattern = FracturePattern.Comminuted }).Motion!;

        Assert.True(reduced.FrameShare < narrow.FrameShare);
        Assert.True(narrow.FrameShare < comminuted.FrameShare);
        Assert.Equal(1, comminuted.FrameShare);
        Assert.True(-reduced.AxialMm < -narrow.AxialMm && -narrow.AxialMm < -comminuted.AxialMm);
    }

    [Fact]
    public void DynamisedFrame_whoseEndsBear_carriesNothingAlongItsSlide()
    {
        // Transverse ends: the rods give way along the axis, so the bone takes the whole load.
        FrameAssessment f = Bench.Assess(Bench.CaseOf(_dynamised, allowedKg: 19, _narrow));

        Assert.Equal(FrameStatus.Ok, f.Status);
        Assert.Equal(0, f.Motion!.FrameShare!.Value, 1e-6);
        Assert.True(f.Motion.AxialMm < -1.3);
        Assert.Equal(0, f.Contact!.FirstTouchN);
        Assert.Equal(0, f.Contact.AxialBeforeNPerMm);
    }

    [Fact]
    public void DynamisedFrame_underTorsionOverAnOpenGap_staysOpen()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(_dynamised, fracture: _narrow) with { Loading = new() { TorsionNm = 0.4 } });

        Assert.Equal(FrameStatus.Ok, f.Status);
        Assert.False(f.Motion!.EndsTouch);
    }

    [Fact]
    public void DynamisedFrame_whoseEndsNeverTouch_saysThatNothingStopsIt()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(_dynamised, allowedKg: 19, _narrow with { Contact = false }));

        Assert.Equal(FrameStatus.OutOfRange, f.Status);
        Assert.Contains("nothing stops it", f.Diagnosis!.Message, StringComparison.Ordinal);
        Assert.Null(f.Motion);
        Assert.Null(f.Contact!.FirstTouchN);
    }

    [Fact]
    public void LimitAfterTouch_isReachedAtItsLoadAndNotBefore()
    {
        Case demo = Bench.Example("01-oblique-fracture.json");
        FrameAssessment Under(double kg) => Bench.Assess(demo with
        {
            Fractures = [demo.Fractures[0] with { GapMm = 2 }],
            Loading = new() { AllowedKg = kg },
            Frames = [demo.Frames.Single(f => f.Id == "double-rod")],
        });
        FirstLimit next = Under(1).Contact!.LimitAfterTouch!;

        Assert.True(Under(next.LoadKg).Motion!.EndsTouch);
        Assert.Equal(1, Worst(Under(next.LoadKg)), 1e-6);
        Assert.True(Worst(Under(0.99 * next.LoadKg)) < 1);

        static double Worst(FrameAssessment f) => f.Utilisation.Where(u => u.Check != "fatigue").Max(u => u.Value);
    }

    [Fact]
    public void ContactFriction_onAnObliquePlane_lessensSlidingAndTheFramesShare()
    {
        FrameAssessment smooth = Assess(_oblique, 25), rough = Assess(_oblique, 25, new() { ContactFriction = 0.3 });

        Assert.True(rough.Contact!.AtChosenLoad!.SlidingMm < smooth.Contact!.AtChosenLoad!.SlidingMm);
        Assert.True(rough.Motion!.FrameShare < smooth.Motion!.FrameShare);
    }

    [Theory]
    [InlineData(0.55, true)]
    [InlineData(0.35, false)]
    public void ReducedEndsOnAPlaneOf25Degrees_holdAboveItsTangentAndSlideBelow(double friction, bool hold)
    {
        // Coulomb: a block on an incline stays while μ > tan 25° = 0.466. The frame bears a part, so held ends leave it next to nothing.
        Fracture incline = _narrow with { GapMm = 0, TiltDeg = 25, TiltAzimuthDeg = -61 };
        FrameAssessment smooth = Assess(incline, 20), rough = Assess(incline, 20, new() { ContactFriction = friction });

        Assert.Equal(hold, rough.Contact!.AtChosenLoad!.SlidingMm < 0.05 * smooth.Contact!.AtChosenLoad!.SlidingMm);
    }

    [Fact]
    public void ObliqueEnds_slideOnEachOther()
    {
        // Reduced ends on a plane of 37° without friction: what closes along the axis runs down the plane, u·n ≥ 0 but for the contact's give.
        FrameAssessment f = Assess(_oblique with { GapMm = 0 }, allowedKg: 20);
        FrameAssessment square = Assess(_narrow with { GapMm = 0 }, allowedKg: 20);

        Assert.True(f.Contact!.AtChosenLoad!.SlidingMm > 10 * square.Contact!.AtChosenLoad!.SlidingMm);
    }

    [Fact]
    public void OverloadCase_beyondTheTouch_isStillAnswered()
    {
        FrameAssessment f = Assess(_narrow, allowedKg: 1);

        Assert.True(f.OverloadMotion!.EndsTouch);
        Assert.NotNull(f.Contact!.AtOverload);
        Assert.Contains(f.Checks, c => c.Message.Contains("(overload)", StringComparison.Ordinal));
    }

    [Fact]
    public void Ring_sharesTheCorticalArea()
    {
        // Σk = E·A/(2·5 mm): springs in parallel.
        CorticalRing ring = new(BoneShape.For(Bench.TibiaLimb), Bench.Gap, 5);
        double sum = 0;
        foreach (var p in ring.Contacts)
        {
            sum += p.StiffnessNPerMm;
        }

        Assert.Equal(17_000 * BoneShape.For(Bench.TibiaLimb).SectionAt(181).AreaMm2 / 10, sum, 1e-6);
    }

    [Fact]
    public void Ring_ofATiltedFracture_liesOnItsPlaneWithTheGapAcrossIt()
    {
        CorticalRing ring = new(BoneShape.For(Bench.TubeLimb), _oblique, 5);

        Assert.All(Enumerable.Range(0, CorticalRing.Points), i =>
        {
            Assert.Equal(0, ring.OffsetMm(i).Dot(ring.PlaneNormal), 1e-12);
            Assert.Equal(1.3 * Math.Cos(37 * Math.PI / 180), ring.Contacts[i].GapMm, 1e-12);
        });

        // It slopes down toward its tilt azimuth.
        Vec3 lowest = Enumerable.Range(0, CorticalRing.Points).Select(ring.OffsetMm).MinBy(p => p.Z);
        Assert.Equal(-60, Math.Atan2(lowest.Y, lowest.X) * 180 / Math.PI, 1e-9);
    }

    [Fact]
    public void Contact_solvedForLoadAfterLoad_allocatesNothing()
    {
        (_, FractureContact contact) = Solved(_dynamised, _oblique);
        contact.Under(EndLoad.Compression(200));
        long before = GC.GetAllocatedBytesForCurrentThread();
        contact.Update();
        long updated = GC.GetAllocatedBytesForCurrentThread();
        contact.Under(EndLoad.Compression(211));
        contact.FirstTouch(EndLoad.Compression(1));

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - updated);
        Assert.InRange(updated - before, 0, 200);
    }

    private static FrameAssessment Assess(Fracture fracture, double allowedKg, ModelOptions? model = null) =>
        Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg, fracture) with { Model = model ?? new() });

    private static (FrameAnalyser Analyser, FractureContact Contact) Solved(Construct construct, Fracture fracture)
    {
        FrameAnalyser analyser = Bench.Analysed(Bench.PartsOf(construct, fracture), fracture: fracture);
        return (analyser, new(analyser));
    }
}
