using CsCheck;
using Halfpin.Domain.Frames;
using Xunit;

namespace Halfpin.Domain.Tests;

public class ConstructBuilderTests
{
    private static readonly PinSpec _pin = new() { DiameterMm = 5, Material = "steel" };
    private static readonly RodSpec _rod = new() { DiameterMm = 11, Material = "carbon" };
    private static readonly SingleRod _nearFar = new() { Placement = PinPlacement.NearFar, NearMm = 35, FarMm = 95, AzimuthDeg = 50, StandoffMm = 52, Pin = _pin, Rod = _rod };

    [Fact]
    public void NearFar_twoPins_standAtNearAndFarFromTheEdges()
    {
        double[] levels = [.. ConstructBuilder.Build(_nearFar, 203.5, 206.5).Pins.Select(p => p.LevelMm)];

        Assert.Equal([108.5, 168.5, 241.5, 301.5], levels);
    }

    [Fact]
    public void FarFar_innerPin_standsMidwayToTheOuterOne() =>
        Assert.Equal([47.5, 95], ConstructBuilder.PinDistancesMm(_nearFar with { Placement = PinPlacement.FarFar }));

    [Fact]
    public void Even_threePins_areEvenlySpaced() =>
        Assert.Equal([35, 65, 95], ConstructBuilder.PinDistancesMm(_nearFar with { Placement = PinPlacement.Even, PinsPerFragment = 3 }));

    [Fact]
    public void DoubleRod_outerRod_standsFartherByTheSpacing()
    {
        DoubleRod twin = new() { Placement = PinPlacement.FarFar, FarMm = 95, AzimuthDeg = 50, StandoffMm = 40, RodSpacingMm = 30, Pin = _pin, Rod = _rod };
        Parts parts = ConstructBuilder.Build(twin, 203.5, 206.5);

        Assert.Equal(40, parts.Rods[0].From.StandoffMm);
        Assert.Equal(70, parts.Rods[1].From.StandoffMm);
    }

    [Fact]
    public void Dynamised_looseClamps_areTheOuterRodsDistalAndTheInnerRodsProximalOnes()
    {
        DoubleRod twin = new() { Placement = PinPlacement.FarFar, FarMm = 95, AzimuthDeg = 50, StandoffMm = 40, RodSpacingMm = 30, Dynamised = true, Pin = _pin, Rod = _rod };
        Clamp[] loose = [.. ConstructBuilder.Build(twin, 203.5, 206.5).Clamps.Where(c => c.State == ClampState.Loose)];

        Assert.Equal([("r1", "p1"), ("r1", "p2"), ("r2", "p3"), ("r2", "p4")], loose.Select(c => (c.Rod, c.Pin!)));
    }

    [Fact]
    public void TwoPlane_links_keepClearOfPinsAndFracture()
    {
        TwoPlane v = new() { Placement = PinPlacement.NearFar, NearMm = 35, FarMm = 95, AzimuthDeg = 20, SecondAzimuthDeg = 80, StandoffMm = 52, Pin = _pin, Rod = _rod };
        Parts parts = ConstructBuilder.Build(v, 203.5, 206.5);
        double[] links = [.. parts.Rods.Where(r => r.Id.StartsWith('l')).Select(r => r.From.LevelMm)];

        Assert.Equal(2, links.Length);
        Assert.All(links, l => Assert.All(parts.Pins, p => Assert.True(Math.Abs(l - p.LevelMm) >= 15)));
        Assert.All(links, l => Assert.False(l is > 168.5 and < 241.5));
    }

    [Fact]
    public void TwoPlane_givenLinkLevels_areKept()
    {
        TwoPlane v = new() { Placement = PinPlacement.NearFar, NearMm = 35, FarMm = 95, AzimuthDeg = 20, SecondAzimuthDeg = 80, StandoffMm = 52, CrossLinks = 1, CrossLinkLevelsMm = [133.3], Pin = _pin, Rod = _rod };

        Assert.Equal(133.3, ConstructBuilder.Build(v, 203.5, 206.5).Rods.Single(r => r.Id == "l1").To.LevelMm);
    }

    [Fact]
    public void AnyConstruct_idsAreUnique() => Gen.Int[2, 5].Sample(n =>
    {
        foreach (GalleryEntry entry in ConstructGallery.All)
        {
            Parts parts = ConstructBuilder.Build(entry.Construct with { PinsPerFragment = n }, 203.5, 206.5);
            string[] ids = [.. parts.Pins.Select(p => p.Id), .. parts.Rods.Select(r => r.Id), .. parts.Clamps.Select(c => c.Id)];
            Assert.Equal(ids.Length, ids.Distinct().Count());
        }
    });

    [Fact]
    public void AnyConstruct_isSymmetricAboutTheFracture() => Gen.Select(Gen.Double[5, 40], Gen.Double[50, 120], Gen.Int[2, 5]).Sample((near, far, n) =>
    {
        Parts parts = ConstructBuilder.Build(_nearFar with { NearMm = near, FarMm = far, PinsPerFragment = n }, 198, 202);
        double[] above = [.. parts.Pins.Take(n).Select(p => 198 - p.LevelMm).Order()], below = [.. parts.Pins.Skip(n).Select(p => p.LevelMm - 202).Order()];
        return above.Zip(below).All(p => Math.Abs(p.First - p.Second) < 1e-9);
    });
}
