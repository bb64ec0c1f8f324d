using Halfpin.Mechanics.Geometry;

namespace Halfpin.Placement;

/// <summary>A clamp in space, at the nearest points of the axes of its two members.</summary>
/// <param name="OnMemberMm">Nearest point on the pin (or the other rod).</param>
/// <param name="OnRodMm">Nearest point on the rod.</param>
/// <param name="AlongMemberMm">Distance of that point along the pin from its crossing, or along the other rod from its first point.</param>
/// <param name="AlongRodMm">Distance along the rod from its first point.</param>
public readonly record struct PlacedClamp(Vec3 OnMemberMm, Vec3 OnRodMm, double AlongMemberMm, double AlongRodMm)
{
    /// <summary>Distance between the two axes.</summary>
    public double EccentricityMm => (OnRodMm - OnMemberMm).Length;

    /// <summary>Nearest points of two lines, each through a point with a unit direction. Parallel lines give NaN.</summary>
    public static PlacedClamp Between(Vec3 member, Vec3 memberAlong, Vec3 rod, Vec3 rodAlong)
    {
        Vec3 w = rod - member;
        double cos = memberAlong.Dot(rodAlong), det = 1 - (cos * cos);
        double a = w.Dot(memberAlong), b = w.Dot(rodAlong);
        double s = (a - (b * cos)) / det, t = ((a * cos) - b) / det;
        return new(member + (s * memberAlong), rod + (t * rodAlong), s, t);
    }
}
