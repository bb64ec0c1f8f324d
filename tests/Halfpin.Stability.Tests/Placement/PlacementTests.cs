using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Validity;
using Halfpin.Mechanics.Geometry;
using Halfpin.Placement;
using Xunit;

namespace Halfpin.Stability.Tests.Placement;

public class PlacementTests
{
    private static readonly BoneShape _tube = BoneShape.For(Bench.TubeLimb);
    private static readonly Pin _pin = new() { Id = "p", LevelMm = 93.1, AzimuthDeg = 37, DiameterMm = 5, Material = "steel" };

    [Fact]
    public void Pin_inATube_meetsBothCorticesAtItsRadii()
    {
        PlacedPin p = PlacedPin.Place(_tube, _pin);

        Assert.Equal(13.7, p.SurfaceMm, 12);
        Assert.Equal(6.8, p.NearCanalMm, 12);
        Assert.Equal(-6.8, p.FarCanalMm, 12);
        Assert.Equal(27.4, p.ChordMm, 12);
    }

    [Fact]
    public void Pin_tilted_crossesLongerChordAndLeavesMoreProximally()
    {
        PlacedPin p = PlacedPin.Place(_tube, _pin with { TiltDeg = 20 });

        Assert.Equal(13.7 / Math.Cos(20 * Math.PI / 180), p.SurfaceMm, 9);
        Assert.True(p.At(p.SurfaceMm).Z > -93.1);
    }

    [Fact]
    public void Pin_medially_pointsAlongY() => Assert.Equal(1, PlacedPin.Radial(90).Y, 12);

    [Fact]
    public void Rod_ofAConstruct_standsOffTheSurfaceByItsStandoffAtTheOutermostPins()
    {
        Parts parts = Bench.PartsOf(Bench.NearFar with { AzimuthDeg = 50 });
        BoneShape tibia = BoneShape.For(Bench.TibiaLimb);
        PlacedRod rod = PlacedRod.Place(tibia, parts.Rods[0]);
        foreach (Pin pin in new[] { parts.Pins[0], parts.Pins[^1] })
        {
            PlacedPin placed = PlacedPin.Place(tibia, pin);
            PlacedClamp clamp = PlacedClamp.Between(placed.CrossingMm, placed.Outward, rod.FromMm, rod.Along);
            Assert.Equal(47, clamp.AlongMemberMm - placed.SurfaceMm, 9);
        }
    }

    [Fact]
    public void NearestPoints_ofSkewLines_areSquareToBoth()
    {
        Vec3 a = new Vec3(1, 2, -0.5).Normalised(), b = new Vec3(-0.3, 0.4, 1).Normalised();
        PlacedClamp c = PlacedClamp.Between(new(1, 2, 3), a, new(11, -5, 7), b);
        Vec3 between = c.OnRodMm - c.OnMemberMm;

        Assert.Equal(0, between.Dot(a), 12);
        Assert.Equal(0, between.Dot(b), 12);
    }

    [Theory]
    [InlineData("through the fracture", FaultCodes.ThroughFracture)]
    [InlineData("meet in the bone", FaultCodes.Collision)]
    [InlineData("never comes within", FaultCodes.OutOfReach)]
    [InlineData("beyond the end of rod", FaultCodes.OutOfReach)]
    [InlineData("would sit in the bone", FaultCodes.OutOfReach)]
    [InlineData("ends before clamp", FaultCodes.OutOfReach)]
    [InlineData("mm apart on", FaultCodes.Collision)]
    [InlineData("run parallel", FaultCodes.OutOfReach)]
    public void Rules_nameWhatCannotBe(string message, string code)
    {
        Parts good = Bench.PartsOf(Bench.NearFar);
        Parts bad = message switch
        {
            "through the fracture" => good with { Pins = good.Pins.SetItem(1, good.Pins[1] with { LevelMm = 176 }) },
            "meet in the bone" => good with { Pins = good.Pins.SetItem(1, good.Pins[1] with { LevelMm = good.Pins[0].LevelMm + 4 }) },
            "never comes within" => good with { Pins = good.Pins.SetItem(1, good.Pins[1] with { AzimuthDeg = 120 }) },
            "beyond the end of rod" => good with { Rods = [good.Rods[0] with { OverhangMm = 0, To = good.Rods[0].To with { LevelMm = 250 } }] },
            "would sit in the bone" => good with { Rods = [good.Rods[0] with { From = good.Rods[0].From with { StandoffMm = null, RadiusMm = 9 }, To = good.Rods[0].To with { StandoffMm = null, RadiusMm = 9 } }] },
            "ends before clamp" => good with { Pins = good.Pins.SetItem(1, good.Pins[1] with { LengthMm = 60 }) },
            "mm apart on" => good with { Clamps = [.. good.Clamps, new() { Id = "twin", Pin = "p2", Rod = "r1" }] },
            _ => good with
            {
                Rods = [.. good.Rods, good.Rods[0] with { Id = "r2", From = good.Rods[0].From with { StandoffMm = 70 }, To = good.Rods[0].To with { StandoffMm = 70 } }],
                Clamps = [.. good.Clamps, new() { Id = "x", Rod = "r1", OtherRod = "r2" }],
            },
        };

        Fault[] faults = [.. PlacementRules.Check(Bench.CaseOf(new Frame { Id = "f", Parts = bad }))];

        Assert.Contains(faults, f => f.Code == code && f.Message.Contains(message, StringComparison.Ordinal) && f.Pointer.StartsWith("/frames/0/parts/", StringComparison.Ordinal));
    }

