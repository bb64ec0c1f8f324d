using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Xunit;

namespace Halfpin.Domain.Tests;

/// <summary>Constructs about the outer fractures with pins between.</summary>
public class SegmentalBuilderTests
{
    private static readonly PinSpec _pin = new() { DiameterMm = 5, Material = "steel", CoreDiameterMm = 4.1, ThreadLengthMm = 37 };
    private static readonly RodSpec _rod = new() { DiameterMm = 11, Material = "carbon" };
    private static readonly SingleRod _single = new() { Placement = PinPlacement.NearFar, NearMm = 31, FarMm = 77, AzimuthDeg = 43, StandoffMm = 53, Pin = _pin, Rod = _rod };
    private static readonly DoubleRod _double = new() { Placement = PinPlacement.NearFar, NearMm = 31, FarMm = 77, AzimuthDeg = 43, StandoffMm = 53, Pin = _pin, Rod = _rod, RodSpacingMm = 29 };
    private static readonly TwoPlane _v = new() { Placement = PinPlacement.NearFar, NearMm = 31, FarMm = 77, AzimuthDeg = 27, SecondAzimuthDeg = 74, StandoffMm = 53, Pin = _pin, Rod = _rod };
    private static readonly Fracture _upper = new() { LevelMm = 141, GapMm = 3, Pattern = FracturePattern.Transverse };
    private static readonly ImmutableArray<Fracture> _two = [_upper, _upper with { LevelMm = 213, GapMm = 5 }];
    private static readonly MiddlePins _middle = new(2, 19, 22);

    // Edges of the middle fragment at 142.5 and 210.5 mm.
    [Fact]
    public void SingleRod_withTwoPinsBetween_standsAtTheDistancesFromTheEdges() =>
        Assert.Equal([62.5, 108.5, 161.5, 188.5, 246.5, 292.5], SegmentalBuilder.Build(_single, _middle, _two).Pins.Select(p => p.LevelMm));

    [Fact]
    public void ThreePinsBetween_areEvenlySpaced() =>
        Assert.Equal([161.5, 175, 188.5], SegmentalBuilder.Build(_single, _middle with { PinsPerFragment = 3 }, _two).Pins[2..5].Select(p => p.LevelMm));

    [Fact]
    public void OnePinBetween_standsMidway() =>
        Assert.Equal(175, SegmentalBuilder.Build(_single, _middle with { PinsPerFragment = 1 }, _two).Pins[2].LevelMm);

    [Fact]
    public void PinsBetween_areLikeTheOthersOfTheFirstPlane()
    {
        Parts parts = SegmentalBuilder.Build(_v, _middle, _two);

        Assert.Equal(parts.Pins[0] with { Id = "p3", LevelMm = 161.5 }, parts.Pins[2]);
        Assert.Equal([27, 27, 27, 27, 27, 27, 74, 74, 74, 74], parts.Pins.Select(p => p.AzimuthDeg));
    }

    [Fact]
    public void Pins_areNumberedInOrder() =>
        Assert.Equal(Enumerable.Range(1, 10).Select(i => $"p{i}"), SegmentalBuilder.Build(_v, _middle, _two).Pins.Select(p => p.Id));

    [Fact]
    public void SingleRod_clampsEveryPinOnce() =>
        Assert.Equal(["p1 r1", "p2 r1", "p3 r1", "p4 r1", "p5 r1", "p6 r1"], SegmentalBuilder.Build(_single, _middle, _two).Clamps.Select(c => $"{c.Pin} {c.Rod}"));

    [Fact]
    public void DoubleRod_clampsEveryPinOnBothRods() =>
        Assert.Equal(
            ["r1 p1", "r1 p2", "r1 p3", "r1 p4", "r1 p5", "r1 p6", "r2 p1", "r2 p2", "r2 p3", "r2 p4", "r2 p5", "r2 p6"],
            SegmentalBuilder.Build(_double, _middle, _two).Clamps.Select(c => $"{c.Rod} {c.Pin}"));

    [Fact]
    public void TwoPlane_clampsThePinsBetweenOnTheFirstRodAlone()
    {
        Parts parts = SegmentalBuilder.Build(_v, _middle, _two);

        Assert.Equal("r1 r1 r1 r1 r1 r1 r2 r2 r2 r2", string.Join(' ', parts.Clamps.Where(c => c.Pin is not null).Select(c => c.Rod)));
        Assert.Equal(ConstructBuilder.Build(_v, _two).Clamps.Where(c => c.Pin is null), parts.Clamps.Where(c => c.Pin is null));
    }

    [Fact]
    public void Clamps_haveIdsOfTheirOwn()
    {
        string[] ids = [.. SegmentalBuilder.Build(_v, _middle, _two).Clamps.Select(c => c.Id)];

        Assert.Equal(ids.Distinct(), ids);
    }

    [Fact]
    public void Rods_areThoseOfTheConstruct() => Assert.Equal(ConstructBuilder.Build(_double, _two).Rods, SegmentalBuilder.Build(_double, _middle, _two).Rods);

    [Fact]
    public void ThreeFractures_haveThePinsInBothFragmentsBetween()
    {
        ImmutableArray<Fracture> three = [.. _two, _upper with { LevelMm = 271, GapMm = 2 }];

        Assert.Equal([161.5, 188.5, 234.5, 248], SegmentalBuilder.Build(_single, _middle, three).Pins[2..6].Select(p => p.LevelMm));
    }

    [Theory]
    [InlineData(33, 34.9, true)]
    [InlineData(33, 35, false)]
    public void Pins_thatWouldChangePlaces_doNotFit(double proximalMm, double distalMm, bool fits) =>
        Assert.Equal(fits, SegmentalBuilder.Fits(new(2, proximalMm, distalMm), _two));

    [Fact]
    public void DynamisedDoubleRod_isRefused() => Assert.Throws<ArgumentException>(() => SegmentalBuilder.Build(_double with { Dynamised = true }, _middle, _two));
}
