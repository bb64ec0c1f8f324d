using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;

namespace Halfpin.Stability.Comparison;

/// <summary>The answer in a few short lines.</summary>
public static class KeyFindings
{
    /// <summary>The findings of a case's frames, warnings last so that they are read with the rest.</summary>
    public static ImmutableArray<Finding> Of(Case value, ImmutableArray<FrameAssessment> frames)
    {
        FrameAssessment[] held = [.. frames.Where(f => f.Stiffness is not null)];
        return
        [
            .. held.Length > 1 ? Best(held) : held.Select(f => new Finding("In short", FrameComparison.Summary(f), Verdict.Pass)),
            .. Moves(value, held),
            .. Unusable(frames),
            .. NotForFullWeight(value, held),
        ];
    }

    private static IEnumerable<Finding> Best(FrameAssessment[] frames)
    {
        if (frames.Where(f => f.BendingRose is not null).MaxBy(f => f.BendingRose!.WeakNmPerDeg) is FrameAssessment even)
        {
            BendingRose r = even.BendingRose!;
            yield return Pass("Firmest in its weakest direction", $"{even.Name}, {r.WeakNmPerDeg:0.0} N·m/deg");
        }

        FrameAssessment axial = frames.MaxBy(f => f.Stiffness!.AtFracture.AxialNPerMm)!;
        yield return Pass("Stiffest along the bone", $"{axial.Name}, {axial.Stiffness!.AtFracture.AxialNPerMm:0} N/mm");
        FrameAssessment simple = frames.MinBy(f => f.Kit.Pins + f.Kit.Rods + f.Kit.Clamps)!;
        yield return Pass("Fewest parts", $"{simple.Name}, {simple.Kit.Pins + simple.Kit.Rods + simple.Kit.Clamps}");
    }

    private static IEnumerable<Finding> Moves(Case value, FrameAssessment[] frames)
    {
        double[] axial = [.. frames.Where(f => f.Motion is { LoadN: > 0 }).Select(f => Math.Abs(f.Motion!.AxialMm)).Order()];
        if (axial.Length > 0)
        {
            string kg = value.Loading.AllowedKg.ToString("0.#", CultureInfo.InvariantCulture);
            yield return axial.Length == 1
                ? Pass($"Axial motion at {kg} kg", $"{axial[0]:0.00} mm")
                : Pass($"Axial motion at {kg} kg", $"{axial[0]:0.00} to {axial[^1]:0.00} mm");
        }
    }

    private static IEnumerable<Finding> Unusable(ImmutableArray<FrameAssessment> frames)
    {
        string[] loose = [.. frames.Where(f => f.Stiffness is null).Select(f => f.Name)];
        if (loose.Length > 0)
        {
            yield return new("Does not hold", string.Join("; ", loose), Verdict.Fail);
        }

        string[] failed = [.. frames.Where(f => f.Checks.Any(c => c.Verdict == Verdict.Fail)).Select(f => f.Name)];
        if (failed.Length > 0)
        {
            yield return new("Fails a check under the chosen load", string.Join("; ", failed), Verdict.Fail);
        }
    }

    private static IEnumerable<Finding> NotForFullWeight(Case value, FrameAssessment[] frames)
    {
        string[] names = [.. frames.Where(f => f.Checks.Any(c => c is { Id: "full-weight", Verdict: not Verdict.Pass })).Select(f => f.Name)];
        if (names.Length > 0)
        {
            yield return new(
                $"Over its limits at full weight ({value.Limb.PatientMassKg.ToString("0", CultureInfo.InvariantCulture)} kg, open gap)",
                names.Length == frames.Length ? "every frame" : string.Join("; ", names), Verdict.Caution);
        }
    }

    private static Finding Pass(string label, FormattableString text) => new(label, text.ToString(CultureInfo.InvariantCulture), Verdict.Pass);
}
