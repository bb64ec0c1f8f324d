using CsCheck;
using Halfpin.Studies.Indices;
using Halfpin.Studies.Sampling;
using Xunit;

namespace Halfpin.Studies.Tests;

public class SobolIndexTests
{
    // First points of Sobol's sequence in two dimensions (Joe and Kuo's public numbers; in every textbook): 0, ½ ½, ¾ ¼, ¼ ¾.
    [Fact]
    public void Sequence_plain_beginsAsPublished()
    {
        SobolSequence s = SobolSequence.Plain(2);
        (double, double)[] expected = [(0, 0), (0.5, 0.5), (0.75, 0.25), (0.25, 0.75)];

        Assert.All(Enumerable.Range(0, 4), i =>
        {
            Assert.Equal(expected[i].Item1, s.At(i, 0), 1e-6);
            Assert.Equal(expected[i].Item2, s.At(i, 1), 1e-6);
        });
    }

    // A (0, m, 1)-net in each dimension: of 2^m points one lies in each of 2^m equal intervals, scrambled or not.
    [Fact]
    public void Sequence_scrambled_hasOnePointInEachInterval() => Gen.Select(Gen.Int[0, 29], Gen.ULong[1, 1_000_000]).Sample((dimension, seed) =>
    {
        SobolSequence s = SobolSequence.Scrambled(30, seed);
        Assert.Equal(Enumerable.Range(0, 256), Enumerable.Range(0, 256).Select(i => (int)(256 * s.At(i, dimension))).Order());
    }, iter: 60);

    // Ishigami's function, a = 7, b = 0.1: V = a²/8 + bπ⁴/5 + b²π⁸/18 + ½; first-order 0.3139, 0.4424, 0; total 0.5576, 0.4424, 0.2437
    // (closed forms; printed in Saltelli et al., Global Sensitivity Analysis, The Primer, 2008, MEMORY).
    [Fact]
    public void Ishigami_indices_areThoseOfTheClosedForm()
    {
        IndexEstimate[] found = Indices(3, 1 << 13, 11, x => Math.Sin(x[0]) + (7 * Math.Pow(Math.Sin(x[1]), 2)) + (0.1 * Math.Pow(x[2], 4) * Math.Sin(x[0])), u => Math.PI * ((2 * u) - 1));

        Assert.Equal([0.3139, 0.4424, 0.0], found.Select(f => f.First), (double a, double b) => Math.Abs(a - b) < 0.015);
        Assert.Equal([0.5576, 0.4424, 0.2437], found.Select(f => f.Total), (double a, double b) => Math.Abs(a - b) < 0.015);
    }

    // Sobol's g-function with a = 0, 1, 4.5, 9: Vᵢ = 1/(3(1 + aᵢ)²), V = Π(1 + Vᵢ) − 1 (closed form; Saltelli and Sobol' 1995, MEMORY).
    [Fact]
    public void GFunction_indices_areThoseOfTheClosedForm()
    {
        double[] a = [0, 1, 4.5, 9];
        double[] partial = [.. a.Select(x => 1 / (3 * (1 + x) * (1 + x)))];
        double all = partial.Aggregate(1.0, (p, v) => p * (1 + v)), variance = all - 1;
        IndexEstimate[] found = Indices(4, 1 << 13, 23, x => x.Select((v, i) => (Math.Abs((4 * v) - 2) + a[i]) / (1 + a[i])).Aggregate(1.0, (p, v) => p * v), u => u);

        Assert.All(Enumerable.Range(0, 4), i =>
        {
            Assert.Equal(partial[i] / variance, found[i].First, 0.015);
            Assert.Equal(partial[i] * (all / (1 + partial[i])) / variance, found[i].Total, 0.015);
        });
    }

    // The bootstrap's interval holds the known index: nine in ten intervals of 95 % should, over seeds, at the least.
    [Fact]
    public void Intervals_overSeeds_holdTheKnownIndex()
    {
        int held = Enumerable.Range(1, 40).Count(seed =>
        {
            IndexEstimate first = Indices(2, 512, (ulong)seed, x => (3 * x[0]) + x[1], u => u)[0];
            return first.TotalLow <= 0.9 && first.TotalHigh >= 0.9;
        });

        Assert.True(held >= 36, $"{held} of 40");
    }

    private static IndexEstimate[] Indices(int inputs, int points, ulong seed, Func<double[], double> f, Func<double, double> map)
    {
        SaltelliDesign design = new(inputs, seed);
        VarianceSums sums = new(inputs, points);
        for (int p = 0; p < points; p++)
        {
            double[] rows = [.. Enumerable.Range(0, design.RowsPerPoint).Select(role => f([.. Enumerable.Range(0, inputs).Select(i => map(design.At(p, role, i)))]))];
            sums.Add(p, rows);
        }

        return sums.Estimate(seed)!;
    }
}
