using System.Collections.Immutable;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Frames;

/// <summary>A frame by its construct: pins alike in both fragments, rods along the bone.</summary>
public abstract record Construct
{
    [Field("Where the pins of a fragment stand.")]
    public required PinPlacement Placement { get; init; }

    [Field("Pins in each fragment and plane.", Min = 2, Max = 5)]
    public int PinsPerFragment { get; init; } = 2;

    [Field("Nearest pin to the fracture edge, along the axis. Far-far does not use it.", Min = 3, Max = 300)]
    public double? NearMm { get; init; }

    [Field("Farthest pin to the fracture edge, along the axis.", Min = 8, Max = 400)]
    public required double FarMm { get; init; }

    [Field("Direction in which the pins leave the bone.", Min = -180, Max = 180)]
    public required double AzimuthDeg { get; init; }

    [Field("Bone surface to rod axis along the outermost pins.", Min = 5, Max = 250)]
    public required double StandoffMm { get; init; }

    [Field("The pins.")]
    public required PinSpec Pin { get; init; }

    [Field("The rods.")]
    public required RodSpec Rod { get; init; }
}

/// <summary>Where the pins of a fragment stand.</summary>
public enum PinPlacement
{
    /// <summary>One pin near the fracture, one far from it, any others evenly between.</summary>
    NearFar,

    /// <summary>All pins away from the fracture: the inner one midway between fracture and outer pin. Common practice, no source.</summary>
    FarFar,

    /// <summary>Evenly from near to far.</summary>
    Even,
}

/// <summary>One rod on all pins.</summary>
public sealed record SingleRod : Construct;

/// <summary>Two rods, one outside the other, on the same pins.</summary>
public sealed record DoubleRod : Construct
{
    [Field("Distance between the axes of the two rods along the pins; the given standoff is the inner rod's.", Min = 5, Max = 150)]
    public required double RodSpacingMm { get; init; }

    [Field("Dynamised: the outer rod loose on its distal clamps, the inner rod loose on its proximal clamps.")]
    public bool Dynamised { get; init; }
}

/// <summary>Two single-rod planes at an angle, tied by cross-links: a V.</summary>
public sealed record TwoPlane : Construct
{
    /// <summary>Pins of the second plane stand this much farther from the fracture unless the case says otherwise. Common practice, no source.</summary>
    public const double UsualShiftMm = 20;

    [Field("Direction of the second plane.", Min = -180, Max = 180)]
    public required double SecondAzimuthDeg { get; init; }

    [Field("How much farther from the fracture the pins of the second plane stand, so that pins do not meet in the bone.", Min = -100, Max = 100)]
    public double SecondPlaneShiftMm { get; init; } = UsualShiftMm;

    [Field("Number of cross-links between the rods.", Min = 0, Max = 4)]
    public int CrossLinks { get; init; } = 2;

    [Field("Level of each cross-link; where the rods have most room when left out.", Max = 4)]
    public ImmutableArray<double> CrossLinkLevelsMm { get; init; } = [];
}

/// <summary>A kind of pin.</summary>
public sealed record PinSpec
{
    [Field("Shank diameter.", Min = 1.5, Max = 8)]
    public required double DiameterMm { get; init; }

    [Field("Material of the pin.", IsId = true)]
    public required string Material { get; init; }

    [Field("Core diameter of the thread, where it bends with its core.", Min = 1, Max = 8)]
    public double? CoreDiameterMm { get; init; }

    [Field("Length of the thread from the tip.", Min = 5, Max = 200)]
    public double? ThreadLengthMm { get; init; }
}

/// <summary>A kind of rod.</summary>
public sealed record RodSpec
{
    [Field("Outer diameter.", Min = 3, Max = 20)]
    public required double DiameterMm { get; init; }

    [Field("Inner diameter of a hollow rod.", Min = 0, Max = 19)]
    public double InnerDiameterMm { get; init; }

    [Field("Material of the rod.", IsId = true)]
    public required string Material { get; init; }
}
