using System.Globalization;
using BenchmarkDotNet.Reports;

namespace Halfpin.Benchmarks;

/// <summary>What the times of one run mean against each other and against the targets.</summary>
internal static class Ratios
{
    public static void Print(IEnumerable<Summary> summaries)
    {
        Dictionary<string, double> us = summaries.SelectMany(s => s.Reports).Where(r => r.ResultStatistics is not null)
            .GroupBy(r => r.BenchmarkCase.Descriptor.WorkloadMethod.Name)
            .ToDictionary(g => g.Key, g => g.First().ResultStatistics!.Mean / 1000);
        Target(us, nameof(SolverBenchmarks.Halfpin), "construct A, assembly and four loads", 25);
        Target(us, nameof(FrameBenchmarks.FourPinsOneRod), "four pins, one rod, from parts to demand", 40);
        Target(us, nameof(FrameBenchmarks.TwoPlaneWithTwoLinks), "V of eight pins with two links, from parts to demand", 100);
        Target(us, nameof(BatchBenchmarks.OneThread), "a standoff of construct A in a batch of 1000", 8);
        Target(us, nameof(PathBenchmarks.ContactOf24Points), "contact of 24 points", 20);
        Ratio(us, nameof(FrameBenchmarks.FourPinsOneRodRated), nameof(FrameBenchmarks.FourPinsOneRod), "a frame of four pins rated for a search, against its single solution (target 2), takes");
        Ratio(us, nameof(FrameBenchmarks.TwoPlaneWithTwoLinksRated), nameof(FrameBenchmarks.TwoPlaneWithTwoLinks), "a V of eight pins with two links rated for a search, against its single solution (target 2), takes");
        Ratio(us, nameof(PathBenchmarks.OverloadPath), nameof(PathBenchmarks.LinearSolve), "an overload path of four clamps and 24 contacts, up and back, against one linear solution (target 30), takes");
        Ratio(us, nameof(SolverBenchmarks.DenseCholeskyByMathNet), nameof(SolverBenchmarks.Halfpin), "a dense Cholesky of the same matrix by MathNet takes");
        Ratio(us, nameof(SolverBenchmarks.CalculixAsProcess), nameof(SolverBenchmarks.Halfpin), "CalculiX as a process takes");
        Ratio(us, nameof(BatchBenchmarks.OneThread), nameof(BatchBenchmarks.TwoThreads), "the batch on one thread, against two, takes");
        Ratio(us, nameof(LaneBenchmarks.Singly), nameof(LaneBenchmarks.InLanes), "factor and twelve unit cases of eight variants one after another, against all in vector lanes, take");
        Ratio(us, nameof(LaneBenchmarks.Singly), nameof(LaneBenchmarks.GatheredIntoLanes), "the same against lanes into which the matrices are first gathered take");
        Ratio(us, nameof(PeakBenchmarks.OnOneThread), nameof(PeakBenchmarks.OnTwoThreads), "for comparison, pure multiply-adds on one thread, against two, take");
        if (us.TryGetValue(nameof(PeakBenchmarks.OnOneThread), out double peak) && us.TryGetValue(nameof(BatchBenchmarks.OneThread), out double one))
        {
            ConstructA a = new();
            double ours = a.System.FactorisationOperations / one, most = PeakBenchmarks.Operations / peak;
            Line($"operations: {a.System.FactorisationOperations} in the factorisation of {a.System.Unknowns} unknowns; counted over the whole batch step {ours / 1000:0.0} of {most / 1000:0.0} Gflop/s, {100 * ours / most:0.0} % of this core's measured peak");
        }
    }

    private static void Target(Dictionary<string, double> us, string name, string what, double targetUs)
    {
        if (us.TryGetValue(name, out double t))
        {
            Line($"{what}: {t:0.00} µs, target {targetUs} µs, {(t <= targetUs ? "met" : "MISSED")}");
        }
    }

    private static void Ratio(Dictionary<string, double> us, string slow, string fast, string what)
    {
        if (us.TryGetValue(slow, out double s) && us.TryGetValue(fast, out double f))
        {
            Line($"{what} {s / f:0.0} times as long ({s:0.0} against {f:0.00} µs)");
        }
    }

    private static void Line(FormattableString text) => Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));
}
