using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Geometry;

namespace Halfpin.Placement;

/// <summary>The tilted plane through the middle of a fracture's gap.</summary>
public static class FracturePlane
{
    private const int StepDeg = 15;

    /// <summary>How far a point lies distal to the plane, measured along the bone's axis, mm.</summary>
    public static double DistalMm(Fracture fracture, Vec3 point)
    {
        double slope = Math.Tan(fracture.TiltDeg * Math.PI / 180);
        return -point.Z - (fracture.LevelMm + (slope * point.Dot(PlacedPin.Radial(fracture.TiltAzimuthDeg))));
    }

    /// <summary>
    /// Least length of bone along its axis between the gaps of two fractures, the second distal, on the outline of either level; negative
    /// when they meet.
    /// </summary>
    public static double BetweenMm(Fracture first, Fracture second, BoneShape bone)
    {
        double least = double.PositiveInfinity;
        for (int azimuth = 0; azimuth < 360; azimuth += StepDeg)
        {
            double radius = Math.Max(bone.OuterRadiusMm(first.LevelMm, azimuth), bone.OuterRadiusMm(second.LevelMm, azimuth));
            Vec3 p = radius * PlacedPin.Radial(azimuth);
            least = Math.Min(least, DistalMm(first, p) - DistalMm(second, p) - ((first.GapMm + second.GapMm) / 2));
        }

        return least;
    }

    /// <summary>Least distance along the bone's axis from a pin's axis in bone to the nearer edge of the gap, mm; negative when it crosses the plane.</summary>
    public static double ClearanceMm(Fracture fracture, PlacedPin pin)
    {
        double a = DistalMm(fracture, pin.At(pin.SurfaceMm)), b = DistalMm(fracture, pin.At(pin.FarSurfaceMm));
        double least = Math.Min(Math.Abs(a), Math.Abs(b));
        return (a * b < 0 ? -least : least) - (fracture.GapMm / 2);
    }
}
