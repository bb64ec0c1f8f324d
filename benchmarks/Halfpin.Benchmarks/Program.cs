using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Halfpin.Benchmarks;

// In this process: the tool's generated projects do not find build output that lies in one common folder.
IConfig config = DefaultConfig.Instance
    .AddJob(Job.Default.WithToolchain(InProcessEmitToolchain.Instance))
    .WithArtifactsPath(Path.Combine(AppContext.BaseDirectory, "results"));
Summary[] summaries = [.. BenchmarkSwitcher.FromTypes([typeof(SolverBenchmarks), typeof(FrameBenchmarks), typeof(BatchBenchmarks), typeof(LaneBenchmarks), typeof(PathBenchmarks), typeof(PeakBenchmarks)])
    .Run(args.Length == 0 ? ["--filter", "*"] : args, config)];
Ratios.Print(summaries);
