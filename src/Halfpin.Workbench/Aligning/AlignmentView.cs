using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;

namespace Halfpin.Workbench.Aligning;

/// <summary>An alignment report on one frame in the words of a screen.</summary>
public sealed record AlignmentView
{
    /// <summary>The report, with its limits, assumptions and cautions.</summary>
    public required AlignmentReport Report { get; init; }

    /// <summary>The answer in a sentence.</summary>
    public required string Headline { get; init; }

    /// <summary>The worst of the published limits, the bounds for correction and what the frame can follow.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>The answer line by line.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>What is to be done at this frame.</summary>
    public required AlignmentCorrection Correction { get; init; }

    /// <summary>The exact size and plane beside the rule of small angles, and the true shift.</summary>
    public required ImmutableArray<string> Sizes { get; init; }

    /// <summary>The view of a report that looks at one frame.</summary>
    public static AlignmentView Of(AlignmentReport report)
    {
        AlignmentCorrection correction = report.Corrections[0];
        Verdict verdict = report.Findings.Max(f => f.Verdict ?? Verdict.Pass);
        return new()
        {
            Report = report,
            Headline = Answer(report, correction),
            Verdict = verdict,
            Findings = report.Findings,
            Correction = correction,
            Sizes = [.. SizesOf(report)],
        };
    }

    private static string Answer(AlignmentReport report, AlignmentCorrection correction)
    {
        string plane = report.PlaneAzimuthDeg is null ? "in no certain plane" : report.PlaneWords.Split(',')[0];
        AlignmentLimit[] judged = [.. report.Limits.Where(l => l.Verdict is not null)];
        int beyond = judged.Count(l => l.Verdict == Verdict.Fail), reached = judged.Count(l => l.Verdict == Verdict.Caution);
        string limits = beyond > 0 ? $"beyond {beyond} of {judged.Length} published limits"
            : reached > 0 ? $"{reached} of {judged.Length} published limits are reached with the error of measurement"
            : $"within all {judged.Length} published limits that were judged";
        string turn = correction switch
        {
            { Ways: [{ Verdict: not Verdict.Fail } way, ..] } => $"loosen {string.Join(", ", way.Loosen)} and {Movement(correction)}{(way.Verdict == Verdict.Caution ? ", minding its cautions" : "")}",
            { Ways.IsEmpty: true, CannotCorrect.IsEmpty: true } => Uncapped(correction.Words[0]),
            _ => "the clamps of this frame cannot follow the whole correction",
        };
        return $"{Deg(report.TrueAngleDeg)} of true deformity, {plane}; {limits}; {turn}.";
    }

    private static string Movement(AlignmentCorrection correction) => Math.Round(correction.WholeTurnDeg, 1) > 0 ? $"turn by {Deg(correction.WholeTurnDeg)}" : "move as said below";

    private static string Uncapped(string sentence) => char.ToLowerInvariant(sentence[0]) + sentence[1..].TrimEnd('.');

    private static IEnumerable<string> SizesOf(AlignmentReport report)
    {
        SmallAngleRule rule = report.SmallAngleRule;
        yield return Text($"True angle {report.TrueAngleDeg:0.00}° exactly ({report.TrueAngleRange.Low:0.0} to {report.TrueAngleRange.High:0.0}° with its error), {rule.AngleDeg:0.00}° by the rule of small angles.");
        if (report.PlaneFromFrontalDeg is double exact && rule.PlaneDeg is double small)
        {
            yield return Text($"Plane {exact:0.0}° from the frontal plane exactly, {small:0.0}° by that rule.");
        }

        if (report.Shift is AlignmentShift shift)
        {
            string where = shift is { AzimuthDeg: double a, AzimuthRange: DirectionRange s } ? Text($"toward azimuth {a:0}° ({s.FromDeg:0} to {s.ToDeg:0}°)") : "its direction open within the error";
            yield return Text($"True shift of the distal end {shift.SizeMm:0.0} mm ({shift.SizeRange.Low:0.0} to {shift.SizeRange.High:0.0} mm), {where}.");
        }
    }

    private static string Deg(double value) => Text($"{value:0.0}°");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture).Replace('-', '−');
}
