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

        bool several = report.Weeks.Any(w => !w.Fractures.IsEmpty);
        RemovalThreshold t = report.RemovalThreshold;
        console.WriteLine($"* Callus at or above {N(t.BendingNmPerDeg, "0.#")} N·m/deg in both planes. {t.Source} [{t.Tag}].");
        console.WriteLine($"  {t.Failures} No sign that a frame may come off.");
        console.WriteLine("Loads are the surgeon's; what is left to a limit at them permits nothing.");
        console.WriteLine();
        console.WriteLine("Assumed for healing:");
        foreach (Assumption a in report.Assumptions.Take(HealingOwn + (several ? 1 : 0)))
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
            HealingFractureResult[] places = w.Fractures.IsEmpty
                ? [new() { LevelMm = 0, Motion = w.Motion, FrameLoadShare = w.FrameLoadShare, StrainNearPercent = w.StrainNearPercent, StrainFarPercent = w.StrainFarPercent, CallusBendingNmPerDeg = w.CallusBendingNmPerDeg }]
                : [.. w.Fractures];
            for (int f = 0; f < places.Length; f++)
            {
                string place = places.Length == 1 ? "" : $", fracture {f + 1}{(w.MostStrainedFracture == f + 1 ? " (most strained)" : "")}";
                table.AddRow([.. Row(w, places[f], N(w.Week, "0.#") + place, f == 0, threshold).Select(Markup.Escape)]);
            }
        }

        console.Write(table);
    }

    // What holds for the whole frame stands in the first row of a week.
    private static IEnumerable<string> Row(HealingWeekResult w, HealingFractureResult place, string week, bool first, RemovalThreshold threshold)
    {
        CallusBending b = place.CallusBendingNmPerDeg;
        bool reached = Math.Min(b.Ap, b.Ml) >= threshold.BendingNmPerDeg;
        yield return week;
        yield return first ? N(w.CallusModulusMPa, "0.###") + (w.Tissue is null ? "" : $" {w.Tissue}") : "";
        yield return first ? N(w.LoadKg, "0.#") : "";
        yield return place.Motion is FractureMotion m ? $"{N(m.AxialMm, "0.000")} / {N(m.ShearMm, "0.000")}" : "withheld";
        yield return place is { StrainNearPercent: double near, StrainFarPercent: double far } ? $"{N(near, "0.00")} / {N(far, "0.00")}" : "–";
        yield return place.FrameLoadShare is double share ? $"{N(100 * share, "0.0")} %" : "–";
        yield return $"{N(b.Ap, "0.00")} / {N(b.Ml, "0.00")}{(reached ? " *" : "")}";
        yield return !first ? "" : w.NearestLimit is UtilisationEntry u ? $"{u.Part} {u.Check}, {u.Place}" : "–";
        yield return !first ? "" : w.MarginPercent is double left ? $"{N(left, "0")} %" : "–";
    }

    private static string N(double value, string digits) => value.ToString(digits, CultureInfo.InvariantCulture);
}
