using Halfpin.Domain.Cases;

namespace Halfpin.Placement;

/// <summary>Distances on the skin to a wound or a planned incision.</summary>
public static class SkinArea
{
    /// <summary>Angle between a direction and the area's nearer edge; 0 within it.</summary>
    public static double OffDeg(Wound area, double azimuthDeg)
    {
        double sweep = Wrapped(area.ToAzimuthDeg - area.FromAzimuthDeg), past = Wrapped(azimuthDeg - area.FromAzimuthDeg);
        return past <= sweep ? 0 : Math.Min(past - sweep, 360 - past);
    }

    /// <summary>Distance along the skin from a point to the area's edge, mm; 0 within it.</summary>
    /// <param name="area">The area.</param>
    /// <param name="levelMm">Level of the point.</param>
    /// <param name="azimuthDeg">Its azimuth.</param>
    /// <param name="radiusMm">Distance of the skin from the bone's axis, over which the angle is rolled out.</param>
    public static double DistanceMm(Wound area, double levelMm, double azimuthDeg, double radiusMm)
    {
        double along = Math.Max(0, Math.Max(area.FromLevelMm - levelMm, levelMm - area.ToLevelMm));
        return double.Hypot(along, OffDeg(area, azimuthDeg) * Math.PI / 180 * radiusMm);
    }

    private static double Wrapped(double deg) => ((deg % 360) + 360) % 360;
}
