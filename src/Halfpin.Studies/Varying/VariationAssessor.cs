using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Variants;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Inputs;

namespace Halfpin.Studies.Varying;

/// <summary>Takes one frame through the values of one or two of its numbers.</summary>
public sealed class VariationAssessor(Case value)
{
    /// <summary>Most rows.</summary>
    public const int MaxRows = 100_000;

    private const int RowsPerBatch = 256;

    /// <summary>The report.</summary>
    /// <param name="frameId">A frame of the case.</param>
    /// <param name="ranges">One or two ranges, of at most <see cref="MaxRows"/> rows together.</param>
    /// <param name="threads">Threads to work on.</param>
    /// <param name="program">The program's stamp.</param>
    /// <param name="caseSha256">Hash of the case file.</param>
    /// <param name="progress">Is told how many rows are done, of how many.</param>
    /// <param name="stop">Stops between batches.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public VariationReport Assess(
        string frameId, ImmutableArray<VariedRange> ranges, int threads, ProgramStamp program, string caseSha256, Action<long, long> progress, CancellationToken stop)
    {
        Study study = new()
        {
            CaseSha256 = caseSha256,
            Case = value,
            Frame = frameId,
            Inputs = [.. ranges.Select(r => new StudyInput(r.Number.Pointer, r.Number.Of(value), new() { Input = r.Number.Pointer, Distribution = Spread.Uniform, Low = r.Values[0], High = r.Values[^1] }, "Asked for", "GIVEN"))],
            Grid = [.. ranges.Select(r => r.Values)],
        };
        (StudyRows places, BatchRunner runner) = (new(study), new(study, threads));
        List<VariationRow> rows = [];
        while (rows.Count < places.Count)
        {
            stop.ThrowIfCancellationRequested();
            foreach (VariantResult result in runner.Run(new(study, rows.Count, (int)Math.Min(RowsPerBatch, places.Count - rows.Count))))
            {
                double[] values = new double[ranges.Length];
                places.Values(rows.Count, values);
                rows.Add(Row(ranges, values, result, Before(rows, rows.Count, ranges[^1].Values.Length) is int before ? rows[before] : null));
            }

            progress(rows.Count, places.Count);
        }

        string last = ranges[^1].Name;
        return new()
        {
            Program = program,
            CaseSha256 = caseSha256,
            CaseTitle = value.Title,
            SafetyNote = Safety.Note,
            Frame = frameId,
            Name = value.Frames.First(f => f.Id == frameId).DisplayName,
            Over = [.. ranges.Select(r => new VariedNumber(r.Name, r.Number.Pointer, r.Values[0], r.Values[^1], r.Number.Of(value)))],
            Rows = [.. rows],
            Changes = [.. Changes(rows, last, ranges[^1].Values.Length)],
            Assumptions =
            [
                "All else stays as the case has it, uncertain inputs at their defaults; verdicts are without the bands these put about a single assessment.",
                "A verdict changes somewhere between the two values named.",
                .. value.Fractures.Length > 1 ? (string[])["Fractures are counted from proximal; in tables * marks the one that fares worst: least stiffness, most motion."] : [],
            ],
        };
    }

    private static VariationRow Row(ImmutableArray<VariedRange> ranges, double[] values, VariantResult result, VariationRow? before)
    {
        ImmutableSortedDictionary<string, Verdict> verdicts = result.Verdicts.ToImmutableSortedDictionary(v => v.Check, v => v.Verdict);
        return new()
        {
            Values = ranges.Zip(values).ToImmutableSortedDictionary(v => v.First.Name, v => v.Second),
            Status = result.Status,
            Reason = result.Reason,
            Stiffness = result.Stiffness,
            Motion = result.Motion,
            Fractures = [.. result.Fractures.Select(f => new VariedFracture(f.LevelMm, f.Stiffness, f.Motion, WorstIn(f, result.Fractures)))],
            WorstUtilisation = result.WorstUtilisation,
            FirstLimitKg = result.FirstLimitKg,
            Verdicts = verdicts,
            Changed = before is null || verdicts.IsEmpty
                ? []
                : [.. verdicts.Keys.Union(before.Verdicts.Keys).Where(c => Of(verdicts, c) != Of(before.Verdicts, c)).Order()],
        };
    }

    private static ImmutableArray<string> WorstIn(VariantFracture fracture, ImmutableArray<VariantFracture> all) =>
    [
        .. VariedQuantity.All.Where(q => q.Badness(fracture.Stiffness, fracture.Motion) is double own && all.All(f => !(q.Badness(f.Stiffness, f.Motion) > own))).Select(q => q.Name),
    ];

    private static IEnumerable<VerdictChange> Changes(List<VariationRow> rows, string last, int inLine) => rows.SelectMany((row, i) => Before(rows, i, inLine) is int before
        ? row.Changed.Select(check => new VerdictChange(check, i, rows[before].Values[last], row.Values[last], Of(rows[before].Verdicts, check), Of(row.Verdicts, check), i - before - 1))
        : []);

    // The last row before one that has verdicts, in the same line of values of the last number; null when there is none.
    private static int? Before(List<VariationRow> rows, int row, int inLine)
    {
        for (int i = row - 1; i >= row - (row % inLine); i--)
        {
            if (!rows[i].Verdicts.IsEmpty)
            {
                return i;
            }
        }

        return null;
    }

    private static Verdict? Of(ImmutableSortedDictionary<string, Verdict> verdicts, string check) => verdicts.TryGetValue(check, out Verdict verdict) ? verdict : null;
}
