using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Stocks;
using Halfpin.Search;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Uncertainty;
using Halfpin.Studies.Varying;

namespace Halfpin.Workbench.Jobs;

/// <summary>The program's long work on a valid case as jobs: the same services and reports as the command line.</summary>
/// <param name="list">Where they are begun.</param>
/// <param name="program">The program's stamp.</param>
public sealed class LongWork(JobList list, ProgramStamp program)
{
    /// <summary>Kind of a search for the simplest frame.</summary>
    public const string Search = "search";

    /// <summary>Kind of a study of many variants.</summary>
    public const string Study = "study";

    // People at the screen come first; no answer depends on the number.
    private static readonly int _threads = Math.Max(1, Environment.ProcessorCount / 2);

    /// <summary>Begins a search; null while as many jobs run as may.</summary>
    /// <param name="value">The case.</param>
    /// <param name="caseSha256">Hash of its file.</param>
    /// <param name="stock">The stock that frames must be built from; null for any.</param>
    public Job? Suggest(Case value, string caseSha256, Stock? stock)
    {
        Suggester suggester = new(value, stock);
        return list.Begin(Search, suggester.Candidates, (progress, stop) =>
            suggester.Suggest(program, caseSha256, _threads, done => progress.Tell(done, suggester.Candidates), stop: stop));
    }

    /// <summary>Begins a study of one frame under uncertain inputs; null while as many jobs run as may.</summary>
    /// <param name="plan">What is studied.</param>
    /// <param name="samples">The most evaluations.</param>
    /// <param name="untilPercent">Stop when the bands are this tight; null to make all evaluations.</param>
    public Job? Uncertainty(Study plan, long samples, double? untilPercent) => list.Begin(Study, samples, (progress, stop) =>
    {
        UncertaintyStudy study = new(plan, samples, untilPercent, _threads);
        while (!study.IsFinished)
        {
            stop.ThrowIfCancellationRequested();
            _ = study.Next();
            progress.Tell(study.Done, study.Rows.Count);
        }

        return study.Report(program);
    });

    /// <summary>Begins a run of one frame through one or two ranges; null while as many jobs run as may.</summary>
    /// <param name="value">The case.</param>
    /// <param name="caseSha256">Hash of its file.</param>
    /// <param name="frameId">A frame of it.</param>
    /// <param name="ranges">The ranges.</param>
    public Job? Vary(Case value, string caseSha256, string frameId, ImmutableArray<VariedRange> ranges) =>
        list.Begin(Study, ranges.Aggregate(1L, (n, r) => n * r.Values.Length), (progress, stop) =>
            new VariationAssessor(value).Assess(frameId, ranges, _threads, program, caseSha256, progress.Tell, stop));
}
