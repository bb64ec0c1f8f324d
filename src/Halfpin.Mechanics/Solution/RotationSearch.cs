using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Halfpin.Mechanics.Solution;

/// <summary>Finds the largest rotation of any node in a sum of load cases. Rotations of eight cases lie in one vector.</summary>
internal static class RotationSearch
{
    private const int FirstRotation = 3;

    /// <summary>The largest length of a node's rotation.</summary>
    /// <param name="solution">Solution of all panels.</param>
    /// <param name="positions">Nodes that move.</param>
    /// <param name="factors">How much of each case, for whole panels.</param>
    public static double LargestRad(in VectorBuffer solution, int positions, ReadOnlySpan<double> factors)
    {
        double most = 0;
        ref double x = ref solution.Origin;
        for (int position = 0; position < positions; position++)
        {
            Vector512<double> rx = default, ry = default, rz = default;
            for (int panel = 0; panel < factors.Length / FrameSystem.ColumnsPerPanel; panel++)
            {
                ref double block = ref Unsafe.Add(ref x, ((panel * positions) + position) * BlockKernels.BlockSize);
                Vector512<double> f = Vector512.Create(factors[(panel * FrameSystem.ColumnsPerPanel)..]);
                rx = Vector512.FusedMultiplyAdd(f, BlockKernels.Row(ref block, FirstRotation), rx);
                ry = Vector512.FusedMultiplyAdd(f, BlockKernels.Row(ref block, FirstRotation + 1), ry);
                rz = Vector512.FusedMultiplyAdd(f, BlockKernels.Row(ref block, FirstRotation + 2), rz);
            }

            double tx = Vector512.Sum(rx), ty = Vector512.Sum(ry), tz = Vector512.Sum(rz);
            most = Math.Max(most, (tx * tx) + (ty * ty) + (tz * tz));
        }

        return Math.Sqrt(most);
    }
}
