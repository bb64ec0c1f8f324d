using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Contact;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;
using Halfpin.Stability.Tests.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Segments;

/// <summary>Bone ends that bear at two fractures at once.</summary>
public class SegmentContactTests
{
    // Two factorisations of one frame, and contacts some hundred times as stiff as the frame: rounding times condition.
    private const double Rounding = 2e-6;

    private static readonly Fracture _upper = SegmentBench.Upper with { GapMm = 1.3, Contact = true };
    private static readonly Fracture _lower = SegmentBench.Lower with { GapMm = 2.1, Contact = true, Pattern = FracturePattern.Oblique, TiltDeg = 24, TiltAzimuthDeg = -70 };
    private static readonly ImmutableArray<Fracture> _both = [_upper, _lower];
    private static readonly Parts _sliding = SegmentBench.Loosened(SegmentBench.Twin, "c5", "c6", "d5", "d6");

    public static TheoryData<Parts, EndLoad> Loaded => new()
    {
        { SegmentBench.Six, EndLoad.Compression(390) },
        { SegmentBench.Six, new(13, -7, -430, 900, -2100, 1300) },
        { _sliding, EndLoad.Compression(310) },
        { SegmentBench.Loosened(SegmentBench.Twin, "c1", "c2", "d1", "d2", "c5", "c6", "d5", "d6"), EndLoad.Compression(260) },
    };

    [Theory]
    [MemberData(nameof(Loaded))]
    public void Faces_thatBearAtBothFractures_moveAsInTheWholeFrame(Parts parts, EndLoad load)
    {
        (FrameAnalyser analyser, FractureContact contact) = Solved(parts);
        SiteState state = contact.Under(load);
        FullModel full = new(analyser, contact.Rings, state);
        for (int s = 0; s < 2; s++)
        {
            Assert.NotEqual(0u, state.BearingAt(s));
            double size = full.FacesAt(s).TranslationMm.Length + (100 * full.FacesAt(s).RotationRad.Length);
            Assert.Equal(0, (full.FacesAt(s).TranslationMm - state.FacesAt(s).TranslationMm).Length / size, Rounding);
            Assert.Equal(0, 100 * (full.FacesAt(s).RotationRad - state.FacesAt(s).RotationRad).Length / size, Rounding);
        }
    }

    [Theory]
    [MemberData(nameof(Loaded))]
    public void EveryPart_carriesWhatTheWholeFrameSays(Parts parts, EndLoad load)
    {
        (FrameAnalyser analyser, FractureContact contact) = Solved(parts);
        SiteState state = contact.Under(load);
        FullModel full = new(analyser, contact.Rings, state);
        DemandAnalysis demand = new(analyser);

        Assert.All(Enumerable.Range(0, analyser.Plan.Members.Length), m =>
        {
            var ours = demand.WrenchAbout(m, analyser.System.Member(m).AtMm, state.Load);
            Assert.Equal(0, (ours.ForceN - full.WrenchOn(m).ForceN).Length / -load.Fz, 1e-4);
            Assert.Equal(0, (ours.MomentNmm - full.WrenchOn(m).MomentNmm).Length / (-load.Fz * 100), 1e-4);
        });
    }

    [Fact]
    public void LargestRotation_withContactAtBoth_isThatOfTheWholeFrame()
    {
        (FrameAnalyser analyser, FractureContact contact) = Solved(SegmentBench.Six);
        SiteState state = contact.Under(EndLoad.Compression(390));
        double faces = Math.Max(state.FacesAt(0).RotationRad.Length, state.FacesAt(1).RotationRad.Length) * 180 / Math.PI;

        Assert.Equal(Math.Max(new FullModel(analyser, contact.Rings, state).LargestRotationDeg, faces), new MotionReadout(analyser, contact.Ring, _upper).LargestRotationDeg(state), 1e-6);
    }

    [Fact]
    public void MiddleFragment_betweenTwoContacts_isPressedByBoth()
    {
        (FrameAnalyser analyser, FractureContact contact) = Solved(SegmentBench.Six);
        SiteState state = contact.Under(EndLoad.Compression(390));
        var middle = new InternalForces(analyser, new(analyser), state.Load).All().Single(f => f.Part == "fragment2").Stations;

        // Tension is positive; the wrench on a proximal face pushes it up.
        Assert.Equal(-state.Load.OnFace(0, 2), middle[0].AxialN, 1e-3);
        Assert.Equal(-state.Load.OnFace(1, 2), middle[^1].AxialN, 1e-3);
    }

