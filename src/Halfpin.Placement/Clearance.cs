using Halfpin.Anatomy.SoftTissue;
using Halfpin.Placement.Checks;

namespace Halfpin.Placement;

/// <summary>Room between rods and skin, and before wounds.</summary>
public static class Clearance
{
    /// <summary>Least room between rod and skin. MEMORY; two fingerbreadths, 30–40 mm, are usual.</summary>
    public const double SkinMm = 20;

    /// <summary>Least room between any rod of a frame and the skin, not swollen; null on a synthetic bone.</summary>
    public static double? SkinRoomMm(PlacedFrame frame) => SkinChecks.LeastRoomMm(frame);

    /// <summary>Least distance of any rod from the way to a wound; null when none passes one.</summary>
    public static double? WoundRoomMm(PlacedFrame frame) => SkinChecks.WoundRoomMm(frame);

    /// <summary>Bone surface to rod axis that leaves this room after swelling.</summary>
    /// <param name="skin">Skin round the bone.</param>
    /// <param name="levelMm">Level.</param>
    /// <param name="azimuthDeg">Direction.</param>
    /// <param name="swellingMm">Room for swelling.</param>
    /// <param name="rodDiameterMm">Diameter of the rod.</param>
    public static double LeastStandoffMm(SkinShape skin, double levelMm, double azimuthDeg, double swellingMm, double rodDiameterMm) =>
        skin.ThicknessMm(levelMm, azimuthDeg) + swellingMm + SkinMm + (rodDiameterMm / 2);
}
