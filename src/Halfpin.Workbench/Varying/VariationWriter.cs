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
    private static readonly Dictionary<string, (string Heading, Func<double, string> Text)> _quantities = new()
    {
        ["axialNPerMm"] = ("Axial, N/mm", Numbers.Stiffness),
        ["apBendingNmPerDeg"] = ("AP bending, N·m/°", Numbers.Stiffness),
        ["mlBendingNmPerDeg"] = ("ML bending, N·m/°", Numbers.Stiffness),
        ["torsionNmPerDeg"] = ("Torsion, N·m/°", Numbers.Stiffness),
        ["axialMm"] = ("Axial motion, mm", Numbers.Motion),
        ["shearMm"] = ("Shear, mm", Numbers.Motion),
        ["tiltDeg"] = ("Tilt, °", Numbers.Motion),
        ["worstUtilisation"] = ("Most used part of its limit, fatigue apart", Numbers.Percent),
        ["firstLimitKg"] = ("First limit, kg", Numbers.Kg),
    };

    /// <summary>The view of a result.</summary>
    /// <param name="result">The result with the case it was about.</param>
    /// <param name="now">The case as it is now.</param>
    public static VariationView Of(RunResult<VariationReport> result, Case now)
    {
        VariationReport report = result.Report;
        VariationWords words = Words(result);
        ILookup<int, VerdictLine> changes = report.Changes.ToLookup(c => c.Row, c => Line(report, c, words));
        VariedResult[] shown = [.. VariedResult.AllOf(report).Where(r => report.Rows.Any(row => r.Of(row) is not null))];
        return new()
        {
            IsStale = !CaseSameness.AroundFrame(result.Case, now, report.Frame),
            Headline = Headline(report, words),
            Changes = [.. changes.OrderBy(g => g.Key).SelectMany(g => g)],
            Headings = [.. report.Over.Select(o => words.Heading(o.Name)), .. shown.Select(r => Heading(r.Name))],
            Varied = report.Over.Length,
            Rows = [.. report.Rows.Select((row, i) => new VariationLine(
                [.. report.Over.Select(o => N(row.Values[o.Name])), .. shown.Select(r => Cell(r, row))],
                report.Over.All(o => Math.Abs(row.Values[o.Name] - o.Nominal) < 1e-9 * Math.Max(1, Math.Abs(o.Nominal))),
                [.. changes[i]], Since(report, i), row.Reason ?? ""))],
        };
    }

    /// <summary>How the numbers and rules of a result are called: as on the screens, or by the words of their own names.</summary>
    public static VariationWords Words(RunResult<VariationReport> result)
    {
        ImmutableArray<Variable> known = VariableList.Of(result.Case, result.Report.Frame);
        return new(name => known.FirstOrDefault(v => v.Name == name) is Variable v ? (v.Label, v.Unit) : NumberWords.OfPath(name), CheckWords.Of);
    }

    private static string Heading(string name)
    {
        (string quantity, int? fracture) = ResultNames.Read(name);
        return fracture is int n ? ResultWords.AtFracture(n, _quantities[quantity].Heading) : _quantities[quantity].Heading;
    }

    private static string Cell(VariedResult result, VariationRow row) =>
        result.Of(row) is double value ? _quantities[ResultNames.Read(result.Name).Quantity].Text(value) + (result.IsWorst(row) ? " *" : "") : "–";

    private static string Headline(VariationReport report, VariationWords words)
    {
        VariationRow[] held = [.. report.Rows.Where(r => r.Stiffness is not null)];
        string runs = string.Join(" and ", report.Over.Select((o, i) => words.With(o.Name, $"{(i == 0 ? "runs " : "")}from {N(o.From)} to {N(o.To)}")));
        if (held.Length == 0)
        {
            return $"While {runs}, {report.Name} holds nowhere.";
        }

        double Axial(VariationRow row) => row.Fractures.IsEmpty ? row.Stiffness!.AxialNPerMm : row.Fractures.Min(f => f.Stiffness.AxialNPerMm);
        double first = Axial(held[0]), last = Axial(held[^1]), least = held.Min(Axial), most = held.Max(Axial);
        string where = held[0].Fractures.IsEmpty ? "" : " at the fracture where it is least";
        string axial = report.Over.Length == 1
            ? $"goes from {Numbers.Stiffness(first)} to {Numbers.Stiffness(last)} N/mm"
            : $"lies between {Numbers.Stiffness(least)} and {Numbers.Stiffness(most)} N/mm";
        int n = report.Changes.Length;
        string verdicts = n == 0 ? "no verdict changes" : n == 1 ? "one verdict changes" : Text($"verdicts change {n} times");
        return $"{report.Name}: while {runs}, axial stiffness{where} {axial}; {verdicts}.";
    }

    private static VerdictLine Line(VariationReport report, VerdictChange c, VariationWords words)
    {
        string at = report.Over.Length == 1 ? "" : $", at {words.With(report.Over[0].Name, N(report.Rows[c.Row].Values[report.Over[0].Name]))}";
        return new(c.Check, $"{words.Check(c.Check)}: {Word(c.From)} to {Word(c.To)} {VariationWords.Between(c, $"{N(c.After)} and {words.WithUnit(report.Over[^1].Name, N(c.By))}")}{at}", c.To);
    }

    // The changes of a row share the row that they are told from.
    private static string Since(VariationReport report, int row) =>
        report.Changes.FirstOrDefault(c => c.Row == row) is { Unassessed: > 0 } c ? VariationWords.Between(c, $"{N(c.After)} and {N(c.By)}") : "";

    private static string Word(Verdict? verdict) => verdict switch { Verdict.Pass => "passes", Verdict.Caution => "caution", Verdict.Fail => "fails", _ => "does not apply" };

    private static string N(double value) => value.ToString(Math.Abs(value) >= 100 ? "0.#" : Math.Abs(value) >= 10 ? "0.##" : "0.###", CultureInfo.InvariantCulture);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
