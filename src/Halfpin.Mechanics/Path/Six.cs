using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Path;

/// <summary>Wrenches and motions as six numbers in the order of x, y, z and about x, y, z; those of several sites one after the other.</summary>
internal static class Six
{
    public const int Count = 6;

    public static void Write(in Motion m, Span<double> to)
    {
        (to[0], to[1], to[2]) = (m.TranslationMm.X, m.TranslationMm.Y, m.TranslationMm.Z);
        (to[3], to[4], to[5]) = (m.RotationRad.X, m.RotationRad.Y, m.RotationRad.Z);
    }

    public static void Write(in Wrench w, Span<double> to)
    {
        (to[0], to[1], to[2]) = (w.ForceN.X, w.ForceN.Y, w.ForceN.Z);
        (to[3], to[4], to[5]) = (w.MomentNmm.X, w.MomentNmm.Y, w.MomentNmm.Z);
    }

    public static Motion Motion(ReadOnlySpan<double> six) => new(new(six[0], six[1], six[2]), new(six[3], six[4], six[5]));

    public static Wrench Unit(int i) => new(
        new(i == 0 ? 1 : 0, i == 1 ? 1 : 0, i == 2 ? 1 : 0),
        new(i == 3 ? 1 : 0, i == 4 ? 1 : 0, i == 5 ? 1 : 0));

    public static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }

    public static double DotOfSizes(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++)
        {
            sum += Math.Abs(a[i] * b[i]);
        }

        return sum;
    }

    /// <summary>Translations against translations and rotations against rotations by their lengths: no direction makes it small.</summary>
    public static double DotOfLengths(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i += Count / 2)
        {
            sum += Length(a[i..]) * Length(b[i..]);
        }

        return sum;
    }

    /// <summary>to += factor · from.</summary>
    public static void Add(double factor, ReadOnlySpan<double> from, Span<double> to)
    {
        for (int i = 0; i < from.Length; i++)
        {
            to[i] += factor * from[i];
        }
    }

    /// <summary>to += matrix · from, the matrix row by row.</summary>
    public static void AddProduct(ReadOnlySpan<double> matrix, ReadOnlySpan<double> from, Span<double> to)
    {
        for (int i = 0; i < matrix.Length / from.Length; i++)
        {
            to[i] += Dot(matrix.Slice(from.Length * i, from.Length), from);
        }
    }

    public static double Work(in Wrench w, in Motion m) => w.ForceN.Dot(m.TranslationMm) + w.MomentNmm.Dot(m.RotationRad);

    /// <summary>The wrench at a member's point that a relative motion of its arms there meets.</summary>
    public static Wrench Resistance(in MemberStiffness s, in Motion m) => new(
        (s.ForcePerTranslation * m.TranslationMm) + (s.ForcePerRotation * m.RotationRad),
        (s.ForcePerRotation.Transposed() * m.TranslationMm) + (s.MomentPerRotation * m.RotationRad));

    private static double Length(ReadOnlySpan<double> v) => Math.Sqrt((v[0] * v[0]) + (v[1] * v[1]) + (v[2] * v[2]));
}
