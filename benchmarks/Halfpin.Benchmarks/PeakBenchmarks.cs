using System.Runtime.Intrinsics;
using BenchmarkDotNet.Attributes;

namespace Halfpin.Benchmarks;

/// <summary>The machine's peak in fused multiply-adds of doubles, for the share that the solver reaches.</summary>
public class PeakBenchmarks
{
    /// <summary>Multiplications and additions of one call.</summary>
    public const int Operations = 1000 * 16 * 2 * 8;

    private const int Repeats = 1000;

    /// <summary>One thread.</summary>
    [Benchmark(OperationsPerInvoke = Repeats)]
    public double OnOneThread() => Repeat(Repeats);

    /// <summary>The same amount of work on two threads, half each: what the machine's second processor is worth in pure arithmetic.</summary>
    [Benchmark(OperationsPerInvoke = Repeats)]
    public double OnTwoThreads()
    {
        Task<double> other = Task.Run(() => Repeat(Repeats / 2));
        return Repeat(Repeats / 2) + other.Result;
    }

    private static double Repeat(int times)
    {
        double sum = 0;
        for (int i = 0; i < times; i++)
        {
            sum += Chains();
        }

        return sum;
    }

    // Sixteen independent chains of eight-wide fused multiply-adds.
    private static double Chains()
    {
        Vector512<double> s = Vector512.Create(0.999999), t = Vector512.Create(1e-9);
        Vector512<double> a0 = s, a1 = t, a2 = s, a3 = t, a4 = s, a5 = t, a6 = s, a7 = t, b0 = s, b1 = t, b2 = s, b3 = t, b4 = s, b5 = t, b6 = s, b7 = t;
        for (int i = 0; i < 1000; i++)
        {
            a0 = Vector512.FusedMultiplyAdd(a0, s, t);
            a1 = Vector512.FusedMultiplyAdd(a1, s, t);
            a2 = Vector512.FusedMultiplyAdd(a2, s, t);
            a3 = Vector512.FusedMultiplyAdd(a3, s, t);
            a4 = Vector512.FusedMultiplyAdd(a4, s, t);
            a5 = Vector512.FusedMultiplyAdd(a5, s, t);
            a6 = Vector512.FusedMultiplyAdd(a6, s, t);
            a7 = Vector512.FusedMultiplyAdd(a7, s, t);
            b0 = Vector512.FusedMultiplyAdd(b0, s, t);
            b1 = Vector512.FusedMultiplyAdd(b1, s, t);
            b2 = Vector512.FusedMultiplyAdd(b2, s, t);
            b3 = Vector512.FusedMultiplyAdd(b3, s, t);
            b4 = Vector512.FusedMultiplyAdd(b4, s, t);
            b5 = Vector512.FusedMultiplyAdd(b5, s, t);
            b6 = Vector512.FusedMultiplyAdd(b6, s, t);
            b7 = Vector512.FusedMultiplyAdd(b7, s, t);
        }

        return Vector512.Sum(a0 + a1 + a2 + a3 + a4 + a5 + a6 + a7 + b0 + b1 + b2 + b3 + b4 + b5 + b6 + b7);
    }
}
