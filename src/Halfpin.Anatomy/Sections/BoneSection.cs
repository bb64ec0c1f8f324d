namespace Halfpin.Anatomy.Sections;

/// <summary>A cross-section of a bone about its axis; x anterior, y medial.</summary>
/// <param name="AreaMm2">Area of bone tissue.</param>
/// <param name="XxMm4">∫x²dA.</param>
/// <param name="YyMm4">∫y²dA.</param>
/// <param name="XyMm4">∫xy dA.</param>
/// <param name="TorsionMm4">Torsion constant J.</param>
public readonly record struct BoneSection(double AreaMm2, double XxMm4, double YyMm4, double XyMm4, double TorsionMm4)
{
    /// <summary>Largest and smallest second moment over all directions, mm⁴.</summary>
    public (double MaxMm4, double MinMm4) PrincipalMm4()
    {
        double mean = (XxMm4 + YyMm4) / 2, radius = Math.Sqrt(Math.Pow((XxMm4 - YyMm4) / 2, 2) + (XyMm4 * XyMm4));
        return (mean + radius, mean - radius);
    }
}
