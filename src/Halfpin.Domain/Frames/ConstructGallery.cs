using System.Collections.Immutable;

namespace Halfpin.Domain.Frames;

/// <summary>A construct with what it is for.</summary>
/// <param name="Title">Its name in the trade.</param>
/// <param name="Trait">What distinguishes it, in a sentence.</param>
/// <param name="Construct">A sensible instance.</param>
public sealed record GalleryEntry(string Title, string Trait, Construct Construct);

/// <summary>The constructs that a case can name in one line, each with invented but sensible numbers.</summary>
public static class ConstructGallery
{
    private static readonly PinSpec _pin = new() { DiameterMm = 5, Material = "steel" };
    private static readonly RodSpec _rod = new() { DiameterMm = 11, Material = "carbon" };

    /// <summary>All of them, from plain to elaborate.</summary>
    public static ImmutableArray<GalleryEntry> All { get; } =
    [
        new("Single rod, far-far", "Two pins a side, both away from the fracture: leaves it free, holds it least.",
            new SingleRod { Placement = PinPlacement.FarFar, FarMm = 95, AzimuthDeg = 45, StandoffMm = 52, Pin = _pin, Rod = _rod }),
        new("Single rod, near-far", "One pin near the fracture and one far from it on each side.",
            new SingleRod { Placement = PinPlacement.NearFar, NearMm = 35, FarMm = 95, AzimuthDeg = 45, StandoffMm = 52, Pin = _pin, Rod = _rod }),
        new("Single rod, three pins a side", "A third pin between near and far shares load between pins.",
            new SingleRod { Placement = PinPlacement.Even, PinsPerFragment = 3, NearMm = 35, FarMm = 95, AzimuthDeg = 45, StandoffMm = 52, Pin = _pin, Rod = _rod }),
        new("Single rod, near-far, brought close", "The shorter the free pins, the stiffer the frame, as far as swelling allows.",
            new SingleRod { Placement = PinPlacement.NearFar, NearMm = 35, FarMm = 95, AzimuthDeg = 45, StandoffMm = 40, Pin = _pin, Rod = _rod }),
        new("Two-plane V, two cross-links", "A rod in each of two planes, tied together: no weak direction.",
            new TwoPlane { Placement = PinPlacement.NearFar, NearMm = 35, FarMm = 95, AzimuthDeg = 20, SecondAzimuthDeg = 80, StandoffMm = 52, Pin = _pin, Rod = _rod }),
        new("Double rod, far-far", "A second rod outside the first on the same pins: stiff along the bone, little gained across the pins.",
            new DoubleRod { Placement = PinPlacement.FarFar, FarMm = 95, AzimuthDeg = 45, StandoffMm = 40, RodSpacingMm = 30, Pin = _pin, Rod = _rod }),
        new("Double rod, dynamised", "Each rod grips one fragment only: free along the bone, still held in bending across the pins.",
            new DoubleRod { Placement = PinPlacement.FarFar, FarMm = 95, AzimuthDeg = 45, StandoffMm = 40, RodSpacingMm = 30, Dynamised = true, Pin = _pin, Rod = _rod }),
    ];
}