    [Fact]
    public void FirstTouch_ofEachFracture_isTheLoadFromWhichOnItsEndsBear()
    {
        FrameAssessment f = Assess(SegmentBench.Six, 3);
        (_, FractureContact contact) = Solved(SegmentBench.Six);

        Assert.All(Enumerable.Range(0, 2), s =>
        {
            double touchN = f.Fractures[s].Contact!.FirstTouchN!.Value;
            Assert.Equal(0u, contact.Under(EndLoad.Compression(0.9999 * touchN)).BearingAt(s));
            Assert.NotEqual(0u, contact.Under(EndLoad.Compression(1.0001 * touchN)).BearingAt(s));
        });
    }

    [Fact]
    public void FirstLimit_namesTheFractureThatTouchesFirst()
    {
        FrameAssessment f = Assess(SegmentBench.Six, 3);

        Assert.Equal("fracture 1", f.FirstLimit!.Part);
        Assert.Equal(f.Fractures[0].Contact!.FirstTouchN!.Value, f.FirstLimit.LoadN, 1e-9);
        Assert.True(f.Fractures[1].Contact!.FirstTouchN > f.Fractures[0].Contact!.FirstTouchN);
    }

    [Fact]
    public void DistalSlide_underLoad_bearsAtOnceAtTheFractureItClosesAndLaterAtTheOther()
    {
        FrameAssessment f = Assess(_sliding, 20);

        Assert.Equal(FrameStatus.Ok, f.Status);
        Assert.Contains("axial", f.Freedoms);
        Assert.Equal(0, f.Fractures[1].Contact!.FirstTouchN);
        Assert.True(f.Fractures[0].Contact!.FirstTouchN > 10);
        Assert.True(f.Fractures[1].Motion!.EndsTouch);

        // The slide itself holds nothing: the bone carries all of the load but for what the tilted plane turns aside.
        Assert.InRange(f.Fractures[1].Motion!.FrameShare!.Value, -0.3, 0.3);
    }

    [Fact]
    public void DistalSlide_whoseEndsNeverBear_isUnrestrainedThoughTheOthersWould()
    {
        FrameAnalyser analyser = SegmentBench.Analysed(_sliding, [_upper, _lower with { Contact = false }]);

        Assert.Equal(ContactStatus.Unrestrained, new FractureContact(analyser).Under(EndLoad.Compression(100)).Status);
    }

    [Fact]
    public void Fractures_ofAnAssessment_beginWithTheOneThatTheOthersMembersSpeakOf()
    {
        FrameAssessment f = Assess(SegmentBench.Six, 9);

        Assert.Equal([131.0, 233.0], f.Fractures.Select(r => r.LevelMm));
        Assert.Equal(f.Motion, f.Fractures[0].Motion);
        Assert.Equal(f.OverloadMotion, f.Fractures[0].OverloadMotion);
        Assert.Equal(f.Contact, f.Fractures[0].Contact);
        Assert.Equal(f.Stiffness!.AtFracture, f.Fractures[0].AtFracture);
        Assert.NotEqual(f.Fractures[0].Motion!.AxialMm, f.Fractures[1].Motion!.AxialMm);
    }

    [Fact]
    public void OneFracture_hasNoListOfFractures() => Assert.Empty(Bench.Assess(Bench.CaseOf(Bench.NearFar, 5)).Fractures);

    [Fact]
    public void Motion_ofEachFracture_timesItsStiffnessIsTheLoad() =>
        Assert.All(Assess(SegmentBench.Six, 3).Fractures, r => Assert.Equal(3 * 9.81, -r.Motion!.AxialMm * r.AtFracture.AxialNPerMm, 1e-9));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void MovementChecks_judgeTheFractureThatFaresWorst(int narrow)
    {
        // The same closing strains a gap of 1 mm more than one of 40 mm.
        ImmutableArray<Fracture> fractures = [SegmentBench.Upper with { GapMm = narrow == 0 ? 1 : 40 }, SegmentBench.Lower with { GapMm = narrow == 1 ? 1 : 40 }];
        FrameAssessment f = Bench.Assess(CaseOf(SegmentBench.Six, 4) with { Fractures = fractures });

        Assert.StartsWith($"Fracture {narrow + 1}: The gap is strained", Assert.Single(f.Checks, c => c.Id == "gap-strain").Message, StringComparison.Ordinal);
        Assert.Single(f.Checks, c => c.Id == "axial-motion");
    }

