using Halfpin.Anatomy.SoftTissue;

namespace Halfpin.Placement;

/// <summary>Room between rod and skin.</summary>
public static class Clearance
{
    /// <summary>Least room between rod and skin. MEMORY; two fingerbreadths, 30–40 mm, are usual.</summary>
    public const double SkinMm = 20;

    /// <summary>Bone surface to rod axis that leaves this room after swelling.</summary>
    /// <param name="skin">Skin round the bone.</param>
    /// <param name="levelMm">Level.</param>
    /// <param name="azimuthDeg">Direction.</param>
    /// <param name="swellingMm">Room for swelling.</param>
    /// <param name="rodDiameterMm">Diameter of the rod.</param>
    public static double LeastStandoffMm(SkinShape skin, double levelMm, double azimuthDeg, double swellingMm, double rodDiameterMm) =>
        skin.ThicknessMm(levelMm, azimuthDeg) + swellingMm + SkinMm + (rodDiameterMm / 2);
}
