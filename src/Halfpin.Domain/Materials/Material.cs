using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Materials;

/// <summary>A linear elastic material of pins and rods.</summary>
public sealed record Material
{
    [Field("Name by which pins and rods refer to it.", IsId = true)]
    public required string Id { get; init; }

    [Field("Young's modulus along the part.", Min = 100, Max = 700_000)]
    public required double YoungsModulusMPa { get; init; }

    [Field("Shear modulus. Fibre composites need their own; give this or a Poisson's ratio.", Min = 10, Max = 300_000)]
    public double? ShearModulusMPa { get; init; }

    [Field("Poisson's ratio of an isotropic material, when no shear modulus is given.", Min = 0, Max = 0.499)]
    public double? PoissonRatio { get; init; }

    [Field("Yield stress; for composites, the stress taken as the limit.", Min = 1, Max = 5000)]
    public required double YieldMPa { get; init; }

    [Field("Nominal stress endured in each of ten million steps, before the thread factor.", Min = 1, Max = 5000)]
    public double? FatigueLimitMPa { get; init; }

    [Field("Tensile strength; with the fatigue limit it gives the stress endured in fewer steps.", Min = 1, Max = 5000)]
    public double? TensileStrengthMPa { get; init; }

    /// <summary>The shear modulus, from Poisson's ratio where it is not given. One of the two is present in a valid material.</summary>
    public double EffectiveShearModulusMPa() => ShearModulusMPa ?? YoungsModulusMPa / (2 * (1 + (PoissonRatio ?? double.NaN)));
}