    [Fact]
    public void PinToFracture_isJudgedAgainstAllFractures() =>
        Assert.StartsWith("Near the fracture: p4 passes 18 mm from the edge of fracture 2", Assert.Single(Assess(
            SegmentBench.Six with { Pins = SegmentBench.Six.Pins.SetItem(3, SegmentBench.Six.Pins[3] with { LevelMm = 203 }) }, 3,
            [SegmentBench.Upper, SegmentBench.Lower with { LevelMm = 223 }]).Checks, c => c.Id == "pin-to-fracture").Message, StringComparison.Ordinal);

    [Fact]
    public void MiddleFragment_onOnePin_isACaution()
    {
        FrameAssessment f = Assess(SegmentBench.Six with { Clamps = [.. SegmentBench.Six.Clamps.Where(c => c.Id != "c3")] }, 3);

        Check check = Assert.Single(f.Checks, c => c.Id == "one-pin-fragment");
        Assert.StartsWith("The middle fragment hangs on pin p4 alone", check.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Contact_atTwoFractures_allocatesNothingPerLoad()
    {
        (FrameAnalyser analyser, FractureContact contact) = Solved(SegmentBench.Six);
        DemandAnalysis demand = new(analyser);
        demand.FirstUnder(contact.Under(EndLoad.Compression(390)).Load);
        long before = GC.GetAllocatedBytesForCurrentThread();
        demand.FirstUnder(contact.Under(EndLoad.Compression(410)).Load);
        contact.FirstTouch(EndLoad.Compression(1));

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void ThreeFractures_leaveFourFragmentsThatAllHold()
    {
        // Pins at 41, 99 | 157 | 212 | 262, 327: two fragments on one pin each.
        ImmutableArray<Fracture> three = [_upper, _upper with { LevelMm = 185 }, _lower with { TiltDeg = 0 }];
        FrameAssessment f = Assess(SegmentBench.Six, 3, three);

        Assert.Equal(FrameStatus.Ok, f.Status);
        Assert.Equal(3, f.Fractures.Length);
        Assert.Contains(f.Checks, c => c.Message.StartsWith("The second fragment hangs on pin p3 alone", StringComparison.Ordinal));
        Assert.Contains(f.Checks, c => c.Message.StartsWith("The third fragment hangs on pin p4 alone", StringComparison.Ordinal));
    }

    [Fact]
    public void Example_segmental_isAssessedButForTheFrameThatLeavesTheMiddleFree()
    {
        Assessment a = new Assessor(Bench.Example("04-segmental-fracture.json")).Assess(null, new("halfpin", "test"), "");

        Assert.Equal([FrameStatus.Mechanism, FrameStatus.Ok, FrameStatus.Ok], a.Frames.Select(f => f.Status));
        Assert.Contains("middle fragment", a.Frames[0].Diagnosis!.Message, StringComparison.Ordinal);
        Assert.Null(a.Frames[1].Fractures[1].Contact!.FirstTouchN);
    }

    [Fact]
    public void Assumptions_sayWhichEndsNeverTouch()
    {
        Case value = CaseOf(SegmentBench.Six, 3) with { Fractures = [_upper, _lower with { Contact = false }] };

        Assert.StartsWith("Never touch at fracture 2, as the case says; elsewhere: Bear", Assumptions.Of(value).Single(a => a.Name == "Bone ends").Value, StringComparison.Ordinal);
    }

    private static Case CaseOf(Parts parts, double allowedKg) =>
        Bench.CaseOf(new Frame { Id = "f", Parts = parts }, allowedKg) with { Limb = Bench.TibiaLimb, Fractures = _both };

    private static FrameAssessment Assess(Parts parts, double allowedKg, ImmutableArray<Fracture>? fractures = null) =>
        Bench.Assess(CaseOf(parts, allowedKg) with { Fractures = fractures ?? _both });

    private static (FrameAnalyser Analyser, FractureContact Contact) Solved(Parts parts)
    {
        FrameAnalyser analyser = SegmentBench.Analysed(parts, _both);
        return (analyser, new(analyser));
    }
}