    [Fact]
    public void Rules_goodFrame_findNothing() => Assert.Empty(PlacementRules.Check(Bench.CaseOf(Bench.NearFar)));

    [Fact]
    public void Rules_obliqueFractureThatAPinWouldCross_isSeenAtThePinsOwnSide()
    {
        // 60° tilt lifts the fracture plane by r·tan 60° = 24 mm on one side: a pin 20 mm away on the axis runs through it.
        Domain.Cases.Fracture steep = Bench.Gap with { GapMm = 1, TiltDeg = 60, TiltAzimuthDeg = 180 };
        Parts parts = Bench.PartsOf(Bench.NearFar with { NearMm = 20 }, steep);

        Assert.Contains(PlacementRules.Check(Bench.CaseOf(new Frame { Id = "f", Parts = parts }, fracture: steep)), f => f.Code == FaultCodes.ThroughFracture);
    }

    [Fact]
    public void Rules_numbersThatAreNaN_arePassedOver()
    {
        Parts good = Bench.PartsOf(Bench.NearFar);
        Parts blank = good with { Pins = good.Pins.SetItem(1, good.Pins[1] with { LevelMm = double.NaN }) };

        Assert.Empty(PlacementRules.Check(Bench.CaseOf(new Frame { Id = "f", Parts = blank })));
    }

    // Where a tilted pin's axis meets an outline, its distance from the bone's axis is the outline's radius there.
    [Fact]
    public void Pin_tiltedAnywhereInATibia_liesOnItsOutlines()
    {
        BoneShape tibia = BoneShape.For(Bench.TibiaLimb);
        double worst = 0;
        int placed = 0;
        for (double level = 3.7; level < 352; level += 5.3)
        {
            foreach (double tilt in (double[])[-45, -31.3, -12.7, 0.01, 19.1, 38.3, 45])
            {
                for (double azimuth = -170; azimuth < 190; azimuth += 37)
                {
                    PlacedPin p = PlacedPin.Place(tibia, _pin with { LevelMm = level, AzimuthDeg = azimuth, TiltDeg = tilt });
                    if (double.IsFinite(p.ChordMm))
                    {
                        worst = new[] { worst, Off(p, p.SurfaceMm, tibia.OuterRadiusMm), Off(p, p.FarSurfaceMm, tibia.OuterRadiusMm), Off(p, p.NearCanalMm, tibia.CanalRadiusMm), Off(p, p.FarCanalMm, tibia.CanalRadiusMm) }.Max();
                        placed++;
                    }
                }
            }
        }

        Assert.True(placed > 4000, $"{placed}");
        Assert.InRange(worst, 0, 1e-6);
    }

