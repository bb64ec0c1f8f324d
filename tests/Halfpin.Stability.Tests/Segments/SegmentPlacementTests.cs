using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Placement;
using Xunit;

namespace Halfpin.Stability.Tests.Segments;

public class SegmentPlacementTests
{
    [Fact]
    public void Pin_throughTheSecondFracture_isRefusedByItsNumber()
    {
        Fault fault = Assert.Single(Check(SegmentBench.Both, 231.7));

        Assert.Equal("/frames/0/parts/pins/3/levelMm", fault.Pointer);
        Assert.StartsWith("Pin p4 runs through fracture 2.", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Pin_underASteepSecondPlane_isSeenAtItsOwnSide() =>
        Assert.Equal(FaultCodes.ThroughFracture, Assert.Single(Check([SegmentBench.Upper, SegmentBench.Lower with { TiltDeg = 62, TiltAzimuthDeg = 19 }], 211.9)).Code);

    [Fact]
    public void Planes_thatMeetInTheBone_areRefused()
    {
        ImmutableArray<Fracture> wedge = [SegmentBench.Upper with { TiltDeg = 55, TiltAzimuthDeg = 0 }, SegmentBench.Upper with { LevelMm = 165, TiltDeg = 55, TiltAzimuthDeg = 180 }];

        Assert.Contains(Check(wedge, 240), f => f.Pointer == "/fractures/1/tiltDeg");
    }

    [Fact]
    public void Planes_thatRunAlongside_areFine()
    {
        ImmutableArray<Fracture> parallel = [SegmentBench.Upper with { TiltDeg = 55, TiltAzimuthDeg = 90 }, SegmentBench.Lower with { TiltDeg = 55, TiltAzimuthDeg = 90 }];

        Assert.DoesNotContain(Check(parallel, 211.9), f => f.Pointer.StartsWith("/fractures", StringComparison.Ordinal));
    }

    // The six-pin frame with its fourth pin at a level.
    private static Fault[] Check(ImmutableArray<Fracture> fractures, double levelMm)
    {
        var parts = SegmentBench.Six with { Pins = [.. SegmentBench.Six.Pins.Select(p => p.Id == "p4" ? p with { LevelMm = levelMm } : p)] };
        Case value = Bench.CaseOf(new Domain.Frames.Frame { Id = "f", Parts = parts }) with { Limb = Bench.TibiaLimb, Fractures = fractures };
        return [.. PlacementRules.Check(value)];
    }
}
