using System.Collections.Immutable;
using Halfpin.Stability.Variants;
using Halfpin.Studies.Inputs;

namespace Halfpin.Studies.Engine;

/// <summary>Works out batches of a study on some threads. Rows are independent of each other and of the thread that makes them, so their results are the same on any number. A workspace that keeps an analysis for each thread.</summary>
public sealed class BatchRunner
{
    // Neighbours differ in few inputs, of which an assessor makes use; few enough that threads end together.
    private const int RowsAtOnce = 10;

    private readonly Study _study;
    private readonly StudyRows _rows;
    private readonly FrameWorker[][] _workers;

    /// <summary>A runner for a study.</summary>
    public BatchRunner(Study study, int threads)
    {
        _study = study;
        _rows = new(study);
        ImmutableArray<string> names = [.. study.Inputs.Select(i => i.Name)];
        string[] frames = study.Against is string against ? [study.Frame, against] : [study.Frame];
        VariantBuilder[] builders = [.. frames.Select(f => new VariantBuilder(study.Case, f, names))];
        _workers = [.. Enumerable.Range(0, threads).Select(_ => builders.Select(b => new FrameWorker(b)).ToArray())];
    }

    /// <summary>The results of a batch, in the order of its rows.</summary>
    public VariantResult[] Run(StudyBatch batch)
    {
        VariantResult[] results = new VariantResult[batch.Count];
        int next = 0;
        Parallel.For(0, _workers.Length, new() { MaxDegreeOfParallelism = _workers.Length }, worker =>
        {
            double[] values = new double[_study.Inputs.Length];
            for (int from = Interlocked.Add(ref next, RowsAtOnce) - RowsAtOnce; from < batch.Count; from = Interlocked.Add(ref next, RowsAtOnce) - RowsAtOnce)
            {
                for (int i = from; i < Math.Min(from + RowsAtOnce, batch.Count); i++)
                {
                    results[i] = Assess(batch.From + i, values, _workers[worker]);
                }
            }
        });
        return results;
    }

    private VariantResult Assess(long row, double[] values, FrameWorker[] workers)
    {
        _rows.Values(row, values);
        return workers[_rows.PlaceOf(row).IsAgainst ? 1 : 0].Assess(values);
    }
}
