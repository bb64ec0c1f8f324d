using Halfpin.Domain.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>Steps on the screen.</summary>
internal static class StepsTables
{
    public static void Print(StepsReport report, IAnsiConsole console)
    {
        console.WriteLine(report.CaseTitle);
        WarningLines.Print(report.Warning, report.Status, report.Diagnosis, console);
        foreach (SourcedCaution c in report.Recorded)
        {
            console.WriteLine($"RECORDED  {c.Text} {c.Source} [{c.Tag}]");
        }

        console.WriteLine(report.Statement);
        console.WriteLine($"{report.Steps.Length} steps, {report.StepsToLastPin} until the last pin is in.");
        Table table = new() { Border = TableBorder.Rounded, ShowRowSeparators = true };
        table.AddColumn(new TableColumn("").RightAligned());
        table.AddColumn(Markup.Escape($"Steps for {report.Name} ({report.Frame})"));
        table.AddColumn("Watch");
        StepPhase? phase = null;
        foreach (Step s in report.Steps)
        {
            if (s.Phase != phase)
            {
                table.AddRow("", Heading(s.Phase).ToUpperInvariant(), "");
                phase = s.Phase;
            }

            table.AddRow(Markup.Escape($"{s.N}"), Markup.Escape(s.Text), Markup.Escape(string.Join("\n", s.Cautions.Select(c => $"{c.Text} {c.Source} [{c.Tag}]"))));
        }

        console.Write(table);
        console.WriteLine();
        console.WriteLine(report.SafetyNote);
    }

    private static string Heading(StepPhase phase) => phase switch
    {
        StepPhase.Before => "Before the first pin",
        StepPhase.Build => "Building",
        StepPhase.Align => "Alignment",
        StepPhase.Finish => "Before leaving theatre",
        _ => "Afterwards",
    };
}
