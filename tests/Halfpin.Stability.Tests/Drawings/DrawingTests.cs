using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Drawings;
using Xunit;

namespace Halfpin.Stability.Tests.Drawings;

public class DrawingTests
{
    private static readonly TwoPlane _twoPlane = new()
    {
        Placement = PinPlacement.NearFar,
        NearMm = 27,
        FarMm = 103,
        AzimuthDeg = 13,
        SecondAzimuthDeg = 77,
        StandoffMm = 47,
        Pin = Bench.Pin,
        Rod = Bench.Rod,
    };

    [Fact]
    public void CrossLinks_ofTwoPlanes_areToldFromTheirRods()
    {
        FrameDrawing drawing = Drawn(Bench.PartsOf(_twoPlane));

        Assert.Equal(["l1", "l2"], drawing.Rods.Where(r => r.IsCrossLink).Select(r => r.Part.Id));
    }

    [Fact]
    public void RodBetweenRodsOfOneFragmentEach_isNoCrossLink()
    {
        Parts parts = Bench.PartsOf(_twoPlane with { CrossLinks = 1 });
        Rod main = parts.Rods[2] with { Id = "main" };
        Clamp[] clamps =
        [
            .. parts.Clamps.Where(c => c.Pin is "p1" or "p2" or "p7" or "p8"),
            new() { Id = "m1", Rod = "r1", OtherRod = "main" },
            new() { Id = "m2", Rod = "r2", OtherRod = "main" },
        ];

        FrameDrawing drawing = Drawn(parts with { Rods = [parts.Rods[0], parts.Rods[1], main], Clamps = [.. clamps] });

        Assert.DoesNotContain(drawing.Rods, r => r.IsCrossLink);
    }

    [Fact]
    public void Clamp_thatIsOff_isNotDrawn()
    {
        Parts parts = Bench.PartsOf(Bench.NearFar);

        FrameDrawing drawing = Drawn(parts with { Clamps = [parts.Clamps[0] with { State = ClampState.Off }, .. parts.Clamps.Skip(1)] });

        Assert.Equal(["c2", "c3", "c4"], drawing.Clamps.Select(c => c.Part.Id));
    }

    [Fact]
    public void Rod_isDrawnFromItsOverhangToItsOverhang()
    {
        DrawnRod rod = Assert.Single(Drawn(Bench.PartsOf(Bench.NearFar)).Rods);

        // Outermost pins 103 mm from the edges of a gap of 17 mm, and the overhang beyond them.
        Assert.Equal((2 * 103) + 17 + (2 * ConstructBuilder.RodOverhangMm), rod.From.ZMm - rod.To.ZMm, 9);
    }

    private static FrameDrawing Drawn(Parts parts)
    {
        Case value = Bench.CaseOf(Bench.NearFar);
        return new DrawingBuilder(value).Frame("f", parts);
    }
}
