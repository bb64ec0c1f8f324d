using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Halfpin.Mechanics.Solution;

/// <summary>
/// Arithmetic on 6×6 blocks stored as six rows of eight (two unused, always zero), so that a row is one vector.
/// </summary>
/// <remarks>
/// Every entry is formed by the same chain of fused operations whatever the width of the machine's vectors: results are
/// bit-equal between machines with fused multiply-add. Trusted input: callers pass blocks of the right length.
/// </remarks>
internal static class BlockKernels
{
    public const int Freedoms = 6;
    public const int Stride = 8;
    public const int BlockSize = Freedoms * Stride;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Row(ref double block, int row) => Vector512.LoadUnsafe(ref block, (nuint)(row * Stride));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Less(Vector512<double> c, double s, Vector512<double> v) =>
        Vector512.FusedMultiplyAdd(Vector512.Create(-s), v, c);

    /// <summary>
    /// D = UᵀU in place: row j of U from its diagonal on, with 1/U_jj in the diagonal's place.
    /// </summary>
    /// <param name="d">The symmetric block.</param>
    /// <param name="diagonal">The six diagonal entries before any elimination.</param>
    /// <param name="lostBelow">A pivot under this share of its original diagonal counts as lost.</param>
    /// <returns>The first freedom whose pivot is lost, or −1.</returns>
    public static int Factorise(ref double d, ref double diagonal, double lostBelow)
    {
        for (int j = 0; j < Freedoms; j++)
        {
            double pivot = Unsafe.Add(ref d, (j * Stride) + j);
            if (!(pivot > lostBelow * Unsafe.Add(ref diagonal, j)))
            {
                return j;
            }

            double inverse = 1 / Math.Sqrt(pivot);
            Vector512<double> row = Row(ref d, j) * inverse;
            row.StoreUnsafe(ref d, (nuint)(j * Stride));
            for (int i = j + 1; i < Freedoms; i++)
            {
                Less(Row(ref d, i), Unsafe.Add(ref d, (j * Stride) + i), row).StoreUnsafe(ref d, (nuint)(i * Stride));
            }

            Unsafe.Add(ref d, (j * Stride) + j) = inverse;
        }

        return -1;
    }

    /// <summary>B ← U⁻ᵀ B for a block or a panel of right-hand sides.</summary>
    public static void SolveTransposed(ref double u, ref double b)
    {
        Vector512<double> r0 = Row(ref b, 0) * u;
        Vector512<double> r1 = Less(Row(ref b, 1), Unsafe.Add(ref u, 1), r0) * Unsafe.Add(ref u, 9);
        Vector512<double> r2 = Less(Less(Row(ref b, 2), Unsafe.Add(ref u, 2), r0), Unsafe.Add(ref u, 10), r1) * Unsafe.Add(ref u, 18);
        Vector512<double> r3 = Less(Less(Less(Row(ref b, 3), Unsafe.Add(ref u, 3), r0), Unsafe.Add(ref u, 11), r1), Unsafe.Add(ref u, 19), r2)
            * Unsafe.Add(ref u, 27);
        Vector512<double> r4 = Less(Less(Less(Less(Row(ref b, 4), Unsafe.Add(ref u, 4), r0), Unsafe.Add(ref u, 12), r1), Unsafe.Add(ref u, 20), r2),
            Unsafe.Add(ref u, 28), r3) * Unsafe.Add(ref u, 36);
        Vector512<double> r5 = Less(Less(Less(Less(Less(Row(ref b, 5), Unsafe.Add(ref u, 5), r0), Unsafe.Add(ref u, 13), r1), Unsafe.Add(ref u, 21), r2),
            Unsafe.Add(ref u, 29), r3), Unsafe.Add(ref u, 37), r4) * Unsafe.Add(ref u, 45);
        Store(ref b, r0, r1, r2, r3, r4, r5);
    }

