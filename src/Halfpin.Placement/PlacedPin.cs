using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;

namespace Halfpin.Placement;

/// <summary>
/// A pin in space. Distances run along the pin from where its axis crosses the bone's axis, outwards positive; those of
/// the far side are negative. Limb axes of a right limb: x anterior, y medial, z proximal, z = −level.
/// </summary>
/// <param name="CrossingMm">Where the pin's axis crosses the bone's axis.</param>
/// <param name="Outward">Unit vector along the pin, away from the bone.</param>
/// <param name="SurfaceMm">Distance to the bone's surface where the pin enters; NaN when it leaves through the bone's end instead.</param>
/// <param name="NearCanalMm">Distance to the inner face of the near cortex; 0 when there is no canal.</param>
/// <param name="FarCanalMm">Distance to the inner face of the far cortex (negative); 0 when there is no canal.</param>
/// <param name="FarSurfaceMm">Distance to the surface on the far side (negative), ; NaN as for the near one.</param>
/// <param name="TipMm">Distance to the tip (negative); flush with the far surface unless the case says otherwise.</param>
public readonly record struct PlacedPin(
    Vec3 CrossingMm, Vec3 Outward, double SurfaceMm, double NearCanalMm, double FarCanalMm, double FarSurfaceMm, double TipMm)
{
    // A tilted pin's surface is looked for in steps of this level, less than that of the outline's table, and then halved down.
    private const double LevelStepMm = 1;
    private const double ReachErrorMm = 1e-10;

    /// <summary>A point of the pin's axis.</summary>
    public Vec3 At(double distanceMm) => CrossingMm + (distanceMm * Outward);

    /// <summary>Length of bone the pin crosses.</summary>
    public double ChordMm => SurfaceMm - FarSurfaceMm;

    /// <summary>The unit vector across the bone's axis at an azimuth.</summary>
    public static Vec3 Radial(double azimuthDeg)
    {
        (double sin, double cos) = Math.SinCos(azimuthDeg * (Math.PI / 180));
        return new(cos, sin, 0);
    }

    /// <summary>Places a pin in a bone.</summary>
    public static PlacedPin Place(BoneShape bone, Pin pin)
    {
        double opposite = pin.AzimuthDeg > 0 ? pin.AzimuthDeg - 180 : pin.AzimuthDeg + 180;
        (double sin, double cos) = Math.SinCos(pin.TiltDeg * (Math.PI / 180));
        Vec3 outward = (cos * Radial(pin.AzimuthDeg)) + new Vec3(0, 0, sin);
        double farSurface = -Reach(bone, pin.LevelMm, opposite, -sin, cos, outer: true);
        return new(
            new(0, 0, -pin.LevelMm),
            outward,
            Reach(bone, pin.LevelMm, pin.AzimuthDeg, sin, cos, outer: true),
            Reach(bone, pin.LevelMm, pin.AzimuthDeg, sin, cos, outer: false),
            -Reach(bone, pin.LevelMm, opposite, -sin, cos, outer: false),
            farSurface,
            farSurface - pin.TipBeyondMm);
    }

    /// <summary>Least distance between the axes of two pins in bone.</summary>
    public static double DistanceInBoneMm(PlacedPin a, PlacedPin b)
    {
        // Segments, not lines: nearest points clamped to what lies in bone, once each way.
        PlacedClamp lines = PlacedClamp.Between(a.CrossingMm, a.Outward, b.CrossingMm, b.Outward);
        double s = double.IsNaN(lines.AlongMemberMm) ? 0 : Math.Clamp(lines.AlongMemberMm, a.FarSurfaceMm, a.SurfaceMm);
        double t = Math.Clamp((a.At(s) - b.CrossingMm).Dot(b.Outward), b.FarSurfaceMm, b.SurfaceMm);
        s = Math.Clamp((b.At(t) - a.CrossingMm).Dot(a.Outward), a.FarSurfaceMm, a.SurfaceMm);
        return (a.At(s) - b.At(t)).Length;
    }

    // Where the pin's axis first leaves the outer outline or the canal; NaN when it does not before the bone's end.
    private static double Reach(BoneShape bone, double levelMm, double azimuthDeg, double sin, double cos, bool outer)
    {
        double Radius(double distance)
        {
            double level = levelMm - (distance * sin);
            return outer ? bone.OuterRadiusMm(level, azimuthDeg) : bone.CanalRadiusMm(level, azimuthDeg);
        }

        double here = Radius(0);
        if (sin == 0 || here <= 0)
        {
            return here / cos;
        }

        double end = (sin > 0 ? levelMm : levelMm - bone.LengthMm) / sin, step = LevelStepMm / Math.Abs(sin), inside = 0;
        while (inside < end)
        {
            double outside = Math.Min(inside + step, end);
            if (Radius(outside) <= outside * cos)
            {
                return Between(inside, outside);
            }

            inside = outside;
        }

        return double.NaN;

        double Between(double inside, double outside)
        {
            while (outside - inside > ReachErrorMm)
            {
                double middle = (inside + outside) / 2;
                (inside, outside) = Radius(middle) <= middle * cos ? (inside, middle) : (middle, outside);
            }

            return outside;
        }
    }
}
