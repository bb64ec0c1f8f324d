namespace Halfpin.Mechanics.Members;

/// <summary>Whether shear deformation is included.</summary>
public enum BeamTheory
{
    /// <summary>Bending only; plane sections stay normal to the axis.</summary>
    EulerBernoulli,

    /// <summary>Bending and shear, with the section's shear coefficient.</summary>
    Timoshenko,
}

/// <summary>Linear elastic constants. G is given by itself, since a unidirectional composite does not obey E/2(1+ν).</summary>
/// <param name="YoungsModulusMPa">E along the member.</param>
/// <param name="ShearModulusMPa">G for torsion and shear.</param>
public readonly record struct ElasticModuli(double YoungsModulusMPa, double ShearModulusMPa)
{
    /// <summary>An isotropic material: G = E/2(1+ν).</summary>
    public static ElasticModuli Isotropic(double youngsModulusMPa, double poissonRatio) =>
        new(youngsModulusMPa, youngsModulusMPa / (2 * (1 + poissonRatio)));
}

/// <summary>
/// A cross-section about its centroid, in the member's local axes 2 and 3 (1 runs along the member):
/// I22 = ∫x₂²dA, I33 = ∫x₃²dA, I23 = ∫x₂x₃dA.
/// </summary>
/// <param name="AreaMm2">Area.</param>
/// <param name="I22Mm4">∫x₂²dA: governs deflection along axis 2.</param>
/// <param name="I33Mm4">∫x₃²dA: governs deflection along axis 3.</param>
/// <param name="I23Mm4">∫x₂x₃dA.</param>
/// <param name="TorsionMm4">Torsion constant J.</param>
/// <param name="ShearCoefficient">Shear area divided by area, the same in both directions.</param>
public readonly record struct Section(
    double AreaMm2, double I22Mm4, double I33Mm4, double I23Mm4, double TorsionMm4, double ShearCoefficient)
{
    /// <summary>A solid or hollow circle. I = π(D⁴−d⁴)/64, J = 2I.</summary>
    /// <param name="outerDiameterMm">Outer diameter D.</param>
    /// <param name="innerDiameterMm">Inner diameter d, 0 when solid.</param>
    /// <param name="shearCoefficient">Shear area divided by area.</param>
    public static Section Round(double outerDiameterMm, double innerDiameterMm, double shearCoefficient)
    {
        double o2 = outerDiameterMm * outerDiameterMm, i2 = innerDiameterMm * innerDiameterMm;
        double i = Math.PI / 64 * ((o2 * o2) - (i2 * i2));
        return new(Math.PI / 4 * (o2 - i2), i, i, 0, 2 * i, shearCoefficient);
    }

    /// <summary>True when every direction across the member bends alike.</summary>
    public bool IsIsotropic => I23Mm4 == 0 && I22Mm4 == I33Mm4;
}
