using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Stability.Overload;
using Xunit;

namespace Halfpin.Stability.Tests.Overload;

/// <summary>The overload path against the linear first limit, statics and what each model leaves out.</summary>
public class OverloadTests
{
    private static readonly Fracture _narrow = Bench.Gap with { GapMm = 1.3, Contact = true };

    private static readonly SpringClamp _weak = new() { SlipMomentNm = 2.3 };

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

    [Fact]
    public void FirstSlip_isTheLinearFirstLimit()
    {
        Case value = CaseOf(_weak);
        FirstLimit limit = Bench.Assess(value).FirstLimit!;
        OverloadEvent first = Follow(value, 1.3 * limit.LoadN).Events[0];

        Assert.Contains(limit.Check, new[] { "slip about pin", "slip about rod", "pivot", "slide" });
        Assert.Equal((OverloadEventKind.Slip, limit.Part), (first.Kind, first.Part));
        Assert.Equal(limit.LoadN, first.LoadN, 1e-6 * limit.LoadN);
    }

    [Fact]
    public void Message_ofASlip_namesTheClampAndTheLoadInBothUnits()
    {
        Case value = CaseOf(_weak);
        OverloadEvent first = Follow(value, 1.3 * Bench.Assess(value).FirstLimit!.LoadN).Events[0];

        Assert.Contains($"clamp {first.Part}", first.Message, StringComparison.Ordinal);
        Assert.Contains($"{first.LoadN:0} N ({first.LoadN / 9.81:0.#} kg)", first.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FirstYield_whereNoClampSlips_isTheLinearFirstLimit()
    {
        Case value = CaseOf(new RigidClamp());
        FirstLimit limit = Bench.Assess(value).FirstLimit!;
        OverloadReport report = Follow(value, 1.07 * limit.LoadN);

        Assert.Contains(limit.Check, new[] { "yield", "bearing" });
        Assert.Equal(limit.Part, report.Events[0].Part);
        Assert.Equal(limit.LoadN, report.Events[0].LoadN, 1e-6 * limit.LoadN);
    }

    // The same limit searched by repeated equilibria with contact, without a path.
    public static TheoryData<ClampModel> Clamps => new() { new RigidClamp(), new SpringClamp { SlipMomentNm = 3.1 } };

    // The same limit searched by repeated equilibria with contact, without a path. Ends on a slope load the frame on.
    [Theory]
    [MemberData(nameof(Clamps))]
    public void FirstLimit_afterContact_isThatOfTheEquilibriumWithContact(ClampModel clamp)
    {
        Case value = CaseOf(clamp, _narrow with { GapMm = 0.17, Pattern = FracturePattern.Oblique, TiltDeg = 33, TiltAzimuthDeg = -61 });
        FirstLimit after = Bench.Assess(value with { Loading = new() { AllowedKg = 3 } }).Contact!.LimitAfterTouch!;
        OverloadEvent passed = Follow(value, 1.07 * after.LoadN).Events.First(e => e.Kind != OverloadEventKind.Contact);

        Assert.NotEqual(FirstLimits.Range, after.Check);
        Assert.Equal(after.Part, passed.Part);
        Assert.Equal(after.LoadN, passed.LoadN, 1e-5 * after.LoadN);
    }

    [Fact]
    public void FirstContact_isTheLoadAtWhichTheEndsFirstTouch()
    {
        Case value = CaseOf(new SpringClamp(), _narrow);
        double touchN = Bench.Assess(value with { Loading = new() { AllowedKg = 11 } }).Contact!.FirstTouchN!.Value;
        OverloadEvent contact = Follow(value, 2 * touchN).Events.First(e => e.Kind == OverloadEventKind.Contact);

        Assert.Equal(touchN, contact.LoadN, 1e-6 * touchN);
    }

    [Fact]
    public void Motion_beforeTheFirstEvent_isThatOfTheLinearFrame()
    {
        Case value = CaseOf(_weak);
        double axial = Bench.Assess(value).Stiffness!.AtFracture.AxialNPerMm;
        OverloadReport report = Follow(value, 1.3 * Bench.Assess(value).FirstLimit!.LoadN);

        Assert.Equal(report.Events[0].LoadN, report.Path[1].LoadN, 1e-9);
        Assert.Equal(-report.Path[1].LoadN / axial, report.Path[1].AxialMm, 1e-6 * report.Path[1].LoadN / axial);
    }

    [Fact]
    public void Event_asTheLoadComesOff_saysSo()
    {
        Case value = CaseOf(new SpringClamp(), _narrow);
        OverloadEvent[] contacts = [.. Follow(value, 400).Events.Where(e => e.Kind == OverloadEventKind.Contact)];

        Assert.Equal([false, true], contacts.Select(e => e.OnWayBack));
        Assert.EndsWith("as the load comes off.", contacts[1].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Set_withoutSlip_is0()
    {
        Case value = CaseOf(new SpringClamp());
        OverloadReport report = Follow(value, 0.93 * Bench.Assess(value).FirstLimit!.LoadN);

        Assert.Empty(report.Events);
        Assert.True(report.Complete);
        Assert.Equal(0, report.SetMm!.Value, 1e-12);
    }

    [Fact]
    public void Set_afterSlip_isMoreThan0AndWhatThePathEndsWith()
    {
        Case value = CaseOf(_weak);
        OverloadReport report = Follow(value, 1.3 * Bench.Assess(value).FirstLimit!.LoadN);

        Assert.True(report.Complete, report.Ended);
        Assert.True(report.SetMm > 1e-3);
        Assert.True(report.SetMm >= Math.Abs(report.Path[^1].AxialMm));
        Assert.Equal(0, report.Path[^1].LoadN);
    }

    [Fact]
    public void WayBack_afterYield_isLeftOutWithItsReason()
    {
        Case value = CaseOf(new RigidClamp());
        double toN = 1.07 * Bench.Assess(value).FirstLimit!.LoadN;
        OverloadReport report = Follow(value, toN);

        Assert.False(report.Complete);
        Assert.Null(report.SetMm);
        Assert.Equal(toN, report.Path[^1].LoadN, 1e-9);
        Assert.Contains($"{report.Events[0].Part} passes a limit", report.Ended, StringComparison.Ordinal);
    }

    // A yield after slips: up to it the clamps' slip alone is what stays, as in a path that turns there.
    [Fact]
    public void Yield_afterSlip_leavesOnlyTheSetOfTheLoadBelowIt()
    {
        Case value = CaseOf(new SpringClamp { SlipMomentNm = 3.1 }, _narrow with { GapMm = 4.3 });
        OverloadReport report = Follow(value, 1900);
        OverloadEvent limit = report.Events.First(e => e.Kind is OverloadEventKind.Yield or OverloadEventKind.Bearing);
        OverloadReport below = Follow(value, report.SetBefore!.LoadN);

        Assert.Contains(report.Events, e => e.Kind == OverloadEventKind.Slip && e.LoadN < limit.LoadN);
        Assert.True(report.SetBefore.SetMm > 0.01);
        Assert.InRange(report.SetBefore.LoadN, (1 - 2e-6) * limit.LoadN, limit.LoadN);
        Assert.Null(report.SetMm);
        Assert.Contains("no set is given", report.Ended, StringComparison.Ordinal);
        Assert.Equal(report.SetBefore.SetMm, below.SetMm!.Value, 1e-9);
    }

    // One pin a fragment, so nothing but the load strains the frame. A load P on the bone's axis turns the upper clamp about the line across
    // pin and rod with P·s, s the rod's distance from that axis: it slips at P = M/s and, perfectly plastic, turns on until the far side of
    // the gap is closed. Off load all strain is gone and the fragment stands turned by φ about the clamp: the middle of the gap has moved by
    // −φs along the axis and by φh across it, h its distance below the clamp. DERIVED.
    [Fact]
    public void OneClampSlipping_leavesItsSlipAsTheSet()
    {
        (Case value, double armMm, double belowMm) = OnePinEach(slipNm: 1.3);
        double slipN = 1300 / armMm;
        FractureMotion elastic = Bench.Assess(value with { Loading = new() { AllowedKg = 0.5 * slipN / Loading.NewtonPerKg } }).Motion!;
        OverloadReport report = Follow(value, slipN * (1 + 1e-7));
        OverloadPoint left = report.Path[^1];
        double radiusMm = Bench.Tube.OuterDiameterMm / 2;
        double slipRad = (value.Fractures[0].GapMm - (2 * elastic.ClosingFarMm)) / (armMm + radiusMm);

        Assert.True(report.Complete, report.Ended);
        Assert.Equal(slipN, report.Events[0].LoadN, 1e-6 * slipN);
        Assert.Equal(slipRad * 180 / Math.PI, left.TiltDeg, 1e-5 * left.TiltDeg);
        Assert.Equal(-slipRad * armMm, left.AxialMm, 1e-5 * slipRad * armMm);
        Assert.Equal(slipRad * Math.Sqrt((armMm * armMm) + (belowMm * belowMm)), report.SetMm!.Value, 1e-5 * report.SetMm.Value);
    }

    [Fact]
    public void ElasticPath_throughContact_closes()
    {
        Case value = CaseOf(new RigidClamp(), _narrow with { GapMm = 0.17, Pattern = FracturePattern.Oblique, TiltDeg = 33, TiltAzimuthDeg = -61 });
        OverloadReport report = Follow(value, 211);

        Assert.Equal([OverloadEventKind.Contact, OverloadEventKind.Contact], report.Events.Select(e => e.Kind));
        Assert.True(report.Complete, report.Ended);
        Assert.Equal(0, report.SetMm!.Value, 1e-10);
    }

    [Fact]
    public void Frame_whoseClampsCannotCarryTheLoad_endsIncompleteBeforeIt()
    {
        OverloadReport report = Follow(CaseOf(new SpringClamp { SlipMomentNm = 0.7 }), 1900);

        Assert.False(report.Complete);
        Assert.NotNull(report.Ended);
        Assert.Null(report.SetMm);
        Assert.True(report.Path[^1].LoadN < 1900);
        Assert.All(report.Events, e => Assert.True(e.LoadN <= report.Path[^1].LoadN));
    }

    [Fact]
    public void Path_ofAPliantFrame_endsWhereAPartHasTurned5Degrees()
    {
        Case value = CaseOf(new RigidClamp()) with { Frames = [new() { Id = "f", Construct = Bench.NearFar with { StandoffMm = 139, Pin = Bench.Pin with { DiameterMm = 4 } } }] };
        OverloadReport report = Follow(value, 2900);

        Assert.Equal(FrameStatus.OutOfRange, report.Status);
        Assert.Contains("5°", report.Ended, StringComparison.Ordinal);
        Assert.True(report.Path[^1].LoadN is > 0 and < 2900);
        Assert.True(report.Path[^1].TiltDeg <= 5 * (1 + 1e-9));
    }

    // The linear frame over an open gap turns in proportion to the load.
    [Fact]
    public void EndOfRange_overAnOpenGap_isTheLinearOne()
    {
        Case value = CaseOf(new RigidClamp()) with { Frames = [new() { Id = "f", Construct = Bench.NearFar with { StandoffMm = 139, Pin = Bench.Pin with { DiameterMm = 4 } } }] };
        var analyser = Bench.Analysed(Bench.PartsOf(value.Frames[0].Construct!), model: value.Model);
        double rangeN = new Stability.Movement.LoadedFrame(analyser)
            .RangeFactor(Stability.Movement.EndLoad.Compression(1));

        Assert.Equal(rangeN, Follow(value, 2900).Path[^1].LoadN, 1e-5 * rangeN);
    }

    [Fact]
    public void DynamisedFrame_runsToTheBoneUnderNoLoad()
    {
        OverloadReport report = Follow(CaseOf(new SpringClamp(), _narrow, _dynamised), 190);

        Assert.Equal(OverloadEventKind.Slip, report.Events[0].Kind);
        Assert.Equal(0, report.Events[0].LoadN);
        Assert.Contains("until bone stops it", report.Events[0].Message, StringComparison.Ordinal);
        Assert.Contains(report.Events, e => e is { Kind: OverloadEventKind.Contact, LoadN: 0 });
    }

    [Fact]
    public void DynamisedFrame_underLoad_closesAsTheEquilibriumWithContactSays()
    {
        Case value = CaseOf(new SpringClamp { SlipMomentNm = 97 }, _narrow, _dynamised);
        FractureMotion motion = Bench.Assess(value with { Loading = new() { AllowedKg = 19 } }).Motion!;
        OverloadPoint top = Follow(value, 19 * Loading.NewtonPerKg).Path.MaxBy(p => p.LoadN)!;

        Assert.Equal(motion.AxialMm, top.AxialMm, 1e-4 * Math.Abs(motion.AxialMm));
        Assert.Equal(motion.FrameShare!.Value, top.FrameShare!.Value, 1e-4);
    }

    [Fact]
    public void DynamisedFrame_overAGapThatNeverCloses_givesWayUnderNoLoad()
    {
        OverloadReport report = Follow(CaseOf(new SpringClamp(), construct: _dynamised), 190);

        Assert.False(report.Complete);
        Assert.Contains("sliding on", report.Ended, StringComparison.Ordinal);
        Assert.Equal(0, report.Path[^1].LoadN);
    }

    [Fact]
    public void Mechanism_hasADiagnosisAndNoPath()
    {
        Parts parts = Bench.PartsOf(Bench.NearFar);
        Case value = CaseOf(new SpringClamp()) with { Frames = [new() { Id = "f", Parts = parts with { Clamps = [.. parts.Clamps.Select(c => c with { State = ClampState.Off })] } }] };
        OverloadReport report = Follow(value, 190);

        Assert.NotNull(report.Diagnosis);
        Assert.Empty(report.Path);
        Assert.False(report.Complete);
    }

    [Fact]
    public void Friction_ofTheCase_isSaidToBeLeftOut()
    {
        Case value = CaseOf(new SpringClamp(), _narrow);

        Assert.DoesNotContain(Follow(value, 90).Assumptions, a => a.Contains("friction", StringComparison.Ordinal));
        Assert.Contains(Follow(value with { Model = value.Model with { ContactFriction = 0.3 } }, 90).Assumptions, a => a.Contains("without friction", StringComparison.Ordinal));
    }

    // The upper of two clamps can slip, the lower cannot; the rod stands parallel to the bone.
    private static (Case Value, double ArmMm, double BelowMm) OnePinEach(double slipNm)
    {
        const double ArmMm = 57, PinMm = 137;
        Fracture gap = Bench.Gap with { GapMm = 2.3, Contact = true };
        Rod rod = new() { Id = "r", DiameterMm = 11, Material = "steel", From = new() { LevelMm = 120, AzimuthDeg = 31, RadiusMm = ArmMm }, To = new() { LevelMm = 240, AzimuthDeg = 31, RadiusMm = ArmMm }, OverhangMm = 15 };
        Pin At(string id, double levelMm) => new() { Id = id, LevelMm = levelMm, AzimuthDeg = 31, DiameterMm = 6, Material = "steel" };
        Parts parts = new()
        {
            Pins = [At("p1", PinMm), At("p2", 229)],
            Rods = [rod],
            Clamps =
            [
                new() { Id = "c1", Pin = "p1", Rod = "r", Model = new SpringClamp { SlipMomentNm = slipNm } },
                new() { Id = "c2", Pin = "p2", Rod = "r", Model = new SpringClamp { SlipMomentNm = 900 } },
            ],
        };
        Case value = Bench.CaseOf(new Frame { Id = "f", Parts = parts }, fracture: gap);
        return (value, ArmMm, gap.LevelMm - PinMm);
    }

    private static Case CaseOf(ClampModel clamp, Fracture? fracture = null, Construct? construct = null) =>
        Bench.CaseOf(construct ?? Bench.NearFar, fracture: fracture) with { Model = new() { Clamp = clamp } };

    private static OverloadReport Follow(Case value, double toN) => new OverloadAssessor(value).Assess(value.Frames[0], toN, new("halfpin", "test"), "");
}
