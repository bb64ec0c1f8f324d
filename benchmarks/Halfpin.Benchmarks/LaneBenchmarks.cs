using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using BenchmarkDotNet.Attributes;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Benchmarks;

/// <summary>
/// A trial: factorisation and twelve unit cases of eight variants of construct A, one after another by the kernels of the solver, in which a row of a
/// block is a vector, and all at once with a variant in each lane of a vector. Assembly, wrenches and balance are not in it.
/// </summary>
[MemoryDiagnoser]
public class LaneBenchmarks
{
    private const int Lanes = 8, Columns = 12, Panels = 2, Entries = 36;

    private readonly EliminationPlan _plan = new(new ConstructA().Topology);
    private readonly VectorBuffer[] _assembled = new VectorBuffer[Lanes];
    private readonly VectorBuffer _blocks, _laneBlocks, _laneAssembled;
    private readonly VectorBuffer _panels, _lanePanels;
    private readonly double[] _diagonal;
    private readonly double[] _solutions = new double[Lanes];

    public LaneBenchmarks()
    {
        (_blocks, _panels) = (new(_plan.BlockCount * BlockKernels.BlockSize), new(Panels * _plan.Positions * BlockKernels.BlockSize));
        (_laneBlocks, _laneAssembled, _lanePanels) = (new(_plan.BlockCount * Entries * Lanes), new(_plan.BlockCount * Entries * Lanes), new(_plan.Positions * 6 * Columns * Lanes));
        _diagonal = new double[_plan.Positions * 6];
        for (int v = 0; v < Lanes; v++)
        {
            _assembled[v] = Assembled(v);
        }

        // Both ways must find the same motions.
        double[] singly = [.. Singly()], inLanes = [.. InLanes()];
        if (!singly.Zip(inLanes).All(p => Math.Abs(p.First - p.Second) <= 1e-9 * Math.Abs(p.First)))
        {
            throw new InvalidOperationException("Lanes and single solutions differ.");
        }
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Lanes)]
    public double[] Singly()
    {
        for (int v = 0; v < Lanes; v++)
        {
            _assembled[v].Span.CopyTo(_blocks.Span);
            Unload(_panels, c => (c / 8 * _plan.Positions * BlockKernels.BlockSize) + (c % 8), BlockKernels.BlockSize, BlockKernels.Stride, 1);
            FactoriseOne();
            SolveOne();
            _solutions[v] = _panels[0];
        }

        return _solutions;
    }

    /// <summary>With the eight matrices written into lanes, which an assembly in lanes would spare.</summary>
    [Benchmark(OperationsPerInvoke = Lanes)]
    public double[] GatheredIntoLanes()
    {
        Gather();
        return InLanes();
    }

    [Benchmark(OperationsPerInvoke = Lanes)]
    public double[] InLanes()
    {
        if (_laneAssembled[0] == 0)
        {
            Gather();
        }

        _laneAssembled.Span.CopyTo(_laneBlocks.Span);
        Unload(_lanePanels, c => c * Lanes, 6 * Columns * Lanes, Columns * Lanes, Lanes);
        FactoriseLanes();
        SolveLanes();
        _lanePanels.Span[..Lanes].CopyTo(_solutions);
        return _solutions;
    }

    // A positive definite matrix with the pattern of construct A, another for each variant.
    private VectorBuffer Assembled(int variant)
    {
        Random random = new(variant);
        VectorBuffer blocks = new(_plan.BlockCount * BlockKernels.BlockSize);
        for (int b = 0; b < _plan.BlockCount; b++)
        {
            for (int i = 0; i < 6; i++)
            {
                for (int j = 0; j < 6; j++)
                {
                    blocks[(b * BlockKernels.BlockSize) + (i * BlockKernels.Stride) + j] = b >= _plan.Positions ? random.NextDouble() : i == j ? 60 + random.NextDouble() : (i + j) / 10.0;
                }
            }
        }

        return blocks;
    }

    // A unit load on each of the first two nodes' freedoms.
    private static void Unload(VectorBuffer panels, Func<int, int> column, int node, int row, int repeats)
    {
        panels.Span.Clear();
        for (int c = 0; c < Columns; c++)
        {
            panels.Span.Slice(column(c) + (c / 6 * node) + (c % 6 * row), repeats).Fill(1);
        }
    }

    private void Gather()
    {
        for (int b = 0; b < _plan.BlockCount; b++)
        {
            for (int e = 0; e < Entries; e++)
            {
                for (int v = 0; v < Lanes; v++)
                {
                    _laneAssembled[(((b * Entries) + e) * Lanes) + v] = _assembled[v][(b * BlockKernels.BlockSize) + (e / 6 * BlockKernels.Stride) + (e % 6)];
                }
            }
        }
    }

    private void FactoriseOne()
    {
        ref double blocks = ref _blocks.Origin;
        ref double diagonal = ref MemoryMarshal.GetArrayDataReference(_diagonal);
        int next = 0;
        for (int k = 0; k < _plan.Positions; k++)
        {
            ref double d = ref Unsafe.Add(ref blocks, k * BlockKernels.BlockSize);
            BlockKernels.Factorise(ref d, ref Unsafe.Add(ref diagonal, k * 6), 0);
            for (int i = _plan.RowStart[k]; i < _plan.RowStart[k + 1]; i++)
            {
                BlockKernels.SolveTransposed(ref d, ref Unsafe.Add(ref blocks, _plan.OffBlock[i] * BlockKernels.BlockSize));
            }

            for (int i = _plan.RowStart[k]; i < _plan.RowStart[k + 1]; i++)
            {
                for (int j = i; j < _plan.RowStart[k + 1]; j++)
                {
                    BlockKernels.SubtractTransposedProduct(
                        ref Unsafe.Add(ref blocks, _plan.UpdateTarget[next++] * BlockKernels.BlockSize),
                        ref Unsafe.Add(ref blocks, _plan.OffBlock[i] * BlockKernels.BlockSize), ref Unsafe.Add(ref blocks, _plan.OffBlock[j] * BlockKernels.BlockSize));
                }
            }
        }
    }

    private void SolveOne()
    {
        ref double blocks = ref _blocks.Origin;
        for (int p = 0; p < Panels; p++)
        {
            ref double panel = ref Unsafe.Add(ref _panels.Origin, p * _plan.Positions * BlockKernels.BlockSize);
            for (int k = 0; k < _plan.Positions; k++)
            {
                ref double own = ref Unsafe.Add(ref panel, k * BlockKernels.BlockSize);
                BlockKernels.SolveTransposed(ref Unsafe.Add(ref blocks, k * BlockKernels.BlockSize), ref own);
                for (int i = _plan.RowStart[k]; i < _plan.RowStart[k + 1]; i++)
                {
                    BlockKernels.SubtractTransposedProduct(
                        ref Unsafe.Add(ref panel, _plan.Column[i] * BlockKernels.BlockSize), ref Unsafe.Add(ref blocks, _plan.OffBlock[i] * BlockKernels.BlockSize), ref own);
                }
            }

            for (int k = _plan.Positions - 1; k >= 0; k--)
            {
                ref double own = ref Unsafe.Add(ref panel, k * BlockKernels.BlockSize);
                for (int i = _plan.RowStart[k]; i < _plan.RowStart[k + 1]; i++)
                {
                    BlockKernels.SubtractProduct(ref own, ref Unsafe.Add(ref blocks, _plan.OffBlock[i] * BlockKernels.BlockSize), ref Unsafe.Add(ref panel, _plan.Column[i] * BlockKernels.BlockSize));
                }

                BlockKernels.SolveUpper(ref Unsafe.Add(ref blocks, k * BlockKernels.BlockSize), ref own);
            }
        }
    }

    private void FactoriseLanes()
    {
        Span<Vector512<double>> all = MemoryMarshal.Cast<double, Vector512<double>>(_laneBlocks.Span);
        int next = 0;
        for (int k = 0; k < _plan.Positions; k++)
        {
            Span<Vector512<double>> d = all.Slice(k * Entries, Entries);
            for (int j = 0; j < 6; j++)
            {
                Vector512<double> inverse = Vector512<double>.One / Vector512.Sqrt(d[(j * 6) + j]);
                for (int c = j + 1; c < 6; c++)
                {
                    d[(j * 6) + c] *= inverse;
                }

                for (int i = j + 1; i < 6; i++)
                {
                    Vector512<double> s = -d[(j * 6) + i];
                    for (int c = i; c < 6; c++)
                    {
                        d[(i * 6) + c] = Vector512.FusedMultiplyAdd(s, d[(j * 6) + c], d[(i * 6) + c]);
                    }
                }

                d[(j * 6) + j] = inverse;
            }

            for (int i = _plan.RowStart[k]; i < _plan.RowStart[k + 1]; i++)
            {
                SolveTransposed(d, all.Slice(_plan.OffBlock[i] * Entries, Entries), 6);
            }

            for (int i = _plan.RowStart[k]; i < _plan.RowStart[k + 1]; i++)
            {
                for (int j = i; j < _plan.RowStart[k + 1]; j++)
                {
                    SubtractTransposedProduct(all.Slice(_plan.UpdateTarget[next++] * Entries, Entries), all.Slice(_plan.OffBlock[i] * Entries, Entries), all.Slice(_plan.OffBlock[j] * Entries, Entries), 6);
                }
            }
        }
    }

    private void SolveLanes()
    {
        const int Panel = 6 * Columns;
        Span<Vector512<double>> all = MemoryMarshal.Cast<double, Vector512<double>>(_laneBlocks.Span), x = MemoryMarshal.Cast<double, Vector512<double>>(_lanePanels.Span);
        for (int k = 0; k < _plan.Positions; k++)
        {
            SolveTransposed(all.Slice(k * Entries, Entries), x.Slice(k * Panel, Panel), Columns);
            for (int i = _plan.RowStart[k]; i < _plan.RowStart[k + 1]; i++)
            {
                SubtractTransposedProduct(x.Slice(_plan.Column[i] * Panel, Panel), all.Slice(_plan.OffBlock[i] * Entries, Entries), x.Slice(k * Panel, Panel), Columns);
            }
        }

        for (int k = _plan.Positions - 1; k >= 0; k--)
        {
            Span<Vector512<double>> own = x.Slice(k * Panel, Panel), u = all.Slice(k * Entries, Entries);
            for (int i = _plan.RowStart[k]; i < _plan.RowStart[k + 1]; i++)
            {
                SubtractProduct(own, all.Slice(_plan.OffBlock[i] * Entries, Entries), x.Slice(_plan.Column[i] * Panel, Panel));
            }

            for (int c = 0; c < Columns; c++)
            {
                for (int r = 5; r >= 0; r--)
                {
                    Vector512<double> sum = own[(r * Columns) + c];
                    for (int s = r + 1; s < 6; s++)
                    {
                        sum = Vector512.FusedMultiplyAdd(-u[(r * 6) + s], own[(s * Columns) + c], sum);
                    }

                    own[(r * Columns) + c] = sum * u[(r * 6) + r];
                }
            }
        }
    }

    // B ← U⁻ᵀB.
    private static void SolveTransposed(ReadOnlySpan<Vector512<double>> u, Span<Vector512<double>> b, int columns)
    {
        for (int c = 0; c < columns; c++)
        {
            for (int r = 0; r < 6; r++)
            {
                Vector512<double> sum = b[(r * columns) + c];
                for (int s = 0; s < r; s++)
                {
                    sum = Vector512.FusedMultiplyAdd(-u[(s * 6) + r], b[(s * columns) + c], sum);
                }

                b[(r * columns) + c] = sum * u[(r * 6) + r];
            }
        }
    }

    // C ← C − WᵀV.
    private static void SubtractTransposedProduct(Span<Vector512<double>> c, ReadOnlySpan<Vector512<double>> w, ReadOnlySpan<Vector512<double>> v, int columns)
    {
        for (int r = 0; r < 6; r++)
        {
            Vector512<double> w0 = -w[r], w1 = -w[6 + r], w2 = -w[12 + r], w3 = -w[18 + r], w4 = -w[24 + r], w5 = -w[30 + r];
            for (int i = 0; i < columns; i++)
            {
                Vector512<double> even = Vector512.FusedMultiplyAdd(w0, v[i], c[(r * columns) + i]), odd = w1 * v[columns + i];
                even = Vector512.FusedMultiplyAdd(w2, v[(2 * columns) + i], even);
                odd = Vector512.FusedMultiplyAdd(w3, v[(3 * columns) + i], odd);
                c[(r * columns) + i] = Vector512.FusedMultiplyAdd(w4, v[(4 * columns) + i], even) + Vector512.FusedMultiplyAdd(w5, v[(5 * columns) + i], odd);
            }
        }
    }

    // C ← C − WV.
    private static void SubtractProduct(Span<Vector512<double>> c, ReadOnlySpan<Vector512<double>> w, ReadOnlySpan<Vector512<double>> v)
    {
        for (int r = 0; r < 6; r++)
        {
            Vector512<double> w0 = -w[6 * r], w1 = -w[(6 * r) + 1], w2 = -w[(6 * r) + 2], w3 = -w[(6 * r) + 3], w4 = -w[(6 * r) + 4], w5 = -w[(6 * r) + 5];
            for (int i = 0; i < Columns; i++)
            {
                Vector512<double> even = Vector512.FusedMultiplyAdd(w0, v[i], c[(r * Columns) + i]), odd = w1 * v[Columns + i];
                even = Vector512.FusedMultiplyAdd(w2, v[(2 * Columns) + i], even);
                odd = Vector512.FusedMultiplyAdd(w3, v[(3 * Columns) + i], odd);
                c[(r * Columns) + i] = Vector512.FusedMultiplyAdd(w4, v[(4 * Columns) + i], even) + Vector512.FusedMultiplyAdd(w5, v[(5 * Columns) + i], odd);
            }
        }
    }
}
