using System.Runtime.CompilerServices;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;

namespace Halfpin.Mechanics.Solution;

/// <summary>Adds a member to the assembled blocks.</summary>
/// <remarks>
/// With r the arm from a node to P, the motion there is u + θ × r, so the arm's matrix is A = [I −[r×]; 0 I] and the
/// member adds AᵀSA to a node's own block and −A₁ᵀSA₂ between its nodes. With q = Q − N[r×] and t = M − Qᵀ[r×], a node's own block
/// is [N q; qᵀ [r×]q + t] and the one between is −[N q₂; q₁ᵀ [r₁×]q₂ + t₂].
/// </remarks>
internal static class MemberAssembly
{
    private const int LowerLeft = 3 * BlockKernels.Stride;
    private const int LowerRight = LowerLeft + 3;

    public static void Add(
        ref double blocks, in MemberStiffness s, Vec3[] position, int first, int second, int atFirst, int atSecond, int off)
    {
        // Beams at their middle and springs have no coupling Q, which saves a third of the work.
        bool coupled = !s.ForcePerRotation.IsZero;
        Mat3 qSecond = default, tSecond = s.MomentPerRotation;
        if (atSecond >= 0)
        {
            Vec3 r = s.AtMm - position[second];
            qSecond = s.ForcePerTranslation.TimesCross(-r);
            if (coupled)
            {
                qSecond += s.ForcePerRotation;
                tSecond -= s.ForcePerRotation.Transposed().TimesCross(r);
            }

            Own(ref Block(ref blocks, atSecond), s.ForcePerTranslation, qSecond, qSecond.CrossTimes(r) + tSecond);
        }

        if (atFirst >= 0)
        {
            Vec3 r = s.AtMm - position[first];
            Mat3 q = s.ForcePerTranslation.TimesCross(-r), t = s.MomentPerRotation;
            if (coupled)
            {
                q += s.ForcePerRotation;
                t -= s.ForcePerRotation.Transposed().TimesCross(r);
            }

            Own(ref Block(ref blocks, atFirst), s.ForcePerTranslation, q, q.CrossTimes(r) + t);
            if (off >= 0)
            {
                ref double b = ref Block(ref blocks, off);
                Subtract(ref b, s.ForcePerTranslation);
                Subtract(ref Unsafe.Add(ref b, 3), qSecond);
                SubtractTransposed(ref Unsafe.Add(ref b, LowerLeft), q);
                Subtract(ref Unsafe.Add(ref b, LowerRight), qSecond.CrossTimes(r) + tSecond);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Own(ref double b, in Mat3 n, in Mat3 q, in Mat3 m)
    {
        Add(ref b, n);
        Add(ref Unsafe.Add(ref b, 3), q);
        AddTransposed(ref Unsafe.Add(ref b, LowerLeft), q);
        Add(ref Unsafe.Add(ref b, LowerRight), m);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Add(ref double b, in Mat3 m) =>
        AddRows(ref b, m.XX, m.XY, m.XZ, m.YX, m.YY, m.YZ, m.ZX, m.ZY, m.ZZ);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void AddTransposed(ref double b, in Mat3 m) =>
        AddRows(ref b, m.XX, m.YX, m.ZX, m.XY, m.YY, m.ZY, m.XZ, m.YZ, m.ZZ);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Subtract(ref double b, in Mat3 m) =>
        AddRows(ref b, -m.XX, -m.XY, -m.XZ, -m.YX, -m.YY, -m.YZ, -m.ZX, -m.ZY, -m.ZZ);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void SubtractTransposed(ref double b, in Mat3 m) =>
        AddRows(ref b, -m.XX, -m.YX, -m.ZX, -m.XY, -m.YY, -m.ZY, -m.XZ, -m.YZ, -m.ZZ);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void AddRows(
        ref double b, double xx, double xy, double xz, double yx, double yy, double yz, double zx, double zy, double zz)
    {
        b += xx;
        Unsafe.Add(ref b, 1) += xy;
        Unsafe.Add(ref b, 2) += xz;
        Unsafe.Add(ref b, 8) += yx;
        Unsafe.Add(ref b, 9) += yy;
        Unsafe.Add(ref b, 10) += yz;
        Unsafe.Add(ref b, 16) += zx;
        Unsafe.Add(ref b, 17) += zy;
        Unsafe.Add(ref b, 18) += zz;
    }

    private static ref double Block(ref double blocks, int block) => ref Unsafe.Add(ref blocks, block * BlockKernels.BlockSize);
}
