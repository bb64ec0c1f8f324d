using System.Collections.Immutable;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Diagnosis;

/// <summary>Finds the null space of a frame's stiffness matrix: the ways in which it can move unopposed.</summary>
/// <remarks>
/// Subspace iteration on (K + σD)⁻¹D with D the diagonal of K (Bathe, Finite Element Procedures, sect. 11.6), then a
/// Rayleigh–Ritz step. Free motions have Ritz values at rounding level; the softest real mode of a frame lies at 1e-8
/// and more of D, so a handful of iterations separates them. The shift σ serves this search only and never a result.
/// </remarks>
public static class FreeMotionFinder
{
    private const int Columns = 24;
    private const double Shift = 1e-11;
    private const double NullBelow = 1e-12;
    private const int Iterations = 6;

    /// <summary>All free motions of the frame as it is set, at most 24; none when it is held.</summary>
    public static ImmutableArray<FreeMotion> Find(FrameSystem system)
    {
        Subspace space = new(system.WithColumns(Columns));

        // Members so uneven that not even the shifted matrix can be factorised tell nothing.
        return space.Iterate(Iterations, Shift) ? space.NullVectors(NullBelow) : [];
    }

    /// <summary>The block of trial vectors, orthonormal in the scale of the matrix diagonal.</summary>
    private sealed class Subspace
    {
        private readonly FrameSystem _system;
        private readonly double[][] _x;
        private readonly bool[] _free;
        private double[] _scale = [];

        public Subspace(FrameSystem system)
        {
            _system = system;
            int n = system.Topology.NodeCount * 6;
            _free = [.. Enumerable.Range(0, n).Select(i => ((int)system.Topology.Held[i / 6] >> (i % 6) & 1) == 0)];
            _x = [.. Enumerable.Range(0, Math.Min(Columns, _free.Count(f => f))).Select(c => Start(c, n))];
        }

        public bool Iterate(int times, double shift)
        {
            if (!_system.Factorise(shift).IsStable)
            {
                return false;
            }

            _scale = [.. _free.Select((free, i) => free ? _system.Diagonal(i / 6, i % 6) : 0)];
            for (int t = 0; t < times; t++)
            {
                Orthonormalise();
                for (int c = 0; c < _x.Length; c++)
                {
                    _system.SetColumn(c, i => _scale[i] * _x[c][i]);
                }

                _system.Solve();
                for (int c = 0; c < _x.Length; c++)
                {
                    _x[c] = Column(c);
                }
            }

            Orthonormalise();
            return true;
        }

        public ImmutableArray<FreeMotion> NullVectors(double below)
        {
            // K·x is what the members return at the nodes when x is imposed.
            double[][] kx = [.. _x.Select(_system.ForceToHold)];
            int m = _x.Length;
            double[,] ritz = new double[m, m];
            for (int i = 0; i < m; i++)
            {
                for (int j = 0; j < m; j++)
                {
                    ritz[i, j] = (Dot(_x[i], kx[j]) + Dot(_x[j], kx[i])) / 2;
                }
            }

            (double[] values, double[,] vectors) = SymmetricEigen.Solve(ritz);
            ImmutableArray<FreeMotion>.Builder found = ImmutableArray.CreateBuilder<FreeMotion>();
            for (int v = 0; v < m; v++)
            {
                if (values[v] < below)
                {
                    double[] mode = new double[_free.Length];
                    for (int c = 0; c < m; c++)
                    {
                        for (int i = 0; i < mode.Length; i++)
                        {
                            mode[i] += vectors[c, v] * _x[c][i];
                        }
                    }

                    found.Add(Motions(mode));
                }
            }

            return found.ToImmutable();
        }

        // A fixed pseudo-random start: the answer must not vary from run to run.
        private double[] Start(int column, int n)
        {
            double[] x = new double[n];
            ulong state = 0x9E3779B97F4A7C15UL * (ulong)(column + 1);
            for (int i = 0; i < n; i++)
            {
                state = (state * 6364136223846793005UL) + 1442695040888963407UL;
                x[i] = _free[i] ? ((state >> 11) / (double)(1UL << 53)) - 0.5 : 0;
            }

            return x;
        }

        private void Orthonormalise()
        {
            for (int c = 0; c < _x.Length; c++)
            {
                for (int pass = 0; pass < 2; pass++)
                {
                    for (int d = 0; d < c; d++)
                    {
                        double overlap = Scaled(_x[c], _x[d]);
                        for (int i = 0; i < _x[c].Length; i++)
                        {
                            _x[c][i] -= overlap * _x[d][i];
                        }
                    }

                    double norm = 1 / Math.Sqrt(Scaled(_x[c], _x[c]));
                    for (int i = 0; i < _x[c].Length; i++)
                    {
                        _x[c][i] *= norm;
                    }
                }
            }
        }

        private double Scaled(double[] a, double[] b)
        {
            double sum = 0;
            for (int i = 0; i < a.Length; i++)
            {
                sum += _scale[i] * a[i] * b[i];
            }

            return sum;
        }

        private double[] Column(int c)
        {
            double[] x = new double[_free.Length];
            for (int node = 0; node < _system.Topology.NodeCount; node++)
            {
                Motion m = _system.MotionOf(node, c);
                (x[6 * node], x[(6 * node) + 1], x[(6 * node) + 2]) = (m.TranslationMm.X, m.TranslationMm.Y, m.TranslationMm.Z);
                (x[(6 * node) + 3], x[(6 * node) + 4], x[(6 * node) + 5]) = (m.RotationRad.X, m.RotationRad.Y, m.RotationRad.Z);
            }

            return x;
        }

        private static FreeMotion Motions(double[] x) => new([.. x.Chunk(6).Select(v =>
            new Motion(new(v[0], v[1], v[2]), new(v[3], v[4], v[5])))]);

        private static double Dot(double[] a, double[] b) => a.Zip(b, (p, q) => p * q).Sum();
    }
}