    /// <summary>B ← U⁻¹ B for a panel of right-hand sides.</summary>
    public static void SolveUpper(ref double u, ref double b)
    {
        Vector512<double> r5 = Row(ref b, 5) * Unsafe.Add(ref u, 45);
        Vector512<double> r4 = Less(Row(ref b, 4), Unsafe.Add(ref u, 37), r5) * Unsafe.Add(ref u, 36);
        Vector512<double> r3 = Less(Less(Row(ref b, 3), Unsafe.Add(ref u, 29), r5), Unsafe.Add(ref u, 28), r4) * Unsafe.Add(ref u, 27);
        Vector512<double> r2 = Less(Less(Less(Row(ref b, 2), Unsafe.Add(ref u, 21), r5), Unsafe.Add(ref u, 20), r4), Unsafe.Add(ref u, 19), r3)
            * Unsafe.Add(ref u, 18);
        Vector512<double> r1 = Less(Less(Less(Less(Row(ref b, 1), Unsafe.Add(ref u, 13), r5), Unsafe.Add(ref u, 12), r4), Unsafe.Add(ref u, 11), r3),
            Unsafe.Add(ref u, 10), r2) * Unsafe.Add(ref u, 9);
        Vector512<double> r0 = Less(Less(Less(Less(Less(Row(ref b, 0), Unsafe.Add(ref u, 5), r5), Unsafe.Add(ref u, 4), r4), Unsafe.Add(ref u, 3), r3),
            Unsafe.Add(ref u, 2), r2), Unsafe.Add(ref u, 1), r1) * u;
        Store(ref b, r0, r1, r2, r3, r4, r5);
    }

    /// <summary>C ← C − WᵀV.</summary>
    public static void SubtractTransposedProduct(ref double c, ref double w, ref double v)
    {
        Vector512<double> v0 = Row(ref v, 0), v1 = Row(ref v, 1), v2 = Row(ref v, 2), v3 = Row(ref v, 3), v4 = Row(ref v, 4), v5 = Row(ref v, 5);
        for (int r = 0; r < Freedoms; r++)
        {
            ref double column = ref Unsafe.Add(ref w, r);
            Vector512<double> even = Less(Row(ref c, r), column, v0);
            Vector512<double> odd = Unsafe.Add(ref column, 8) * v1;
            even = Less(even, Unsafe.Add(ref column, 16), v2);
            odd = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref column, 24)), v3, odd);
            even = Less(even, Unsafe.Add(ref column, 32), v4);
            odd = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref column, 40)), v5, odd);
            (even - odd).StoreUnsafe(ref c, (nuint)(r * Stride));
        }
    }

    /// <summary>C ← C − WV.</summary>
    public static void SubtractProduct(ref double c, ref double w, ref double v)
    {
        Vector512<double> v0 = Row(ref v, 0), v1 = Row(ref v, 1), v2 = Row(ref v, 2), v3 = Row(ref v, 3), v4 = Row(ref v, 4), v5 = Row(ref v, 5);
        for (int r = 0; r < Freedoms; r++)
        {
            ref double row = ref Unsafe.Add(ref w, r * Stride);
            Vector512<double> even = Less(Row(ref c, r), row, v0);
            Vector512<double> odd = Unsafe.Add(ref row, 1) * v1;
            even = Less(even, Unsafe.Add(ref row, 2), v2);
            odd = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref row, 3)), v3, odd);
            even = Less(even, Unsafe.Add(ref row, 4), v4);
            odd = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref row, 5)), v5, odd);
            (even - odd).StoreUnsafe(ref c, (nuint)(r * Stride));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(
        ref double b, Vector512<double> r0, Vector512<double> r1, Vector512<double> r2, Vector512<double> r3, Vector512<double> r4, Vector512<double> r5)
    {
        r0.StoreUnsafe(ref b, 0);
        r1.StoreUnsafe(ref b, 8);
        r2.StoreUnsafe(ref b, 16);
        r3.StoreUnsafe(ref b, 24);
        r4.StoreUnsafe(ref b, 32);
        r5.StoreUnsafe(ref b, 40);
    }
}
