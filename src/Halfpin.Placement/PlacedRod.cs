using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;

namespace Halfpin.Placement;

/// <summary>A rod in space: the axis between its given points, and how far it runs on beyond each.</summary>
/// <param name="FromMm">Its first given point.</param>
/// <param name="ToMm">Its second given point.</param>
/// <param name="OverhangMm">How far the rod runs on beyond both.</param>
public readonly record struct PlacedRod(Vec3 FromMm, Vec3 ToMm, double OverhangMm)
{
    /// <summary>Distance between the given points.</summary>
    public double SpanMm => (ToMm - FromMm).Length;

    /// <summary>Unit vector from the first to the second point.</summary>
    public Vec3 Along => (ToMm - FromMm).Normalised();

    /// <summary>Places a rod.</summary>
    public static PlacedRod Place(BoneShape bone, Rod rod)
    {
        Vec3 from = Point(bone, rod.From), to = Point(bone, rod.To);
        double overhang = rod.LengthMm is double length ? (length - (to - from).Length) / 2 : rod.OverhangMm;
        return new(from, to, overhang);
    }

    private static Vec3 Point(BoneShape bone, RodPoint p)
    {
        double radius = p.RadiusMm ?? bone.OuterRadiusMm(p.LevelMm, p.AzimuthDeg) + (p.StandoffMm ?? double.NaN);
        return (radius * PlacedPin.Radial(p.AzimuthDeg)) + new Vec3(0, 0, -p.LevelMm);
    }
}
