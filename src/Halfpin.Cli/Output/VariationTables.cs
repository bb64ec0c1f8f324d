using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Reports.Words;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>A variation on the screen: rows, and where verdicts change.</summary>
internal static class VariationTables
{
    public static void Print(VariationReport report, IAnsiConsole console)
    {
        VariationWords words = VariationWords.Plain;
        console.WriteLine(report.CaseTitle);
        console.WriteLine($"{report.Name}: {string.Join(" and ", report.Over.Select(o => $"{words.With(o.Name, $"from {N(o.From)} to {N(o.To)}")}, {N(o.Nominal)} in the case"))}.");
        string last = report.Over[^1].Name;
        if (report.Changes.IsEmpty)
        {
            console.WriteLine("No verdict changes between rows with results.");
        }

        foreach (VerdictChange change in report.Changes)
        {
            string at = report.Over.Length == 1 ? "" : $", {words.With(report.Over[0].Name, N(report.Rows[change.Row].Values[report.Over[0].Name]))}";
            console.WriteLine($"{change.Check}: {Word(change.From)} to {Word(change.To)} {VariationWords.Between(change, words.With(last, $"{N(change.After)} and {N(change.By)}"))}{at}.");
        }

        bool several = report.Rows.Any(r => r.Fractures.Length > 1);
        Table table = new() { Border = TableBorder.Rounded };
        foreach (string heading in (string[])[.. report.Over.Select(o => words.Heading(o.Name).Replace(", ", "\n", StringComparison.Ordinal)), .. several ? ["Fracture"] : Array.Empty<string>(), "Axial\nN/mm", "AP\nN·m/°", "ML\nN·m/°", "Torsion\nN·m/°", "Axial\nmm", "Shear\nmm", "Tilt\n°", "Worst of\nlimit", "First limit\nkg"])
        {
            table.AddColumn(new TableColumn(heading).RightAligned());
        }

        table.AddColumn("Verdicts that change, or why nothing is told");
        ILookup<int, VerdictChange> changes = report.Changes.ToLookup(c => c.Row);
        foreach ((VariationRow row, int n) in report.Rows.Select((row, n) => (row, n)))
        {
            string changed = Markup.Escape(row.Reason ?? Changed(changes[n]));
            table.AddRow(
            [
                .. report.Over.Select(o => N(row.Values[o.Name])), .. several ? [row.Fractures.IsEmpty ? "" : "1"] : Array.Empty<string>(),
                .. row.Fractures.IsEmpty ? VariedQuantity.All.Select(q => N(q.Of(row.Stiffness, row.Motion))) : At(row.Fractures[0]),
                row.WorstUtilisation is double u ? N(100 * u) + " %" : "–", N(row.FirstLimitKg), changed,
            ]);

            // What is of the whole frame stands beside the first.
            for (int i = 1; i < row.Fractures.Length; i++)
            {
                table.AddRow([.. report.Over.Select(_ => ""), $"{i + 1}", .. At(row.Fractures[i]), "", "", ""]);
            }
        }

        console.Write(table);
        foreach (string assumption in report.Assumptions)
        {
            console.WriteLine($"- {assumption}");
        }

        console.WriteLine();
        console.WriteLine(report.SafetyNote);
    }

    private static IEnumerable<string> At(VariedFracture fracture) =>
        VariedQuantity.All.Select(q => N(q.Of(fracture.Stiffness, fracture.Motion)) + (fracture.WorstIn.Contains(q.Name) ? "*" : ""));

    private static string Changed(IEnumerable<VerdictChange> changes) =>
        string.Join(", ", changes.Select(c => $"{c.Check} {(c.To is null ? "no more" : Word(c.To))}"))
        + (changes.FirstOrDefault() is { Unassessed: > 0 } far ? $" {VariationWords.Between(far, $"{N(far.After)} and {N(far.By)}")}" : "");

    private static string Word(Verdict? verdict) => verdict?.ToString().ToLowerInvariant() ?? "not applied";

    private static string N(double? value) => value is not double v ? "–" : v.ToString(
        Math.Abs(v) >= 100 ? "0.#" : Math.Abs(v) >= 10 ? "0.0#" : Math.Abs(v) >= 1 ? "0.0##" : "0.0###", CultureInfo.InvariantCulture);
}
