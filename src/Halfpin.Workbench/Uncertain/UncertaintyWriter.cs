using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Reports.Words;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Plots;
using Halfpin.Workbench.Runs;

namespace Halfpin.Workbench.Uncertain;

/// <summary>Puts a study of uncertainty into what a screen says.</summary>
public static class UncertaintyWriter
{
    // Inputs below this share of a spread are left to the table of inputs, and so are those after the first few.
    private const double LeastTotal = 0.02;
    private const int MostInputs = 6;

    // ASSUMED: an input with at least this share of a spread is named in the sentence.
    private const double Named = 0.05;

    /// <summary>The view of a result.</summary>
    /// <param name="result">The result with the case it was about.</param>
    /// <param name="now">The case as it is now.</param>
    public static UncertaintyView Of(RunResult<UncertaintyReport> result, Case now)
    {
        UncertaintyReport report = result.Report;
        return new()
        {
            IsStale = !CaseSameness.AroundFrame(result.Case, now, report.Frame) || (report.Ranking is RankingReport r && !CaseSameness.Frames(result.Case, now, r.Against)),
            Headline = Headline(report),
            Samples = Samples(report.Samples),
            Bands = [.. report.Results.Select(Band)],
            Unsure = [.. report.PassProbability.Where(p => p is { Pass: < 1, Caution: < 1, Fail: < 1 }).OrderBy(p => p.Pass).Select(Pass)],
            Sure = [.. Sure(report)],
            Influences = [.. report.Indices.GroupBy(i => i.Output).Select(Influence)],
            Ranking = report.Ranking is null ? [] : [.. report.Ranking.Stiffer.Select(Rank)],
            RankingLost = report.Ranking?.Lost ?? "",
        };
    }

    private static RankLine Rank(StifferProbability s) => new(ResultWords.Of(s.Output).Label,
        s is { Probability: double share, Low: double low, High: double high } ? $"{ShareWords.Percent(share)} ({ShareWords.Percent(low)} to {ShareWords.Percent(high)})" : "no sample has both", s.Probability);

    private static string Headline(UncertaintyReport report)
    {
        UncertainResult[] axials = [.. report.Results.Where(r => ResultNames.Read(r.Name).Quantity == "axialNPerMm")];
        UncertainResult? least = axials.MinBy(r => r.Median ?? double.PositiveInfinity);
        string at = least is not null && ResultNames.Read(least.Name).Fracture is int n ? Text($" at fracture {n}, where it is least,") : "";
        string axial = least is { Median: double median, P5: double p5, P95: double p95 }
            ? $"axial stiffness{at} {Numbers.Stiffness(median)} N/mm, nine in ten samples between {Numbers.Stiffness(p5)} and {Numbers.Stiffness(p95)}"
            : "no sample has a result";
        string most = report.Indices.FirstOrDefault(i => i.Output == least?.Name) is SensitivityIndex first && first.Total >= Named ? $"; what matters most is {InputWords.Input(first.Input)}" : "";
        return $"{report.Name}: {axial}{most}.";
    }

    private static string Samples(SampleCounts s) =>
        Text($"{s.Evaluations:#,0} evaluations from {s.BasePoints:#,0} points; bands and shares rest on {s.Independent:#,0}.")
        + (s.Failed > 0 ? Text($" {s.Failed:#,0} cannot be built or hold nothing.") : "") + (s.Withheld > 0 ? Text($" {s.Withheld:#,0} give stiffness only.") : "");

    private static BandLine Band(UncertainResult r)
    {
        (string label, string unit) = ResultWords.Of(r.Name);
        double[] all = [.. new[] { r.Nominal, r.Median, r.P5, r.P95 }.OfType<double>()];
        PlotScale? scale = r.Median is null ? null : PlotScale.Of(all, fromZero: true);
        double? At(double? value) => value is double v ? scale?.At(v) : null;
        string T(double? value) => value is double v ? Value(r.Name, v) : "–";
        string missing = r.Missing == 0 ? "" : Text($"{r.Missing:#,0} without");
        return new(r.Name, unit.Length == 0 ? label : $"{label}, {unit}", T(r.Nominal), T(r.Median), T(r.P5), T(r.P95), missing, scale, At(r.Median), At(r.P5), At(r.P95), At(r.Nominal));
    }

    private static string Value(string name, double value) => ResultNames.Read(name).Quantity switch
    {
        "worstUtilisation" => Numbers.Percent(value).Replace(" %", "", StringComparison.Ordinal),
        "firstLimitKg" => Numbers.Kg(value),
        "axialMm" or "shearMm" or "tiltDeg" => Numbers.Motion(value),
        _ => Numbers.Stiffness(value),
    };

    private static PassLine Pass(PassProbability p) => new(
        p.Check, CheckWords.Of(p.Check), $"{ShareWords.Percent(p.Pass)} ({ShareWords.Percent(p.Low)} to {ShareWords.Percent(p.High)})", p.Pass, p.Caution, p.Fail, ShareWords.Percent(p.Caution), ShareWords.Percent(p.Fail), p.Nominal);

    private static IEnumerable<string> Sure(UncertaintyReport report)
    {
        foreach ((string words, Func<PassProbability, double> share) in new (string, Func<PassProbability, double>)[] { ("Fail in every sample", p => p.Fail), ("Caution in every sample", p => p.Caution), ("Pass in every sample", p => p.Pass) })
        {
            string[] checks = [.. report.PassProbability.Where(p => share(p) == 1).Select(p => CheckWords.Of(p.Check))];
            if (checks.Length > 0)
            {
                yield return $"{words}: {string.Join("; ", checks)}.";
            }
        }
    }

    private static InfluenceGroup Influence(IGrouping<string, SensitivityIndex> of)
    {
        string label = ResultWords.Of(of.Key).Label.Split(';')[0];
        SensitivityIndex[] named = [.. of.Where(i => i.Total >= Named).Take(3)];
        string sentence = named.Length == 0 ? "No single input matters much." : $"What matters most: {string.Join(", ", named.Select(i => $"{InputWords.Input(i.Input)} ({ShareWords.Percent(i.Total)})"))} of its spread, exchanges with others counted.";
        return new(of.Key, label, sentence, [.. of.Where(i => i.Total >= LeastTotal).Take(MostInputs).Select(i => new InfluenceLine(
            i.Input, InputWords.Input(i.Input), $"{ShareWords.Percent(i.First)} ({ShareWords.Percent(i.FirstLow)} to {ShareWords.Percent(i.FirstHigh)})", $"{ShareWords.Percent(i.Total)} ({ShareWords.Percent(i.Low)} to {ShareWords.Percent(i.High)})",
            Share(i.First), Share(i.Total), Share(i.Low), Share(i.High)))]);
    }

    private static double Share(double share) => Math.Clamp(share, 0, 1);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
