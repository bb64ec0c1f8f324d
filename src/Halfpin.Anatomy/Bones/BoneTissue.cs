namespace Halfpin.Anatomy.Bones;

/// <summary>Elastic constants and strength of the bone's wall.</summary>
/// <param name="YoungsModulusMPa">E along the bone.</param>
/// <param name="ShearModulusMPa">G for torsion and shear of the bone.</param>
/// <param name="TransverseStrengthMPa">Compressive strength across the bone, against a pin's bearing pressure.</param>
public readonly record struct BoneTissue(double YoungsModulusMPa, double ShearModulusMPa, double TransverseStrengthMPa)
{
    /// <summary>Transverse compressive strength of cortical bone: 133 MPa, MEMORY hi (Reilly and Burstein, J Biomech 1975).</summary>
    public const double CorticalTransverseStrengthMPa = 133;

    /// <summary>Cortical bone: E 17.0 GPa, G 3.3 GPa. MEMORY hi (Reilly and Burstein, J Biomech 1975).</summary>
    public static BoneTissue Cortical => new(17_000, 3300, CorticalTransverseStrengthMPa);
}
