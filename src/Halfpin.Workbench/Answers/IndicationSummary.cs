using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Planning.Indication;

namespace Halfpin.Workbench.Answers;

/// <summary>What a record of an indication comes to, a sentence first. It decides nothing.</summary>
/// <param name="Report">The record with what is said of it.</param>
/// <param name="Verdict">The worst there is to say.</param>
/// <param name="Headline">That in a sentence.</param>
/// <param name="For">What speaks for a frame, in words; empty when nothing is recorded.</param>
/// <param name="Against">What speaks against one, in words; empty when nothing is recorded.</param>
public sealed record IndicationSummary(IndicationReport Report, Verdict Verdict, string Headline, string For, string Against)
{
    /// <summary>The summary of a case's record.</summary>
    public static IndicationSummary Of(Case value, ProgramStamp program)
    {
        IndicationReport report = IndicationRecorder.Report(value, program, "");
        Indication record = value.Indication ?? new();
        int against = record.Against.Length, wrong = report.Contradictions.Length, off = report.Deviations.Length, open = report.Missing.Length;
        string reasons = string.Join(", ", record.Reasons.Select(r => IndicationRecorder.Word(r)));
        Verdict verdict = wrong > 0 ? Verdict.Fail : off > 0 || against > 0 || record.Reasons.IsEmpty ? Verdict.Caution : Verdict.Pass;
        string[] parts =
        [
            .. wrong > 0 ? [Count(wrong, "contradiction", "contradictions")] : Array.Empty<string>(),
            .. off > 0 ? [$"{Count(off, "point", "points")} off the usual rule"] : Array.Empty<string>(),
            .. against > 0 ? [$"{Count(against, "thing speaks", "things speak")} against a frame"] : Array.Empty<string>(),
            .. open > 0 ? [$"{Count(open, "item", "items")} not recorded"] : Array.Empty<string>(),
        ];
        string headline = record.Reasons.IsEmpty ? "No reason for a frame is recorded" : $"{Count(record.Reasons.Length, "reason", "reasons")} for a frame recorded";
        return new(report, verdict, $"{headline}{(parts.Length > 0 ? "; " : "")}{string.Join(", ", parts)}.", reasons, string.Join(", ", record.Against.Select(o => IndicationRecorder.Word(o))));
    }

    private static string Count(int n, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{n} {(n == 1 ? one : many)}");
}
