using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Halfpin.Studies.Sampling;

namespace Halfpin.Studies.Indices;

/// <summary>
/// Gathers an output over base points and estimates Sobol' indices: first-order by Saltelli et al. (2010), total by Jansen (1999), intervals by
/// bootstrap. Memory does not grow with the study. A workspace.
/// </summary>
/// <remarks>
/// With f(A), f(B) and f(ABᵢ), where ABᵢ is A with input i from B, and V the variance over A and B: Sᵢ = mean f(B)(f(ABᵢ) − f(A))/V and
/// Tᵢ = mean (f(A) − f(ABᵢ))²/2V (Saltelli et al., Comput. Phys. Commun. 181 (2010) 259, table 2; MEMORY hi). f is taken from its mean, which takes
/// noise off Sᵢ. Base points are gathered in at most <see cref="MaxBlocks"/> runs of equal length, which are what the bootstrap draws; up to that
/// many base points each is a run of its own.
/// </remarks>
public sealed class VarianceSums
{
    /// <summary>Most runs of base points.</summary>
    public const int MaxBlocks = 1024;

    private const int Head = 5;

    // A run's sums take up whole vectors.
    private const int Lanes = 8;

    private readonly int _inputs;
    private readonly int _width;
    private readonly long _perBlock;
    private readonly double[] _sums;

    /// <summary>Sums for a number of inputs.</summary>
    /// <param name="inputs">Number of inputs.</param>
    /// <param name="basePoints">Most base points to come.</param>
    public VarianceSums(int inputs, long basePoints)
    {
        _inputs = inputs;
        _width = (Head + (3 * inputs) + Lanes - 1) / Lanes * Lanes;
        _perBlock = Math.Max(1, (basePoints + MaxBlocks - 1) / MaxBlocks);
        _sums = new double[MaxBlocks * _width];
    }

    /// <summary>Base points whose rows all had a value.</summary>
    public long Count { get; private set; }

    // Subtracted from every value so that sums of squares keep their digits.
    private double Origin { get; set; } = double.NaN;

    /// <summary>Takes the rows of a base point; one with a value missing is left out.</summary>
    /// <param name="basePoint">Its number.</param>
    /// <param name="rows">Values of A, B, then of A with each input from B.</param>
    public void Add(long basePoint, ReadOnlySpan<double> rows)
    {
        foreach (double value in rows)
        {
            if (!double.IsFinite(value))
            {
                return;
            }
        }

        Origin = double.IsNaN(Origin) ? rows[0] : Origin;
        Count++;
        Span<double> s = _sums.AsSpan((int)(basePoint / _perBlock) * _width, _width);
        double a = rows[0] - Origin, b = rows[1] - Origin;
        s[0]++;
        s[1] += a;
        s[2] += b;
        s[3] += a * a;
        s[4] += b * b;
        for (int i = 0; i < _inputs; i++)
        {
            double difference = rows[2 + i] - Origin - a;
            s[Head + (3 * i)] += difference;
            s[Head + (3 * i) + 1] += b * difference;
            s[Head + (3 * i) + 2] += difference * difference;
        }
    }

    /// <summary>The indices of each input; null while there are fewer than two base points or the output does not vary.</summary>
    /// <param name="seed">Seed of the bootstrap.</param>
    /// <param name="replicates">Bootstrap samples.</param>
    public IndexEstimate[]? Estimate(ulong seed, int replicates = 400)
    {
        int[] filled = [.. Enumerable.Range(0, MaxBlocks).Where(b => _sums[b * _width] > 0)];
        double[] sums = new double[_width], first = new double[_inputs], total = new double[_inputs];
        foreach (int block in filled)
        {
            Accumulate(sums, block);
        }

        if (Count < 2 || !Indices(sums, first, total))
        {
            return null;
        }

        double[][] firsts = [.. Enumerable.Range(0, _inputs).Select(_ => new double[replicates])], totals = [.. firsts.Select(f => new double[f.Length])];
        double[] drawnFirst = new double[_inputs], drawnTotal = new double[_inputs];
        SplitMix random = new(seed, 0xB007);
        for (int r = 0; r < replicates; r++)
        {
            do
            {
                Array.Clear(sums);
                for (int k = 0; k < filled.Length; k++)
                {
                    Accumulate(sums, filled[random.Below(filled.Length)]);
                }
            }
            while (!Indices(sums, drawnFirst, drawnTotal) && filled.Length > 1);

            for (int i = 0; i < _inputs; i++)
            {
                (firsts[i][r], totals[i][r]) = (drawnFirst[i], drawnTotal[i]);
            }
        }

        return [.. Enumerable.Range(0, _inputs).Select(i =>
        {
            Array.Sort(firsts[i]);
            Array.Sort(totals[i]);
            return new IndexEstimate(
                first[i], Quantiles.OfSorted(firsts[i], 0.025), Quantiles.OfSorted(firsts[i], 0.975),
                total[i], Quantiles.OfSorted(totals[i], 0.025), Quantiles.OfSorted(totals[i], 0.975));
        })];
    }

    // The bootstrap's whole work, too short-lived to be compiled twice.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Accumulate(double[] sums, int block)
    {
        ReadOnlySpan<Vector512<double>> from = MemoryMarshal.Cast<double, Vector512<double>>(_sums.AsSpan(block * _width, _width));
        Span<Vector512<double>> to = MemoryMarshal.Cast<double, Vector512<double>>(sums.AsSpan());
        for (int i = 0; i < from.Length; i++)
        {
            to[i] += from[i];
        }
    }

    // False when the output does not vary.
    private bool Indices(double[] s, double[] first, double[] total)
    {
        double n = s[0], mean = (s[1] + s[2]) / (2 * n), variance = ((s[3] + s[4]) / (2 * n)) - (mean * mean);
        if (!(variance > 1e-14 * ((mean + Origin) * (mean + Origin))))
        {
            return false;
        }

        for (int i = 0; i < _inputs; i++)
        {
            double difference = s[Head + (3 * i)], product = s[Head + (3 * i) + 1], square = s[Head + (3 * i) + 2];
            first[i] = (product - (mean * difference)) / n / variance;
            total[i] = square / (2 * n) / variance;
        }

        return true;
    }
}
