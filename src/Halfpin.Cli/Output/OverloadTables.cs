using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>An overload report on the screen.</summary>
internal static class OverloadTables
{
    public static void Print(OverloadReport report, IAnsiConsole console)
    {
        console.WriteLine(report.CaseTitle);
        console.WriteLine($"{report.Name}: axial load from 0 to {N(report.ToN, "0.#")} N and back.");
        if (report.Diagnosis is Diagnosis d)
        {
            console.WriteLine($"{d.Message} Try: {d.Try}");
        }
        else
        {
            if (report.Ended is string ended)
            {
                console.WriteLine($"Incomplete. {ended}");
            }

            Events(report, console);
            Corners(report.Path, console, report.Fractures.IsEmpty ? null : "Fracture 1");
            for (int f = 1; f < report.Fractures.Length; f++)
            {
                Corners(report.Fractures[f].Path, console, $"Fracture {f + 1}");
            }

            for (int f = 0; report.SetMm is not null && f < report.Fractures.Length; f++)
            {
                console.WriteLine($"Left between the faces of fracture {f + 1} when the load is off: {N(report.Fractures[f].SetMm!.Value, "0.00")} mm.");
            }

            if (report is { SetMm: double set, Fractures.IsEmpty: true })
            {
                console.WriteLine($"Left between the fracture faces when the load is off: {N(set, "0.00")} mm.");
            }

            if (report.SetBefore is OverloadSet before)
            {
                console.WriteLine(before.Message);
            }
        }

        foreach (string assumption in report.Assumptions)
        {
            console.WriteLine($"- {assumption}");
        }

        console.WriteLine();
        console.WriteLine(report.SafetyNote);
    }

    private static void Events(OverloadReport report, IAnsiConsole console)
    {
        if (report.Events.IsEmpty)
        {
            console.WriteLine("Nothing slips, touches or reaches a limit.");
        }

        for (int i = 0; i < report.Events.Length; i++)
        {
            console.WriteLine($"{i + 1}. {report.Events[i].Message}");
        }
    }

    private static void Corners(ImmutableArray<OverloadPoint> path, IAnsiConsole console, string? title)
    {
        Table table = new() { Border = TableBorder.Rounded, Title = title is null ? null : new(title) };
        foreach (string heading in new[] { "Load\nN", "Axial\nmm", "Shear\nmm", "Tilt\n°", "Twist\n°", "Frame\ncarries" })
        {
            table.AddColumn(new TableColumn(heading).RightAligned());
        }

        foreach (OverloadPoint p in path)
        {
            table.AddRow(
                N(p.LoadN, "0"), N(p.AxialMm, "0.00"), N(p.ShearMm, "0.00"), N(p.TiltDeg, "0.00"), N(p.TwistDeg, "0.00"),
                p.FrameShare is double share ? N(100 * share, "0") + " %" : "–");
        }

        console.Write(table);
    }

    private static string N(double value, string digits)
    {
        string text = value.ToString(digits, CultureInfo.InvariantCulture);
        return text.StartsWith('-') && text.All(c => c is '-' or '0' or '.') ? text[1..] : text;
    }
}
