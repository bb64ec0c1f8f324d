using System.Collections.Immutable;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>The choices among which halfpin suggest looks; all their combinations are tried. Lists that are left out are the usual ones.</summary>
public sealed record SearchSpace
{
    [Field("Distances of the nearest pins from the fracture, mm.", Min = 1, Max = 40)]
    public ImmutableArray<double> NearMm { get; init; } = [25, 30, 35, 40, 45, 50, 60];

    [Field("Distances of the farthest pins from the fracture, mm.", Min = 1, Max = 40)]
    public ImmutableArray<double> FarMm { get; init; } = [60, 70, 80, 90, 100, 110, 120, 130, 140];

    [Field("Azimuths of the first plane.", Min = 1, Max = 72)]
    public ImmutableArray<double> AzimuthDeg { get; init; } = [20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80];

    [Field("Standoffs of the inner rod, mm.", Min = 1, Max = 60)]
    public ImmutableArray<double> StandoffMm { get; init; } = [40, 43, 46, 49, 52, 55, 58, 61, 64, 67, 70];

    [Field("Pins a fragment and plane.", Min = 1, Max = 4)]
    public ImmutableArray<double> PinsPerFragment { get; init; } = [2, 3];

    [Field("Pins in each fragment between two fractures, where there are several.", Min = 1, Max = 4)]
    public ImmutableArray<double> MiddlePins { get; init; } = [2];

    [Field("Distances of the first and of the last pin of such a fragment from its fractures; each with each, alike in all such fragments. One pin alone stands midway between two such places.", Min = 1, Max = 10)]
    public ImmutableArray<double> MiddleEdgeMm { get; init; } = [20, 25, 35];

    [Field("Distances between the two rods of a double rod, mm.", Min = 1, Max = 20)]
    public ImmutableArray<double> RodSpacingMm { get; init; } = [25, 35];

    [Field("Angles from the first to the second plane of a V.", Min = 1, Max = 20)]
    public ImmutableArray<double> PlaneAngleDeg { get; init; } = [45, 55];

    [Field("Cross-links of a V.", Min = 1, Max = 5)]
    public ImmutableArray<double> CrossLinks { get; init; } = [2];

    [Field("Diameters of pins, where no stock is given, mm.", Min = 1, Max = 10)]
    public ImmutableArray<double> PinDiameterMm { get; init; } = [4, 5, 6];

    [Field("Rods to choose from, where no stock is given.", Min = 1, Max = 20)]
    public ImmutableArray<Frames.RodSpec> Rods { get; init; } =
    [
        new() { DiameterMm = 11, Material = "carbon" }, new() { DiameterMm = 8, Material = "carbon" },
        new() { DiameterMm = 11, Material = "steel" }, new() { DiameterMm = 8, Material = "steel" },
    ];
}
