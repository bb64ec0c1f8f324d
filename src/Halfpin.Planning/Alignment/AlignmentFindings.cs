using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Planning.Alignment;

/// <summary>The answer in a few short lines.</summary>
internal static class AlignmentFindings
{
    public static IEnumerable<Finding> Of(
        AlignmentMeasurement m, AngularDeformity exact, MeasurementError error, string plane,
        ImmutableArray<AlignmentLimit> limits, ImmutableArray<AlignmentLimit> indicated, ImmutableArray<AlignmentCorrection> corrections)
    {
        yield return new(
            "Deformity",
            $"{AlignmentWords.Angle(exact.AngleDeg)} ({AlignmentWords.Angle(error.TrueAngleDeg.Low)} to {AlignmentWords.Angle(error.TrueAngleDeg.High)} with its error), {plane}. {Readings(m)}.",
            null);
        yield return Judged("Published limits", limits, "within", "beyond");
        yield return Judged("Correction indicated", indicated, "below every bound", "beyond");
        foreach (AlignmentCorrection c in corrections.Where(c => c.Frame is not null && c.Ways.Length > 0))
        {
            ReductionWay best = c.Ways[0];
            string answer = best.Verdict switch
            {
                Verdict.Pass => $"its clamps can follow: loosen {string.Join(", ", best.Loosen)}",
                Verdict.Caution => $"at the edge: loosen {string.Join(", ", best.Loosen)} and mind the cautions",
                _ => best.MisfitMm is double misfit ? $"its clamps cannot follow: {AlignmentWords.Length(misfit)} of misfit at best" : "its clamps cannot follow",
            };
            yield return new($"Frame {c.Frame}", $"{answer}.", best.Verdict);
        }
    }

    private static string Readings(AlignmentMeasurement m)
    {
        List<string> all =
        [
            $"{AlignmentWords.Angle(Math.Abs(m.ApDeg))} {AlignmentWords.Coronal(m.ApDeg)}",
            $"{AlignmentWords.Angle(Math.Abs(m.LateralDeg))} {AlignmentWords.Sagittal(m.LateralDeg)}",
        ];
        if (m.RotationDeg is double rotation)
        {
            all.Add($"{AlignmentWords.Angle(Math.Abs(rotation))} {AlignmentWords.Rotation(rotation)}");
        }

        if (m is { ApShiftMm: double ap, LateralShiftMm: double lateral })
        {
            all.Add($"shift {AlignmentWords.Length(double.Hypot(ap, lateral))}");
        }

        if (m.LengthMm is double length)
        {
            all.Add($"{AlignmentWords.Length(Math.Abs(length))} {(length < 0 ? "short" : "long")}");
        }

        return string.Join(", ", all);
    }

    private static Finding Judged(string label, ImmutableArray<AlignmentLimit> rows, string within, string beyond)
    {
        AlignmentLimit[] fail = [.. rows.Where(r => r.Verdict == Verdict.Fail)], caution = [.. rows.Where(r => r.Verdict == Verdict.Caution)];
        int open = rows.Count(r => r.Verdict is null);
        string rest = open > 0 ? $" {open} not judged." : "";
        return fail.Length > 0 ? new(label, $"{beyond} {fail.Length} of {rows.Length - open}: {Names(fail)}.{rest}", Verdict.Fail)
            : caution.Length > 0 ? new(label, $"{caution.Length} of {rows.Length - open} reached with the error of measurement: {Names(caution)}.{rest}", Verdict.Caution)
            : new(label, $"{within}{(within == "within" ? $" all {rows.Length - open} that were judged" : "")}.{rest}", Verdict.Pass);
    }

    private static string Names(AlignmentLimit[] rows) => string.Join("; ", rows.Select(r => r.Name));
}
