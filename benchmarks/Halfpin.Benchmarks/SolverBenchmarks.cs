using BenchmarkDotNet.Attributes;
using Halfpin.TestKit.CrossProgram;
using MathNet.Numerics.LinearAlgebra;

namespace Halfpin.Benchmarks;

/// <summary>Construct A with four loads: this solver, a general-purpose library on the same matrix, and a program run as a process.</summary>
[MemoryDiagnoser]
public class SolverBenchmarks
{
    private readonly ConstructA _frame = new();
    private readonly BeamDeck _deck = RawFrameDecks.ToDeck(SampleFrames.ConstructA());
    private Matrix<double> _stiffness = null!;
    private Matrix<double> _loads = null!;

    [GlobalSetup]
    public void SetUp() => (_stiffness, _loads) = _frame.Dense();

    /// <summary>From beams to motions, member wrenches and balance.</summary>
    [Benchmark(Baseline = true)]
    public double Halfpin() => _frame.FromBeams();

    /// <summary>Factorisation and four right-hand sides only: the matrix is given.</summary>
    [Benchmark]
    public Matrix<double> DenseCholeskyByMathNet() => _stiffness.Cholesky().Solve(_loads);

    /// <summary>The loads that lie in the frame's plane, by the program's beam element; with deck writing and reading.</summary>
    [Benchmark]
    public object? CalculixAsProcess() => Calculix.IsInstalled ? Calculix.SolvePlane(_deck.WithOnly("fz", "my"), PlaneMotion.Within) : null;
}
