using Halfpin.Anatomy.Sections;

namespace Halfpin.Anatomy.Bones;

/// <summary>A bone of the same shape with another tissue.</summary>
public sealed class RetissuedShape(BoneShape shape, BoneTissue tissue) : BoneShape
{
    /// <inheritdoc/>
    public override double LengthMm => shape.LengthMm;

    /// <inheritdoc/>
    public override BoneTissue Tissue { get; } = tissue;

    /// <inheritdoc/>
    public override bool IsUniform => shape.IsUniform;

    /// <inheritdoc/>
    public override double OuterRadiusMm(double levelMm, double azimuthDeg) => shape.OuterRadiusMm(levelMm, azimuthDeg);

    /// <inheritdoc/>
    public override double CanalRadiusMm(double levelMm, double azimuthDeg) => shape.CanalRadiusMm(levelMm, azimuthDeg);

    /// <inheritdoc/>
    public override BoneSection SectionAt(double levelMm) => shape.SectionAt(levelMm);
}
