using BenchmarkDotNet.Attributes;
using Halfpin.Mechanics.Contact;

namespace Halfpin.Benchmarks;

/// <summary>
/// An overload path of a frame with four clamps of four yielding components each and 24 contact points, up and back, against one linear
/// solution of the same frame; and the equilibrium of the 24 points by itself.
/// </summary>
[MemoryDiagnoser]
public class PathBenchmarks
{
    private readonly ClampedFrame _frame = new();

    /// <summary>Factor and twelve unit cases.</summary>
    [Benchmark(Baseline = true)]
    public double LinearSolve() => _frame.LinearSolve();

    /// <summary>Factor, 28 unit cases and every event up and back.</summary>
    [Benchmark]
    public double OverloadPath() => _frame.Path();

    /// <summary>Contact of 24 points under the whole load, without friction.</summary>
    [Benchmark]
    public ContactStatus ContactOf24Points() => _frame.Equilibrium.Solve(_frame.SiteStiffness, _frame.FreeMotion, null, [], 0);

    /// <summary>Says how much a path holds, once.</summary>
    [GlobalSetup]
    public void SetUp()
    {
        _frame.Path();
        Console.WriteLine($"// The path has {_frame.Events} events.");
    }
}
