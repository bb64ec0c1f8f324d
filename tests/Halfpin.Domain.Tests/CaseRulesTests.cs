using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Validity;
using Xunit;

namespace Halfpin.Domain.Tests;

public class CaseRulesTests
{
    private static readonly Case _good = new()
    {
        Format = Case.FormatName,
        FormatVersion = 1,
        Title = "Good",
        Limb = new() { Bone = BoneName.Tibia, Side = Side.Left, LengthMm = 352, PatientMassKg = 68, BoneModel = new AnatomicalBone() },
        Fractures = [new() { LevelMm = 205, GapMm = 3, Pattern = FracturePattern.Oblique }],
        Frames = [new() { Id = "f", Construct = ConstructGallery.All[1].Construct }],
    };

    public static TheoryData<string, string, string> Faults => new()
    {
        { "/limb/boneModel/innerDiameterMm", FaultCodes.Inconsistent, "tube" },
        { "/fractures/0/levelMm", FaultCodes.OutsideBone, "fracture" },
        { "/wounds/0/toLevelMm", FaultCodes.Inconsistent, "wound" },
        { "/plannedIncisions/0/toLevelMm", FaultCodes.OutsideBone, "incision" },
        { "/healing/weeks/2/week", FaultCodes.Inconsistent, "weeks" },
        { "/materials/1/id", FaultCodes.DuplicateId, "materials" },
        { "/materials/0/shearModulusMPa", FaultCodes.Missing, "material" },
        { "/frames/1/id", FaultCodes.DuplicateId, "frames" },
        { "/frames/0", FaultCodes.Missing, "neither" },
        { "/frames/0", FaultCodes.Inconsistent, "both" },
        { "/frames/0/construct/nearMm", FaultCodes.Missing, "no near" },
        { "/frames/0/construct/nearMm", FaultCodes.Inconsistent, "near beyond far" },
        { "/frames/0/construct/farMm", FaultCodes.OutsideBone, "too far" },
        { "/frames/0/construct/pin/material", FaultCodes.Reference, "unknown material" },
        { "/frames/0/construct/pin/coreDiameterMm", FaultCodes.Inconsistent, "thick core" },
        { "/frames/0/construct/pin/threadLengthMm", FaultCodes.Missing, "no thread length" },
        { "/frames/0/construct/rod/innerDiameterMm", FaultCodes.Inconsistent, "no wall" },
        { "/frames/0/construct/rodSpacingMm", FaultCodes.Collision, "rods collide" },
        { "/frames/0/construct/secondAzimuthDeg", FaultCodes.Inconsistent, "planes alike" },
        { "/frames/0/construct/crossLinkLevelsMm", FaultCodes.Inconsistent, "links" },
        { "/frames/0/construct/secondPlaneShiftMm", FaultCodes.ThroughFracture, "shift" },
        { "/frames/0/parts/pins/0/levelMm", FaultCodes.OutsideBone, "pin off the bone" },
        { "/frames/0/parts/clamps/0/pin", FaultCodes.Reference, "unknown pin" },
        { "/frames/0/parts/clamps/0", FaultCodes.Missing, "clamp joins nothing" },
        { "/frames/0/parts/clamps/0/oneWay", FaultCodes.Inconsistent, "one way between rods" },
        { "/frames/0/parts/clamps/0/oneWay", FaultCodes.Inconsistent, "one way in the middle" },
        { "/frames/0/parts/rods/0/from", FaultCodes.Inconsistent, "two distances" },
        { "/frames/0/parts/rods/0/id", FaultCodes.DuplicateId, "same id" },
        { "/loading/grade", FaultCodes.Inconsistent, "load twice" },
        { "/loading/weeks", FaultCodes.Missing, "steps without weeks" },
        { "/materials/0/fatigueLimitMPa", FaultCodes.Inconsistent, "tireless" },
        { "/stages/1/id", FaultCodes.DuplicateId, "stages" },
        { "/stages/0/frame", FaultCodes.Reference, "stage of nothing" },
        { "/stages/0/loosen/0", FaultCodes.Reference, "unknown clamp" },
        { "/stages/0/slides/0/clamp", FaultCodes.Reference, "slide of nothing" },
        { "/stages/1/slides/0/oneWay", FaultCodes.Inconsistent, "stage one way" },
        { "/stages/1/move/0/rod", FaultCodes.Reference, "rod already gone" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Rules_oneThingWrong_nameIt(string pointer, string code, string what)
    {
        Fault fault = Assert.Single(CaseRules.Check(Broken(what)));

        Assert.Equal((pointer, code), (fault.Pointer, fault.Code));
        Assert.NotEmpty(fault.Message);
        Assert.NotEmpty(fault.Allowed);
        Assert.NotEmpty(fault.Try);
    }

    [Fact]
    public void Rules_goodCase_findNothing() => Assert.Empty(CaseRules.Check(_good));

    [Fact]
    public void Rules_numbersThatAreNaN_arePassedOver()
    {
        Case blank = _good with
        {
            Limb = _good.Limb with { LengthMm = double.NaN },
            Fractures = [_good.Fractures[0] with { LevelMm = double.NaN }],
            Frames = [new() { Id = "f", Construct = _good.Frames[0].Construct! with { FarMm = double.NaN, NearMm = double.NaN } }],
        };

        Assert.Empty(CaseRules.Check(blank));
    }

    [Fact]
    public void Rules_severalThingsWrong_nameThemAll()
    {
        Case bad = Broken("too far") with { Wounds = [new() { FromLevelMm = 200, ToLevelMm = 100, FromAzimuthDeg = 0, ToAzimuthDeg = 10 }] };

        Assert.Equal(2, CaseRules.Check(bad).Count());
    }

    private static Case Broken(string what)
    {
        SingleRod single = (SingleRod)_good.Frames[0].Construct!;
        DoubleRod twin = (DoubleRod)ConstructGallery.All[5].Construct;
        TwoPlane v = (TwoPlane)ConstructGallery.All[4].Construct;
        Parts parts = ConstructBuilder.Build(single, 203.5, 206.5);
        Materials.Material bare = new() { Id = "m", YoungsModulusMPa = 1000, YieldMPa = 10, PoissonRatio = 0.3 };
        return what switch
        {
            "tube" => _good with { Limb = _good.Limb with { BoneModel = new TubeBone { OuterDiameterMm = 20, InnerDiameterMm = 20, YoungsModulusMPa = 1000, PoissonRatio = 0.3 } } },
            "fracture" => _good with { Fractures = [_good.Fractures[0] with { LevelMm = 351.5 }], Frames = [new() { Id = "f", Parts = parts with { Pins = [], Clamps = [] } }] },
            "wound" => _good with { Wounds = [new() { FromLevelMm = 200, ToLevelMm = 100, FromAzimuthDeg = 0, ToAzimuthDeg = 10 }] },
            "incision" => _good with { PlannedIncisions = [new() { FromLevelMm = 200, ToLevelMm = 400, FromAzimuthDeg = 0, ToAzimuthDeg = 10, For = IncisionPurpose.Nail }] },
            "materials" => _good with { Materials = [bare, bare] },
            "material" => _good with { Materials = [bare with { PoissonRatio = null }] },
            "frames" => _good with { Frames = [_good.Frames[0], _good.Frames[0]] },
            "neither" => _good with { Frames = [new() { Id = "f" }] },
            "both" => _good with { Frames = [new() { Id = "f", Construct = single, Parts = parts }] },
            "no near" => With(single with { NearMm = null }),
            "near beyond far" => With(single with { NearMm = 99 }),
            "too far" => With(single with { FarMm = 160 }),
            "unknown material" => With(single with { Pin = single.Pin with { Material = "unobtainium" } }),
            "thick core" => With(single with { Pin = single.Pin with { CoreDiameterMm = 6, ThreadLengthMm = 40 } }),
            "no thread length" => With(single with { Pin = single.Pin with { CoreDiameterMm = 4 } }),
            "no wall" => With(single with { Rod = single.Rod with { InnerDiameterMm = 11 } }),
            "rods collide" => With(twin with { RodSpacingMm = 8 }),
            "planes alike" => With(v with { SecondAzimuthDeg = 30 }),
            "links" => With(v with { CrossLinkLevelsMm = [100] }),
            "shift" => With(v with { SecondPlaneShiftMm = -40 }),
            "pin off the bone" => With(parts with { Pins = parts.Pins.SetItem(0, parts.Pins[0] with { LevelMm = 400 }) }),
            "unknown pin" => With(parts with { Clamps = parts.Clamps.SetItem(0, parts.Clamps[0] with { Pin = "p9" }) }),
            "clamp joins nothing" => With(parts with { Clamps = parts.Clamps.SetItem(0, parts.Clamps[0] with { Pin = null }) }),
            "two distances" => With(parts with { Rods = [parts.Rods[0] with { From = parts.Rods[0].From with { RadiusMm = 60 } }] }),
            "one way between rods" => With(parts with { Clamps = parts.Clamps.SetItem(0, parts.Clamps[0] with { Pin = null, OtherRod = "r2", OneWay = true }), Rods = [.. parts.Rods, parts.Rods[0] with { Id = "r2" }] }),
            "one way in the middle" => With(parts with { Clamps = parts.Clamps.SetItem(0, parts.Clamps[0] with { OneWay = true }) }) with { Fractures = [_good.Fractures[0] with { LevelMm = parts.Pins[0].LevelMm - 20 }, _good.Fractures[0]] },
            "slide of nothing" => With(parts) with { Stages = [new() { Id = "a", Frame = "f", Slides = [new() { Clamp = "c99", OneWay = true }] }] },
            "stage one way" => With(parts with { Clamps = [.. parts.Clamps, new() { Id = "x", Rod = "r1", OtherRod = "r2" }], Rods = [.. parts.Rods, parts.Rods[0] with { Id = "r2" }] }) with
            {
                Stages = [new() { Id = "a", Frame = "f" }, new() { Id = "b", Frame = "f", Loosen = ["x"], Slides = [new() { Clamp = "x", OneWay = true }] }],
            },
            "same id" => With(parts with { Rods = [parts.Rods[0] with { Id = "p1" }], Clamps = [.. parts.Clamps.Select(c => c with { Rod = "p1" })] }),
            "load twice" => _good with { Loading = new() { Grade = WeightBearing.Partial, AllowedKg = 4 } },
            "steps without weeks" => _good with { Loading = new() { AllowedKg = 4, StepsPerDay = 1900 } },
            "tireless" => _good with { Materials = [bare with { TensileStrengthMPa = 310, FatigueLimitMPa = 290 }] },
            "stages" => Staged(new Stage { Id = "s", Frame = "f" }, new Stage { Id = "s", Frame = "f" }),
            "stage of nothing" => Staged(new Stage { Id = "s", Frame = "g" }),
            "unknown clamp" => Staged(new Stage { Id = "s", Frame = "f", Loosen = ["c77"] }),
            "rod already gone" => Staged(new Stage { Id = "s", Frame = "f", Remove = ["r1"] }, new Stage { Id = "t", Frame = "f", Move = [new() { Rod = "r1", StandoffMm = 61 }] }),
            "weeks" => _good with { Healing = new() { Weeks = [Week(1), Week(4), Week(4)] } },
            _ => throw new ArgumentOutOfRangeException(nameof(what)),
        };
    }

    private static Case With(Construct c) => _good with { Frames = [new() { Id = "f", Construct = c }] };

    private static Case Staged(params Stage[] stages) => _good with { Frames = [_good.Frames[0] with { Id = "f" }], Stages = [.. stages] };

    private static Case With(Parts p) => _good with { Frames = [new() { Id = "f", Parts = p }] };

    private static HealingWeek Week(double week) => new() { Week = week, CallusModulusMPa = 3 };
}
