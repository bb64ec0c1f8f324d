using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;

namespace Halfpin.Studies.Uncertainty;

/// <summary>The answer of a study in a few lines.</summary>
internal static class UncertaintyFindings
{
    // ASSUMED: below this a pass is not to be counted on.
    private const double Likely = 0.9;

    public static IEnumerable<Finding> Of(
        SampleCounts samples, ImmutableArray<UncertainResult> results, ImmutableArray<PassProbability> passes, ImmutableArray<SensitivityIndex> indices, RankingReport? ranking)
    {
        UncertainResult[] axial = [.. results.Where(r => ResultNames.Read(r.Name).Quantity == "axialNPerMm")];
        foreach (UncertainResult result in axial)
        {
            if (result is { Median: double median, P5: double p5, P95: double p95 })
            {
                yield return new("Axial stiffness" + At(result.Name), Text($"{median:0} N/mm; nine in ten lie between {p5:0} and {p95:0}."), Verdict.Pass);
            }
        }

        // At the fracture that is held least.
        string? least = axial.MinBy(r => r.Median ?? double.PositiveInfinity)?.Name;
        SensitivityIndex[] most = [.. indices.Where(i => i.Output == least && i.Total >= 0.05).Take(3)];
        if (most.Length > 0)
        {
            yield return new("What matters most", string.Join(", ", most.Select(i => Text($"{i.Input} ({100 * i.Total:0} %)"))) + $" of the spread in axial stiffness{At(least!)}, exchanges with others counted.", Verdict.Pass);
        }

        PassProbability[] failing = [.. passes.Where(p => p.Fail > 0).OrderByDescending(p => p.Fail)];
        if (failing.Length > 0)
        {
            yield return new("May fail", string.Join(", ", failing.Take(4).Select(p => Text($"{p.Check} ({Percent(p.Fail)})"))) + ".", Verdict.Fail);
        }

        PassProbability[] unsure = [.. passes.Where(p => p is { Nominal: Verdict.Pass, Pass: < Likely })];
        if (unsure.Length > 0)
        {
            yield return new("Passes, but not for sure", string.Join(", ", unsure.Select(p => Text($"{p.Check} ({Percent(p.Pass)})"))) + ".", Verdict.Caution);
        }

        if (ranking is not null)
        {
            string[] shares = [.. ranking.Stiffer.Where(s => s.Probability is not null).Select(s => Text($"{Word(s.Output)} {Percent(s.Probability!.Value)}"))];
            string told = shares.Length == 0 ? "" : string.Join(", ", shares) + (axial.Length > 1 ? " of samples, each frame at the fracture where it is least stiff." : " of samples.");
            yield return new($"Stiffer than {ranking.Against}", string.Join(" ", new[] { told, ranking.Lost ?? "" }.Where(t => t.Length > 0)), ranking.Lost is null ? Verdict.Pass : Verdict.Caution);
        }

        if (samples.Failed > 0)
        {
            yield return new("Without result", Text($"{samples.Failed} of {samples.Evaluations} evaluations cannot be built or hold nothing: {samples.Reasons.First(r => r.Status != FrameStatus.OutOfRange).Example}"), Verdict.Caution);
        }

        if (samples.Withheld > 0)
        {
            yield return new("Withheld", Text($"{samples.Withheld} of {samples.Evaluations} evaluations give stiffness only: {samples.Reasons.First(r => r.Status == FrameStatus.OutOfRange).Example}"), Verdict.Caution);
        }
    }

    private static string At(string name) => ResultNames.Read(name).Fracture is int n ? Text($" at fracture {n}") : "";

    private static string Word(string output) => output switch
    {
        "axialNPerMm" => "axially",
        "apBendingNmPerDeg" => "in AP bending",
        "mlBendingNmPerDeg" => "in ML bending",
        _ => "in torsion",
    };

    private static string Percent(double share) => share is > 0 and < 0.005 ? "< 1 %" : share is > 0.995 and < 1 ? "> 99 %" : Text($"{100 * share:0} %");

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
