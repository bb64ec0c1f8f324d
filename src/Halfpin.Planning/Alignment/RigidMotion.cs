using Halfpin.Mechanics.Geometry;

namespace Halfpin.Planning.Alignment;

/// <summary>A finite movement of a rigid body: a point p goes to Turn·p + ShiftMm.</summary>
/// <param name="Turn">A rotation matrix.</param>
/// <param name="ShiftMm">What is added.</param>
public readonly record struct RigidMotion(Mat3 Turn, Vec3 ShiftMm)
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>No movement.</summary>
    public static RigidMotion None => new(Mat3.Identity, default);

    /// <summary>A turn about a point, followed by a shift.</summary>
    public static RigidMotion About(Vec3 pointMm, Mat3 turn, Vec3 thenShiftMm) => new(turn, pointMm - (turn * pointMm) + thenShiftMm);

    /// <summary>The rotation by an angle about a unit vector, by the right hand (Rodrigues' formula).</summary>
    public static Mat3 TurnAbout(Vec3 axis, double angleDeg)
    {
        (double sin, double cos) = Math.SinCos(angleDeg / DegPerRad);
        return Mat3.Axial(cos, 1, axis) + (sin * Mat3.CrossBy(axis));
    }

    /// <summary>Where a point goes.</summary>
    public Vec3 Of(Vec3 pointMm) => (Turn * pointMm) + ShiftMm;

    /// <summary>The movement that undoes this one.</summary>
    public RigidMotion Inverse()
    {
        Mat3 back = Turn.Transposed();
        return new(back, -(back * ShiftMm));
    }

    /// <summary>This movement and then another.</summary>
    public RigidMotion Then(RigidMotion next) => new(next.Turn * Turn, next.Of(ShiftMm));

    /// <summary>Angle of the turn about its own axis, 0 to 180.</summary>
    public double AngleDeg
    {
        get
        {
            // The sine from the skew part, the cosine from the trace: exact for small turns too.
            Vec3 skew = new(Turn.ZY - Turn.YZ, Turn.XZ - Turn.ZX, Turn.YX - Turn.XY);
            return Math.Atan2(skew.Length, Turn.XX + Turn.YY + Turn.ZZ - 1) * DegPerRad;
        }
    }
}
