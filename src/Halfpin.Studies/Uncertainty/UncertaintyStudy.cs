using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability;
using Halfpin.Stability.Checks;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Inputs;
using Halfpin.Studies.Sampling;

namespace Halfpin.Studies.Uncertainty;

/// <summary>
/// A study of uncertainty under way: works out batch after batch and gathers them. What it has worked out can be kept as bytes and taken in
/// again later, so that a study that was stopped goes on where it was. A workspace.
/// </summary>
public sealed class UncertaintyStudy
{
    // Base points of a batch: some tenths of a second of work, so that a study stops soon when asked to.
    private const int PointsPerBatch = 64;

    private readonly BatchRunner _runner;
    private readonly UncertaintyTally _tally;
    private readonly double? _untilPercent;
    private readonly long _asked;

    /// <summary>A study.</summary>
    /// <param name="study">What it is.</param>
    /// <param name="samples">The most evaluations that were asked for.</param>
    /// <param name="untilPercent">Stop when the bands are this tight; null to make all evaluations.</param>
    /// <param name="threads">Threads to work on; the result does not depend on it.</param>
    public UncertaintyStudy(Study study, long samples, double? untilPercent, int threads)
    {
        (Study, _asked, _untilPercent) = (study, samples, untilPercent);
        Format = new(StudyOutput.Of(study.Case), CheckNames.All);
        Rows = new(study);
        _runner = new(study, threads);
        _tally = new(study, Format);
    }

    /// <summary>What is studied.</summary>
    public Study Study { get; }

    /// <summary>How rows are kept.</summary>
    public RowFormat Format { get; }

    /// <summary>What each row asks for.</summary>
    public StudyRows Rows { get; }

    /// <summary>Rows worked out so far.</summary>
    public long Done => _tally.Rows;

    /// <summary>True when the bands are as tight as asked.</summary>
    public bool IsConverged { get; private set; }

    /// <summary>True when nothing is left to work out.</summary>
    public bool IsFinished => IsConverged || Done == Rows.Count;

    /// <summary>The study of a frame with as many base points as fit into a number of evaluations; null when not even two fit.</summary>
    /// <param name="value">The valid case.</param>
    /// <param name="caseSha256">Hash of its file.</param>
    /// <param name="frame">Id of the frame.</param>
    /// <param name="against">Id of another; null for none.</param>
    /// <param name="samples">Evaluations, all counted.</param>
    /// <param name="seed">Seed.</param>
    public static Study? Plan(Case value, string caseSha256, string frame, string? against, long samples, ulong seed)
    {
        Study study = Empty(value, caseSha256, frame, against, seed);
        StudyRows rows = new(study);
        long points = (samples - rows.Frames) / rows.PerPoint;
        return points < 2 ? null : study with { BasePoints = points };
    }

    /// <summary>The fewest evaluations that a study needs.</summary>
    public static long LeastSamples(Case value, string frame, string? against)
    {
        StudyRows rows = new(Empty(value, "", frame, against, 0));
        return rows.Frames + (2 * rows.PerPoint);
    }

    /// <summary>Number of inputs of a study; more than <see cref="SaltelliDesign.MaxInputs"/> cannot be studied at once.</summary>
    public static int InputsOf(Case value, string frame, string? against) => Inputs(value, frame, against).Length;

    /// <summary>Works out the next batch.</summary>
    /// <returns>Its rows, to be kept.</returns>
    public byte[] Next()
    {
        long to = Math.Min(Rows.Count, Rows.Frames + ((_tally.BasePoints + PointsPerBatch) * Rows.PerPoint));
        byte[] rows = Format.Write(_runner.Run(new(Study, Done, (int)(to - Done))));
        Take(rows);
        return rows;
    }

    /// <summary>Takes the rows of a batch, as they were kept.</summary>
    public void Take(ReadOnlySpan<byte> rows)
    {
        _tally.Take(rows);

        // Looked at when the points have doubled: evenly spread, and the more looks, the more a lucky one counts.
        long points = _tally.BasePoints;
        IsConverged = _untilPercent is double percent && (long.IsPow2(points) || Done == Rows.Count) && _tally.Widest() is (double share, _) && 100 * share <= percent;
    }

    /// <summary>Why the first evaluation of a frame that ended so gave no result.</summary>
    internal string ReasonOf(bool against, FrameStatus status) =>
        _runner.Run(new(Study, _tally.FirstRowOf(against, status), 1))[0].Reason ?? "";

    /// <summary>The report on what was worked out so far.</summary>
    public UncertaintyReport Report(ProgramStamp program) => new UncertaintyReporter(this, _tally, _asked, _untilPercent).Report(program);

    private static Study Empty(Case value, string caseSha256, string frame, string? against, ulong seed) =>
        new() { CaseSha256 = caseSha256, Case = value, Frame = frame, Against = against, Inputs = Inputs(value, frame, against), Seed = seed };

    private static ImmutableArray<StudyInput> Inputs(Case value, string frame, string? against)
    {
        Assessor assessor = new(value);
        Parts Of(string id) => assessor.PartsOf(value.Frames.First(f => f.Id == id));
        return DefaultInputs.Of(value, against is null ? [Of(frame)] : [Of(frame), Of(against)]);
    }
}
