using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Checks;

namespace Halfpin.Stability.Comparison;

/// <summary>The answer in a few short lines.</summary>
public static class KeyFindings
{
    // Results within this share of each other are named together: less than any band of the inputs.
    private const double Alike = 0.05;

    /// <summary>The findings of a case's frames: one sentence first, warnings last.</summary>
    public static ImmutableArray<Finding> Of(Case value, ImmutableArray<FrameAssessment> frames)
    {
        FrameAssessment[] held = [.. frames.Where(f => f.Stiffness is not null)];
        return
        [
            InShort(value, frames, held),
            .. held.Length > 1 ? Best(held) : [],
            .. Moves(value, held),
            .. Unusable(frames),
            .. Withheld(value, frames),
            .. Failed(frames),
        ];
    }

    private static Finding InShort(Case value, ImmutableArray<FrameAssessment> frames, FrameAssessment[] held)
    {
        if (held.Length == 0)
        {
            return new("In short", frames.Length == 1 ? "This frame does not hold the fracture." : "None of these frames holds the fracture.", Verdict.Fail);
        }

        string kg = ChosenLoadWords.Of(value);
        FrameAssessment[] clean = [.. held.Where(f => f.Checks.All(c => c.Verdict != Verdict.Fail))];
        string weight = frames.Length == 1 ? "This frame is not" : "None of these frames is";
        string judged = frames.Length == 1
            ? clean.Length == 1 ? $"No check fails at {kg}." : $"Fails a check: {Names(held)}."
            : clean.Length == frames.Length ? $"All {frames.Length} frames pass or come with cautions at {kg}; none fails a check."
            : clean.Length == 0 ? "Every frame fails a check."
            : $"{clean.Length} of {frames.Length} frames fail no check at {kg}.";
        return new("In short", $"{judged} {weight} for full weight over an open gap.", clean.Length == frames.Length ? Verdict.Caution : Verdict.Fail);
    }

    private static IEnumerable<Finding> Best(FrameAssessment[] frames)
    {
        FrameAssessment[] bent = [.. frames.Where(f => f.BendingRose is not null)];
        if (bent.Length > 0)
        {
            yield return Most("Firmest in its weakest direction", "0.0", "N·m/deg", bent, f => f.BendingRose!.WeakNmPerDeg);
        }

        yield return Most("Stiffest along the bone", "0", "N/mm", frames, f => f.Stiffness!.AtFracture.AxialNPerMm);
        yield return Most("Stiffest in torsion", "0.00", "N·m/deg", frames, f => f.Stiffness!.AtFracture.TorsionNmPerDeg);
    }

    private static Finding Most(string label, string digits, string unit, FrameAssessment[] frames, Func<FrameAssessment, double> of)
    {
        double best = frames.Max(of);
        return new(label, $"{Names(frames.Where(f => of(f) >= (1 - Alike) * best))}, {best.ToString(digits, CultureInfo.InvariantCulture)} {unit}", Verdict.Pass);
    }

    private static IEnumerable<Finding> Moves(Case value, FrameAssessment[] frames)
    {
        double[] axial = [.. frames.Select(MostMoved.Of).Where(m => m is { LoadN: > 0 }).Select(m => Math.Abs(m!.AxialMm)).Order()];
        if (axial.Length > 0)
        {
            yield return axial.Length == 1
                ? Pass($"Axial motion at {ChosenLoadWords.Of(value)}", $"{axial[0]:0.00} mm")
                : Pass($"Axial motion at {ChosenLoadWords.Of(value)}", $"{axial[0]:0.00} to {axial[^1]:0.00} mm");
        }
    }

    private static IEnumerable<Finding> Unusable(ImmutableArray<FrameAssessment> frames)
    {
        FrameAssessment[] loose = [.. frames.Where(f => f.Stiffness is null)];
        if (loose.Length > 0)
        {
            yield return new("Does not hold", Names(loose), Verdict.Fail);
        }
    }

    private static IEnumerable<Finding> Withheld(Case value, ImmutableArray<FrameAssessment> frames)
    {
        FrameAssessment[] beyond = [.. frames.Where(f => f.Status == FrameStatus.OutOfRange)];
        if (beyond.Length > 0)
        {
            yield return new($"No result at {ChosenLoadWords.Of(value)}", Names(beyond), Verdict.Fail);
        }
    }

    private static IEnumerable<Finding> Failed(ImmutableArray<FrameAssessment> frames)
    {
        FrameAssessment[] failed = [.. frames.Where(f => f.Status == FrameStatus.Ok && f.Checks.Any(c => c.Verdict == Verdict.Fail))];
        if (failed.Length > 0)
        {
            yield return new("Fails a check, of stability or of placement", Names(failed), Verdict.Fail);
        }
    }

    private static string Names(IEnumerable<FrameAssessment> frames) => string.Join("; ", frames.Select(f => f.Name));

    private static Finding Pass(string label, FormattableString text) => new(label, text.ToString(CultureInfo.InvariantCulture), Verdict.Pass);
}
