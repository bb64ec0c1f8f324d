using System.Globalization;
using Halfpin.Domain.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>A healing report on the screen.</summary>
internal static class HealingTables
{
    public static void Print(HealingReport report, IAnsiConsole console)
    {
        console.WriteLine(report.CaseTitle);
        foreach (HealingFrame frame in report.Frames)
        {
            console.Write(new Rule(Markup.Escape($"{frame.Name} ({frame.Id})")) { Justification = Justify.Left });
            if (frame.Diagnosis is Diagnosis d)
            {
                console.WriteLine(d.Message);
                console.WriteLine($"Try: {d.Try}");
            }

            Weeks([.. report.Weeks.Where(w => w.Frame == frame.Id)], report.RemovalThreshold, console);
            console.WriteLine();
        }

        RemovalThreshold t = report.RemovalThreshold;
        console.WriteLine($"* Callus at or above {N(t.BendingNmPerDeg, "0.#")} N·m/deg in both planes. {t.Source} [{t.Tag}].");
        console.WriteLine($"  {t.Failures} No sign that a frame may come off.");
        console.WriteLine("Loads are the surgeon's; what is left to a limit at them permits nothing.");
        console.WriteLine();
        console.WriteLine("Assumed for healing:");
        foreach (Assumption a in report.Assumptions.Take(HealingOwn))
        {
            console.WriteLine($"- {a.Name}: {a.Value}. {a.Source} [{a.Tag}{(a.FromCase ? ", from the case" : "")}]");
        }

        console.WriteLine(report.SafetyNote);
    }

    // The first assumptions of the list are those of healing; the rest stand in every assessment.
    private const int HealingOwn = 5;

    private static void Weeks(HealingWeekResult[] weeks, RemovalThreshold threshold, IAnsiConsole console)
    {
        if (weeks.Length == 0)
        {
            return;
        }

        Table table = new() { Border = TableBorder.Rounded };
        table.AddColumn("Week");
        table.AddColumn("Callus MPa");
        foreach (string heading in new[] { "Load\nkg", "Axial / shear\nmm", "Strain near / far\n%", "Frame\ncarries", "Callus AP / ML\nN·m/deg", "Nearest limit\nat this load", "Left to it" })
        {
            table.AddColumn(new TableColumn(heading).RightAligned());
        }

        foreach (HealingWeekResult w in weeks)
        {
            CallusBending b = w.CallusBendingNmPerDeg;
            bool reached = Math.Min(b.Ap, b.Ml) >= threshold.BendingNmPerDeg;
            table.AddRow([.. new[]
            {
                N(w.Week, "0.#"),
                N(w.CallusModulusMPa, "0.###") + (w.Tissue is null ? "" : $" {w.Tissue}"),
                N(w.LoadKg, "0.#"),
                w.Motion is FractureMotion m ? $"{N(m.AxialMm, "0.000")} / {N(m.ShearMm, "0.000")}" : "withheld",
                w is { StrainNearPercent: double near, StrainFarPercent: double far } ? $"{N(near, "0.00")} / {N(far, "0.00")}" : "–",
                w.FrameLoadShare is double share ? $"{N(100 * share, "0.0")} %" : "–",
                $"{N(b.Ap, "0.00")} / {N(b.Ml, "0.00")}{(reached ? " *" : "")}",
                w.NearestLimit is UtilisationEntry u ? $"{u.Part} {u.Check}, {u.Place}" : "–",
                w.MarginPercent is double left ? $"{N(left, "0")} %" : "–",
            }.Select(Markup.Escape)]);
        }

        console.Write(table);
    }

    private static string N(double value, string digits) => value.ToString(digits, CultureInfo.InvariantCulture);
}
