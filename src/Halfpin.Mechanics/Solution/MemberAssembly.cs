using System.Runtime.CompilerServices;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;

namespace Halfpin.Mechanics.Solution;

/// <summary>Adds a member to the assembled blocks.</summary>
/// <remarks>
/// With r the arm from a node to P, the motion there is u + θ × r, so the arm's matrix is A = [I −[r×]; 0 I] and the
/// member adds AᵀSA to a node's own block and −A₁ᵀSA₂ between its nodes.
/// </remarks>
internal static class MemberAssembly
{
    public static void Add(
        ref double blocks, in MemberStiffness s, Vec3[] position, int first, int second, int atFirst, int atSecond, int off)
    {
        Mat3 transposed = s.ForcePerRotation.Transposed();
        Mat3 qSecond = default, tSecond = default;
        if (atSecond >= 0)
        {
            Vec3 r = s.AtMm - position[second];
            qSecond = s.ForcePerRotation - s.ForcePerTranslation.TimesCross(r);
            tSecond = s.MomentPerRotation - transposed.TimesCross(r);
            Own(ref Block(ref blocks, atSecond), s.ForcePerTranslation, qSecond, qSecond.CrossTimes(r) + tSecond);
        }

        if (atFirst >= 0)
        {
            Vec3 r = s.AtMm - position[first];
            Mat3 q = s.ForcePerRotation - s.ForcePerTranslation.TimesCross(r);
            Own(ref Block(ref blocks, atFirst), s.ForcePerTranslation, q, q.CrossTimes(r) + s.MomentPerRotation - transposed.TimesCross(r));
            if (off >= 0)
            {
                ref double b = ref Block(ref blocks, off);
                Subtract(ref b, s.ForcePerTranslation);
                Subtract(ref Unsafe.Add(ref b, 3), qSecond);
                Subtract(ref Unsafe.Add(ref b, 3 * BlockKernels.Stride), q.Transposed());
                Subtract(ref Unsafe.Add(ref b, (3 * BlockKernels.Stride) + 3), qSecond.CrossTimes(r) + tSecond);
            }
        }
    }

    private static void Own(ref double b, in Mat3 n, in Mat3 q, in Mat3 m)
    {
        Add(ref b, n);
        Add(ref Unsafe.Add(ref b, 3), q);
        Add(ref Unsafe.Add(ref b, 3 * BlockKernels.Stride), q.Transposed());
        Add(ref Unsafe.Add(ref b, (3 * BlockKernels.Stride) + 3), m);
    }

    private static void Add(ref double b, in Mat3 m)
    {
        b += m.XX;
        Unsafe.Add(ref b, 1) += m.XY;
        Unsafe.Add(ref b, 2) += m.XZ;
        Unsafe.Add(ref b, 8) += m.YX;
        Unsafe.Add(ref b, 9) += m.YY;
        Unsafe.Add(ref b, 10) += m.YZ;
        Unsafe.Add(ref b, 16) += m.ZX;
        Unsafe.Add(ref b, 17) += m.ZY;
        Unsafe.Add(ref b, 18) += m.ZZ;
    }

    private static void Subtract(ref double b, in Mat3 m)
    {
        b -= m.XX;
        Unsafe.Add(ref b, 1) -= m.XY;
        Unsafe.Add(ref b, 2) -= m.XZ;
        Unsafe.Add(ref b, 8) -= m.YX;
        Unsafe.Add(ref b, 9) -= m.YY;
        Unsafe.Add(ref b, 10) -= m.YZ;
        Unsafe.Add(ref b, 16) -= m.ZX;
        Unsafe.Add(ref b, 17) -= m.ZY;
        Unsafe.Add(ref b, 18) -= m.ZZ;
    }

    private static ref double Block(ref double blocks, int block) => ref Unsafe.Add(ref blocks, block * BlockKernels.BlockSize);
}
