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

    private static Case CaseOf(ClampModel clamp, Fracture? fracture = null, Construct? construct = null) =>
        Bench.CaseOf(construct ?? Bench.NearFar, fracture: fracture) with { Model = new() { Clamp = clamp } };

    private static OverloadReport Follow(Case value, double toN) => new OverloadAssessor(value).Assess(value.Frames[0], toN, new("halfpin", "test"), "");
}
