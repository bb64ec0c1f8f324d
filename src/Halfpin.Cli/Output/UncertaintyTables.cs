using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Reports.Words;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>A report on uncertainty on the screen: the answer, bands, checks, what matters, inputs.</summary>
internal static class UncertaintyTables
{
    private const int MostIndices = 4;
    private const double LeastTotal = 0.02;

    public static void Print(UncertaintyReport report, IAnsiConsole console)
    {
        console.WriteLine(report.CaseTitle);
        console.WriteLine(Text($"{report.Name}: {report.Samples.Evaluations} evaluations, {report.Samples.BasePoints} base points, {report.Inputs.Length} inputs, seed {report.Seed}."));
        foreach (Finding finding in report.Findings)
        {
            console.WriteLine($"{finding.Label}: {finding.Text}");
        }

        if (report.Convergence is Convergence convergence)
        {
            console.WriteLine(convergence.Message);
        }

        Bands(report, console);
        Passes(report, console);
        Indices(report, console);
        foreach (StifferProbability s in report.Ranking?.Stiffer ?? [])
        {
            string share = s.Probability is null ? "no sample has both" : Text($"{100 * s.Probability:0.#} % ({100 * s.Low:0.#}–{100 * s.High:0.#} %) of {s.Pairs} pairs, of {report.Samples.Independent} samples");
            console.WriteLine($"Stiffer than {report.Ranking!.Against}, {ResultWords.Of(s.Output).Label}: {share}.");
        }

        console.WriteLine("Inputs:");
        foreach (InputSpread input in report.Inputs)
        {
            console.WriteLine($"  {input.Input}: {input.Spread} [{input.Tag}] {input.Source}");
        }

        foreach (string line in report.Warnings.Concat(report.Assumptions))
        {
            console.WriteLine($"- {line}");
        }

        console.WriteLine();
        console.WriteLine(report.SafetyNote);
    }

    private static void Bands(UncertaintyReport report, IAnsiConsole console)
    {
        Table table = Headed("Result", "As in the\ncase", "Median", "5 %", "95 %", "Without\nvalue");
        foreach (UncertainResult r in report.Results)
        {
            table.AddRow(Name(r.Name), Value(r, r.Nominal), Value(r, r.Median), Value(r, r.P5), Value(r, r.P95), Text($"{r.Missing}"));
        }

        console.Write(table);
    }

    private static void Passes(UncertaintyReport report, IAnsiConsole console)
    {
        PassProbability[] open = [.. report.PassProbability.Where(p => p.Pass < 1 && p.Caution < 1 && p.Fail < 1)];
        if (open.Length > 0)
        {
            Table table = Headed("Check", "Passes", "95 % interval", "Caution", "Fails", "As in the\ncase");
            foreach (PassProbability p in open)
            {
                table.AddRow(p.Check, Percent(p.Pass), $"{Percent(p.Low)}–{Percent(p.High)}", Percent(p.Caution), Percent(p.Fail), p.Nominal?.ToString().ToLowerInvariant() ?? "–");
            }

            console.Write(table);
        }

        string Sure(Func<PassProbability, double> share) => string.Join(", ", report.PassProbability.Where(p => share(p) == 1).Select(p => p.Check));
        console.WriteLine($"Pass in every sample: {(Sure(p => p.Pass) is { Length: > 0 } pass ? pass : "none")}.");
        if (Sure(p => p.Caution) is { Length: > 0 } caution)
        {
            console.WriteLine($"Caution in every sample: {caution}.");
        }

        if (Sure(p => p.Fail) is { Length: > 0 } fail)
        {
            console.WriteLine($"Fail in every sample: {fail}.");
        }
    }

    private static void Indices(UncertaintyReport report, IAnsiConsole console)
    {
        if (report.Indices.IsEmpty)
        {
            return;
        }

        Table table = Headed("Result", "Input", "Alone", "With\nexchanges", "95 % interval");
        foreach (SensitivityIndex i in report.Indices.GroupBy(i => i.Output).SelectMany(g => g.Where(i => i.Total >= LeastTotal).Take(MostIndices)))
        {
            table.AddRow(Name(i.Output), i.Input, Percent(i.First), Percent(i.Total), $"{Percent(i.Low)}–{Percent(i.High)}");
        }

        console.WriteLine("Share of the spread that an input accounts for (Sobol' indices):");
        console.Write(table);
    }

    private static string Name(string result) =>
        ResultWords.Of(result) is (string label, string unit) && unit.Length > 0 ? $"{label}, {unit}" : ResultWords.Of(result).Label;

    // A share of a limit reads in per cent, as its name says.
    private static string Value(UncertainResult result, double? value) => N(ResultWords.Of(result.Name).Unit == "%" ? 100 * value : value);

    private static Table Headed(params string[] headings)
    {
        Table table = new() { Border = TableBorder.Rounded };
        for (int i = 0; i < headings.Length; i++)
        {
            TableColumn column = new(headings[i]);
            table.AddColumn(i == 0 ? column : column.RightAligned());
        }

        return table;
    }

    private static string Percent(double share) => Text($"{100 * Math.Max(0, share):0} %");

    // Three figures.
    private static string N(double? value) => value is not double v ? "–" : v.ToString(
        Math.Abs(v) >= 100 ? "0" : Math.Abs(v) >= 10 ? "0.0" : Math.Abs(v) >= 1 ? "0.00" : "0.000", CultureInfo.InvariantCulture);

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
