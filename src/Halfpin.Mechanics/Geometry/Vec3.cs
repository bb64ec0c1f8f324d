namespace Halfpin.Mechanics.Geometry;

/// <summary>A vector or point in the global right-handed frame. The unit is that of the quantity it holds.</summary>
public readonly record struct Vec3(double X, double Y, double Z)
{
    /// <summary>Unit vector along x.</summary>
    public static Vec3 UnitX => new(1, 0, 0);

    /// <summary>Unit vector along y.</summary>
    public static Vec3 UnitY => new(0, 1, 0);

    /// <summary>Unit vector along z.</summary>
    public static Vec3 UnitZ => new(0, 0, 1);

    /// <summary>Euclidean length.</summary>
    public double Length => Math.Sqrt(Dot(this));

    public static Vec3 operator +(Vec3 a, Vec3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static Vec3 operator -(Vec3 a, Vec3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static Vec3 operator -(Vec3 a) => new(-a.X, -a.Y, -a.Z);

    public static Vec3 operator *(double s, Vec3 a) => new(s * a.X, s * a.Y, s * a.Z);

    /// <summary>Scalar product.</summary>
    public double Dot(Vec3 b) => (X * b.X) + (Y * b.Y) + (Z * b.Z);

    /// <summary>Vector product, right-handed.</summary>
    public Vec3 Cross(Vec3 b) => new((Y * b.Z) - (Z * b.Y), (Z * b.X) - (X * b.Z), (X * b.Y) - (Y * b.X));

    /// <summary>The same direction with length one. Undefined for the zero vector.</summary>
    public Vec3 Normalised() => (1 / Length) * this;

    /// <summary>A unit vector at right angles to this direction, chosen from the coordinate axis least aligned with it.</summary>
    public Vec3 AnyNormal()
    {
        double x = Math.Abs(X), y = Math.Abs(Y), z = Math.Abs(Z);
        Vec3 axis = x <= y && x <= z ? UnitX : y <= z ? UnitY : UnitZ;
        return Cross(axis).Normalised();
    }
}
