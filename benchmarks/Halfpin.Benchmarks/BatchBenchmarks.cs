using BenchmarkDotNet.Attributes;

namespace Halfpin.Benchmarks;

/// <summary>Construct A at a thousand standoffs in one batch, four loads each, on one thread and on two halves of it.</summary>
[MemoryDiagnoser]
public class BatchBenchmarks
{
    private const int Variants = 1000;

    private readonly ConstructA[] _workers;
    private readonly double[] _results = new double[Variants];

    public BatchBenchmarks()
    {
        ConstructA first = new();
        _workers = [first, first.ForAnotherThread()];
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Variants)]
    public double OneThread()
    {
        Run(_workers[0], _results);
        return _results[^1];
    }

    [Benchmark(OperationsPerInvoke = Variants)]
    public double TwoThreads()
    {
        Task other = Task.Run(() => Run(_workers[1], _results.AsSpan(Variants / 2)));
        Run(_workers[0], _results.AsSpan(0, Variants / 2));
        other.Wait();
        return _results[^1];
    }

    private static void Run(ConstructA worker, Span<double> results)
    {
        for (int i = 0; i < results.Length; i++)
        {
            results[i] = worker.AtStandoff(30 + (0.04 * i));
        }
    }
}
