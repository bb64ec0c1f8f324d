using System.Globalization;
using Halfpin.Domain.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>An indication report on the screen.</summary>
internal static class IndicationLines
{
    public static void Print(IndicationReport report, IAnsiConsole console)
    {
        console.WriteLine(report.CaseTitle);
        console.WriteLine(report.Statement);
        Part("Recorded against a frame", report.Against.Where(a => a.Recorded).Select(a => $"! {a.Item} {Source(a.Source, a.Tag)}"), console);
        Part("Contradictions", report.Contradictions.Select(c => $"! {c.Topic}: {c.Text} {Source(c.Source, c.Tag)}"), console);
        Part("Differs from a rule", report.Deviations.Select(d => $"~ {d.Topic}: {d.Text} {Source(d.Source, d.Tag)}"), console);
        Part("Recorded", report.Recorded.Select(r => $"- {r.Item}: {r.Value}"), console);
        Part("Not recorded", report.Missing.Select(m => $"- {m.Item} ({m.Pointer})"), console);
        Part("Physiology beside the published damage-control grades (ranges overlap)", report.Physiology.Select(p => $"- {p.Figure} {p.Value.ToString("0.##", CultureInfo.InvariantCulture)} {p.Unit}: {string.Join(" or ", p.Grades)}"), console);
        Part("What else would argue against a frame, not recorded", report.Against.Where(a => !a.Recorded).Select(a => $"- {a.Item} {Source(a.Source, a.Tag)}"), console);
        Part("Published facts that bear on it", report.Facts.Select(f => $"- {f.Topic}: {f.Text} {Source(f.Source, f.Tag)}"), console);
        Part("Reminders", report.Reminders.Select(r => $"- {r.Topic}: {r.Text} {Source(r.Source, r.Tag)}"), console);
        console.WriteLine();
        console.WriteLine(report.SafetyNote);
    }

    private static void Part(string head, IEnumerable<string> lines, IAnsiConsole console)
    {
        string[] all = [.. lines];
        if (all.Length == 0)
        {
            return;
        }

        console.WriteLine();
        console.WriteLine(head);
        foreach (string line in all)
        {
            console.WriteLine($"  {line}");
        }
    }

    private static string Source(string source, string tag) => $"({source}) [{tag}]";
}
