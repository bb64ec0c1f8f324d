namespace Halfpin.Mechanics.Geometry;

/// <summary>A 3×3 matrix, row by row.</summary>
public readonly record struct Mat3(
    double XX, double XY, double XZ,
    double YX, double YY, double YZ,
    double ZX, double ZY, double ZZ)
{
    /// <summary>The identity.</summary>
    public static Mat3 Identity => Diagonal(1, 1, 1);

    /// <summary>A diagonal matrix.</summary>
    public static Mat3 Diagonal(double x, double y, double z) => new(x, 0, 0, 0, y, 0, 0, 0, z);

    /// <summary>The matrix whose rows are the three vectors: takes global components to those along the rows.</summary>
    public static Mat3 FromRows(Vec3 x, Vec3 y, Vec3 z) => new(x.X, x.Y, x.Z, y.X, y.Y, y.Z, z.X, z.Y, z.Z);

    /// <summary>a·I + (b − a)·e eᵀ: value b along the unit vector e, value a across it.</summary>
    public static Mat3 Axial(double across, double along, Vec3 e)
    {
        double d = along - across;
        double xy = d * e.X * e.Y, xz = d * e.X * e.Z, yz = d * e.Y * e.Z;
        return new(across + (d * e.X * e.X), xy, xz, xy, across + (d * e.Y * e.Y), yz, xz, yz, across + (d * e.Z * e.Z));
    }

    /// <summary>The matrix that forms r × v from v.</summary>
    public static Mat3 CrossBy(Vec3 r) => new(0, -r.Z, r.Y, r.Z, 0, -r.X, -r.Y, r.X, 0);

    public static Mat3 operator +(in Mat3 a, in Mat3 b) => new(
        a.XX + b.XX, a.XY + b.XY, a.XZ + b.XZ,
        a.YX + b.YX, a.YY + b.YY, a.YZ + b.YZ,
        a.ZX + b.ZX, a.ZY + b.ZY, a.ZZ + b.ZZ);

    public static Mat3 operator -(in Mat3 a, in Mat3 b) => new(
        a.XX - b.XX, a.XY - b.XY, a.XZ - b.XZ,
        a.YX - b.YX, a.YY - b.YY, a.YZ - b.YZ,
        a.ZX - b.ZX, a.ZY - b.ZY, a.ZZ - b.ZZ);

    public static Mat3 operator *(double s, in Mat3 a) => new(
        s * a.XX, s * a.XY, s * a.XZ, s * a.YX, s * a.YY, s * a.YZ, s * a.ZX, s * a.ZY, s * a.ZZ);

    public static Vec3 operator *(in Mat3 a, Vec3 v) => new(
        (a.XX * v.X) + (a.XY * v.Y) + (a.XZ * v.Z),
        (a.YX * v.X) + (a.YY * v.Y) + (a.YZ * v.Z),
        (a.ZX * v.X) + (a.ZY * v.Y) + (a.ZZ * v.Z));

    public static Mat3 operator *(in Mat3 a, in Mat3 b) => new(
        (a.XX * b.XX) + (a.XY * b.YX) + (a.XZ * b.ZX),
        (a.XX * b.XY) + (a.XY * b.YY) + (a.XZ * b.ZY),
        (a.XX * b.XZ) + (a.XY * b.YZ) + (a.XZ * b.ZZ),
        (a.YX * b.XX) + (a.YY * b.YX) + (a.YZ * b.ZX),
        (a.YX * b.XY) + (a.YY * b.YY) + (a.YZ * b.ZY),
        (a.YX * b.XZ) + (a.YY * b.YZ) + (a.YZ * b.ZZ),
        (a.ZX * b.XX) + (a.ZY * b.YX) + (a.ZZ * b.ZX),
        (a.ZX * b.XY) + (a.ZY * b.YY) + (a.ZZ * b.ZY),
        (a.ZX * b.XZ) + (a.ZY * b.YZ) + (a.ZZ * b.ZZ));

    /// <summary>this · [r×]: row by row the vector product with r.</summary>
    public Mat3 TimesCross(Vec3 r) => new(
        (XY * r.Z) - (XZ * r.Y), (XZ * r.X) - (XX * r.Z), (XX * r.Y) - (XY * r.X),
        (YY * r.Z) - (YZ * r.Y), (YZ * r.X) - (YX * r.Z), (YX * r.Y) - (YY * r.X),
        (ZY * r.Z) - (ZZ * r.Y), (ZZ * r.X) - (ZX * r.Z), (ZX * r.Y) - (ZY * r.X));

    /// <summary>[r×] · this: column by column the vector product of r with it.</summary>
    public Mat3 CrossTimes(Vec3 r) => new(
        (r.Y * ZX) - (r.Z * YX), (r.Y * ZY) - (r.Z * YY), (r.Y * ZZ) - (r.Z * YZ),
        (r.Z * XX) - (r.X * ZX), (r.Z * XY) - (r.X * ZY), (r.Z * XZ) - (r.X * ZZ),
        (r.X * YX) - (r.Y * XX), (r.X * YY) - (r.Y * XY), (r.X * YZ) - (r.Y * XZ));

    /// <summary>True when every entry is 0.</summary>
    public bool IsZero => XX == 0 && XY == 0 && XZ == 0 && YX == 0 && YY == 0 && YZ == 0 && ZX == 0 && ZY == 0 && ZZ == 0;

    /// <summary>The transpose.</summary>
    public Mat3 Transposed() => new(XX, YX, ZX, XY, YY, ZY, XZ, YZ, ZZ);

    /// <summary>Rᵀ · this · R: a tensor given along the rows of R, expressed in the global frame.</summary>
    public Mat3 Turned(in Mat3 rows) => rows.Transposed() * this * rows;
}
