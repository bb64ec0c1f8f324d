using Halfpin.Anatomy.Sections;
using Halfpin.Domain.Cases;

namespace Halfpin.Anatomy.Bones;

/// <summary>A uniform round tube.</summary>
public sealed class TubeShape(double lengthMm, TubeBone tube) : BoneShape
{
    private readonly BoneSection _section = SectionOf(tube.OuterDiameterMm, tube.InnerDiameterMm);

    /// <inheritdoc/>
    public override double LengthMm { get; } = lengthMm;

    /// <inheritdoc/>
    public override BoneTissue Tissue { get; } = new(
        tube.YoungsModulusMPa,
        tube.ShearModulusMPa ?? tube.YoungsModulusMPa / (2 * (1 + tube.PoissonRatio)),
        BoneTissue.CorticalTransverseStrengthMPa);

    /// <inheritdoc/>
    public override bool IsUniform => true;

    /// <inheritdoc/>
    public override double OuterRadiusMm(double levelMm, double azimuthDeg) => tube.OuterDiameterMm / 2;

    /// <inheritdoc/>
    public override double CanalRadiusMm(double levelMm, double azimuthDeg) => tube.InnerDiameterMm / 2;

    /// <inheritdoc/>
    public override BoneSection SectionAt(double levelMm) => _section;

    private static BoneSection SectionOf(double outer, double inner)
    {
        double i = Math.PI / 64 * (Math.Pow(outer, 4) - Math.Pow(inner, 4));
        return new(Math.PI / 4 * ((outer * outer) - (inner * inner)), i, i, 0, 2 * i);
    }
}
