using System.Collections.Immutable;

namespace Halfpin.Domain.Materials;

/// <summary>A built-in material and where its figures come from.</summary>
/// <param name="Material">The figures.</param>
/// <param name="Meaning">What it stands for.</param>
/// <param name="Source">Source of the figures.</param>
/// <param name="Tag">READ, MEMORY or DERIVED, the weakest of its figures.</param>
/// <param name="LimitTag">The same for its limit stress alone.</param>
public sealed record BuiltInMaterial(Material Material, string Meaning, string Source, string Tag, string LimitTag);

/// <summary>The materials every case may name.</summary>
public static class BuiltInMaterials
{
    /// <summary>All of them.</summary>
    public static ImmutableArray<BuiltInMaterial> All { get; } =
    [
        new(
            new() { Id = "steel", YoungsModulusMPa = 193_000, PoissonRatio = 0.3, YieldMPa = 690, FatigueLimitMPa = 300, TensileStrengthMPa = 860 },
            "Implant stainless steel, cold-worked",
            "E 187–193 GPa and yield ≥ 690 and strength ≥ 860 MPa: textbook tables after ASTM F138 (READ); fatigue limit 300 of 180–450 MPa (MEMORY mid)",
            "MEMORY", "READ"),
        new(
            new() { Id = "steel-annealed", YoungsModulusMPa = 193_000, PoissonRatio = 0.3, YieldMPa = 190, FatigueLimitMPa = 180, TensileStrengthMPa = 485 },
            "Implant stainless steel, annealed",
            "Yield 190 MPa: ISO 5832-1 (MEMORY hi); strength ≥ 485 MPa: textbook tables after ASTM F138 (READ); fatigue limit 180–250 MPa (MEMORY mid)",
            "MEMORY", "MEMORY"),
        new(
            new() { Id = "titanium", YoungsModulusMPa = 114_000, ShearModulusMPa = 43_000, YieldMPa = 795, FatigueLimitMPa = 280, TensileStrengthMPa = 860 },
            "Ti-6Al-4V ELI, wrought",
            "E 113.8 GPa, G 41–45 GPa, yield ≥ 795 and strength ≥ 860 MPa: alloy data sheets after ASTM F136 (READ); notched fatigue limit 140 MPa (READ), 280 entered since a thread factor of 2 is taken off (DERIVED)",
            "DERIVED", "READ"),
        new(
            new() { Id = "carbon", YoungsModulusMPa = 110_000, ShearModulusMPa = 5000, YieldMPa = 526 },
            "Unidirectional carbon-fibre rod",
            "Flexural E 60–130 GPa (MEMORY lo); G 4.0–4.3 GPa for unidirectional laminates (READ), 5 taken; limit: mean compression strength 572 less one deviation of 46 MPa (READ), so 526",
            "MEMORY", "DERIVED"),
        new(
            new() { Id = "aluminium", YoungsModulusMPa = 68_900, ShearModulusMPa = 26_000, YieldMPa = 276, FatigueLimitMPa = 97 },
            "Aluminium alloy 6061-T6",
            "E 68.9 GPa, G 26 GPa, yield 276 MPa, 97 MPa at 5·10⁸ (MEMORY hi)",
            "MEMORY", "MEMORY"),
    ];
}
