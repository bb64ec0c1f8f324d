using System.Collections.Immutable;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>What a suggested frame must meet, where it differs from what its purpose asks for. A limit that is left out is the purpose's.</summary>
public sealed record Requirements
{
    [Field("Most axial motion at the chosen load.", Min = 0, Max = 50)]
    public double? MostAxialMm { get; init; }

    [Field("Least axial motion at the chosen load, for healing.", Min = 0, Max = 50)]
    public double? LeastAxialMm { get; init; }

    [Field("Most axial motion in the overload case.", Min = 0, Max = 50)]
    public double? MostOverloadAxialMm { get; init; }

    [Field("Most shear in the fracture at the chosen load.", Min = 0, Max = 50)]
    public double? MostShearMm { get; init; }

    [Field("Most tilt of the fracture in the overload case.", Min = 0, Max = 5)]
    public double? MostTiltDeg { get; init; }

    [Field("Most twist of the fracture in the overload case.", Min = 0, Max = 5)]
    public double? MostTwistDeg { get; init; }

    [Field("Most use of any part's limit at the chosen load.", Min = 1, Max = 100)]
    public double? MostUsedPercent { get; init; }

    [Field("Most use of any part's limit in the overload case.", Min = 1, Max = 100)]
    public double? MostOverloadUsedPercent { get; init; }

    [Field("Most use of a pin's life by repeated chosen loads.", Min = 1, Max = 100)]
    public double? MostFatiguePercent { get; init; }

    [Field("Least axial stiffness.", Min = 0, Max = 10_000)]
    public double? LeastAxialNPerMm { get; init; }

    [Field("Least bending stiffness in the weakest direction.", Min = 0, Max = 1000)]
    public double? LeastWeakBendingNmPerDeg { get; init; }

    [Field("Rules of placement whose caution is accepted, by their ids.", Max = 30)]
    public ImmutableArray<string> AcceptCautions { get; init; } = [];
}
