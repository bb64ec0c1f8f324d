using Halfpin.Anatomy.Sections;
using Halfpin.Domain.Cases;

namespace Halfpin.Anatomy.Bones;

/// <summary>A straight bone about its axis: outline and canal by level, sections and tissue. Immutable.</summary>
public abstract class BoneShape
{
    /// <summary>Length from joint line to joint line.</summary>
    public abstract double LengthMm { get; }

    /// <summary>The wall's tissue.</summary>
    public abstract BoneTissue Tissue { get; }

    /// <summary>True when every level has the same section.</summary>
    public abstract bool IsUniform { get; }

    /// <summary>Distance from the axis to the outer surface.</summary>
    /// <param name="levelMm">Level from the proximal joint line; clamped to the bone.</param>
    /// <param name="azimuthDeg">Azimuth.</param>
    public abstract double OuterRadiusMm(double levelMm, double azimuthDeg);

    /// <summary>Distance from the axis to the canal's surface; 0 when there is no canal.</summary>
    public abstract double CanalRadiusMm(double levelMm, double azimuthDeg);

    /// <summary>The cross-section at a level.</summary>
    public abstract BoneSection SectionAt(double levelMm);

    /// <summary>The bone of a limb.</summary>
    /// <param name="limb">The limb.</param>
    /// <param name="wallShare">Thickness of an anatomical bone's wall as a multiple of the model's; a tube has the wall of its diameters.</param>
    public static BoneShape For(Limb limb, double wallShare = 1) => limb.BoneModel switch
    {
        Domain.Cases.TubeBone tube => new TubeShape(limb.LengthMm, tube),
        AnatomicalBone => new TibiaShape(limb.LengthMm, wallShare),
        _ => throw new ArgumentException($"No shape for {limb.BoneModel.GetType().Name}.", nameof(limb)),
    };
}
