using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Reports.Words;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Runs;

namespace Halfpin.Workbench.Varying;

/// <summary>Puts a variation into what a screen says.</summary>
public static class VariationWriter
{
    private static readonly ImmutableArray<(string Heading, Func<VariationRow, double?> Of, Func<double, string> Text)> _results =
    [
        ("Axial, N/mm", r => r.Stiffness?.AxialNPerMm, Numbers.Stiffness),
        ("AP bending, N·m/°", r => r.Stiffness?.ApBendingNmPerDeg, Numbers.Stiffness),
        ("ML bending, N·m/°", r => r.Stiffness?.MlBendingNmPerDeg, Numbers.Stiffness),
        ("Torsion, N·m/°", r => r.Stiffness?.TorsionNmPerDeg, Numbers.Stiffness),
        ("Axial motion, mm", r => r.Motion?.AxialMm, Numbers.Motion),
        ("Shear, mm", r => r.Motion?.ShearMm, Numbers.Motion),
        ("Tilt, °", r => r.Motion?.TiltDeg, Numbers.Motion),
        ("Most used part of its limit, fatigue apart", r => r.WorstUtilisation, Numbers.Percent),
        ("First limit, kg", r => r.FirstLimitKg, Numbers.Kg),
    ];

    /// <summary>The view of a result.</summary>
    /// <param name="result">The result with the case it was about.</param>
    /// <param name="now">The case as it is now.</param>
    public static VariationView Of(RunResult<VariationReport> result, Case now)
    {
        VariationReport report = result.Report;
        ImmutableArray<Variable> known = VariableList.Of(result.Case, report.Frame);
        string[] names = [.. report.Over.Select(o => known.FirstOrDefault(v => v.Name == o.Name) is Variable v ? v.Unit.Length == 0 ? v.Label : $"{v.Label}, {v.Unit}" : o.Name)];
        ILookup<int, VerdictLine> changes = report.Changes.ToLookup(c => c.Row, c => Line(report, c, names));
        (string Heading, Func<VariationRow, double?> Of, Func<double, string> Text)[] shown = [.. _results.Where(r => report.Rows.Any(row => r.Of(row) is not null))];
        return new()
        {
            IsStale = !CaseSameness.AroundFrame(result.Case, now, report.Frame),
            Headline = Headline(report, names),
            Changes = [.. changes.OrderBy(g => g.Key).SelectMany(g => g)],
            Headings = [.. names, .. shown.Select(r => r.Heading)],
            Varied = names.Length,
            Rows = [.. report.Rows.Select((row, i) => new VariationLine(
                [.. report.Over.Select(o => N(row.Values[o.Name])), .. shown.Select(r => r.Of(row) is double v ? r.Text(v) : "–")],
                report.Over.All(o => Math.Abs(row.Values[o.Name] - o.Nominal) < 1e-9 * Math.Max(1, Math.Abs(o.Nominal))),
                [.. changes[i]], row.Reason ?? ""))],
        };
    }

    private static string Headline(VariationReport report, string[] names)
    {
        VariationRow[] held = [.. report.Rows.Where(r => r.Stiffness is not null)];
        string runs = string.Join(" and ", report.Over.Select((o, i) => Text($"{Named(names[i])} {(i == 0 ? "runs" : "")} from {N(o.From)} to {N(o.To)}{Unit(names[i])}").Replace("  ", " ", StringComparison.Ordinal)));
        if (held.Length == 0)
        {
            return $"While {runs}, {report.Name} holds nowhere.";
        }

        double first = held[0].Stiffness!.AxialNPerMm, last = held[^1].Stiffness!.AxialNPerMm, least = held.Min(r => r.Stiffness!.AxialNPerMm), most = held.Max(r => r.Stiffness!.AxialNPerMm);
        string axial = report.Over.Length == 1
            ? $"goes from {Numbers.Stiffness(first)} to {Numbers.Stiffness(last)} N/mm"
            : $"lies between {Numbers.Stiffness(least)} and {Numbers.Stiffness(most)} N/mm";
        int n = report.Changes.Length;
        string verdicts = n == 0 ? "no verdict changes" : n == 1 ? "one verdict changes" : Text($"verdicts change {n} times");
        return $"{report.Name}: while {runs}, axial stiffness {axial}; {verdicts}.";
    }

    private static VerdictLine Line(VariationReport report, VerdictChange c, string[] names)
    {
        string at = report.Over.Length == 1 ? "" : $", at {Named(names[0])} {N(report.Rows[c.Row].Values[report.Over[0].Name])}{Unit(names[0])}";
        return new(c.Check, $"{CheckWords.Of(c.Check)}: {Word(c.From)} to {Word(c.To)} between {N(c.After)} and {N(c.By)}{Unit(names[^1])}{at}", c.To);
    }

    private static string Word(Verdict? verdict) => verdict switch { Verdict.Pass => "passes", Verdict.Caution => "caution", Verdict.Fail => "fails", _ => "does not apply" };

    private static string Named(string name) => char.ToLowerInvariant(name[0]) + (name.Contains(',', StringComparison.Ordinal) ? name[1..name.LastIndexOf(',')] : name[1..]);

    private static string Unit(string name) => name.Contains(", ", StringComparison.Ordinal) ? $" {name[(name.LastIndexOf(',') + 2)..]}" : "";

    private static string N(double value) => value.ToString(Math.Abs(value) >= 100 ? "0.#" : Math.Abs(value) >= 10 ? "0.##" : "0.###", CultureInfo.InvariantCulture);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