    [Fact]
    public void Pin_tilted_isPlacedWithoutAllocation()
    {
        BoneShape tibia = BoneShape.For(Bench.TibiaLimb);
        Pin tilted = _pin with { TiltDeg = 31.3 };
        PlacedPin.Place(tibia, tilted);
        long before = GC.GetAllocatedBytesForCurrentThread();
        PlacedPin.Place(tibia, tilted);

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Theory]
    [InlineData(7.3, 45, "proximal")]
    [InlineData(7.3, -45, "proximal")]
    [InlineData(345.1, 45, "distal")]
    [InlineData(345.1, -45, "distal")]
    public void Rules_pinThatLeavesThroughTheBonesEnd_saySo(double levelMm, double tiltDeg, string end)
    {
        Parts good = Bench.PartsOf(Bench.NearFar);
        Parts bad = good with { Pins = [.. good.Pins, _pin with { Id = "extra", LevelMm = levelMm, AzimuthDeg = -100, TiltDeg = tiltDeg }] };
        Fault fault = Assert.Single(PlacementRules.Check(Bench.CaseOf(new Frame { Id = "f", Parts = bad }) with { Limb = Bench.TubeLimb with { LengthMm = 352, BoneModel = Bench.Tube } }));

        Assert.Equal(FaultCodes.OutsideBone, fault.Code);
        Assert.Equal("/frames/0/parts/pins/4", fault.Pointer);
        Assert.Contains($"leaves through the {end} end", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1e-6, true)]
    [InlineData(2.4, true)]
    [InlineData(2.5, false)]
    [InlineData(359.5, false)]
    [InlineData(359.6, true)]
    public void Rules_pinWhoseEdgeBreaksOutOfTheBonesEnd_saySo(double levelMm, bool bad)
    {
        Parts parts = Bench.PartsOf(Bench.NearFar);
        parts = parts with { Pins = [.. parts.Pins, _pin with { Id = "extra", LevelMm = levelMm }] };
        Fault[] faults = [.. PlacementRules.Check(Bench.CaseOf(new Frame { Id = "f", Parts = parts }))];

        Assert.Equal(bad ? 1 : 0, faults.Length);
        Assert.All(faults, f => Assert.Equal(FaultCodes.OutsideBone, f.Code));
    }

    // The rod stands 47 mm off the surface: a body of 94 mm would reach it exactly.
    [Theory]
    [InlineData(93.7, false)]
    [InlineData(94, true)]
    [InlineData(97.3, true)]
    public void Rules_clampBodyThatReachesTheBone_saySo(double bodyMm, bool bad)
    {
        Parts parts = Bench.PartsOf(Bench.NearFar);
        parts = parts with { Clamps = parts.Clamps.SetItem(2, parts.Clamps[2] with { BodyLengthMm = bodyMm }) };
        Fault[] faults = [.. PlacementRules.Check(Bench.CaseOf(new Frame { Id = "f", Parts = parts }))];

        Assert.Equal(bad ? 1 : 0, faults.Length);
        Assert.All(faults, f => Assert.Equal((FaultCodes.OutOfReach, "/frames/0/parts/clamps/2"), (f.Code, f.Pointer)));
    }

    // Rods 31 mm apart on the pins: bodies of 31 mm meet exactly. The bodies of one pin do not touch those of the next.
    [Theory]
    [InlineData(30.7, 30.7, 0)]
    [InlineData(31, 31, 4)]
    [InlineData(43, 19, 4)]
    [InlineData(0, 61.7, 0)]
    public void Rules_clampBodiesThatMeetOnAPin_saySo(double innerMm, double outerMm, int faultCount)
    {
        Parts parts = Bench.PartsOf(new DoubleRod { Placement = PinPlacement.NearFar, NearMm = 27, FarMm = 103, AzimuthDeg = 0, StandoffMm = 47, RodSpacingMm = 31, Pin = Bench.Pin, Rod = Bench.Rod });
        parts = parts with { Clamps = [.. parts.Clamps.Select(c => c with { BodyLengthMm = c.Rod == "r1" ? innerMm : outerMm })] };
        Fault[] faults = [.. PlacementRules.Check(Bench.CaseOf(new Frame { Id = "f", Parts = parts }))];

        Assert.Equal(faultCount, faults.Length);
        Assert.All(faults, f => Assert.Equal(FaultCodes.Collision, f.Code));
        Assert.All(faults, f => Assert.Contains("their bodies meet", f.Message, StringComparison.Ordinal));
    }

    private static double Off(PlacedPin p, double distanceMm, Func<double, double, double> radiusMm)
    {
        Vec3 at = p.At(distanceMm);
        return Math.Abs(Math.Sqrt((at.X * at.X) + (at.Y * at.Y)) - radiusMm(-at.Z, Math.Atan2(at.Y, at.X) * 180 / Math.PI));
    }
}
