using System.Globalization;
using Halfpin.Domain.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>A kit on the screen: what is missing first.</summary>
internal static class KitTables
{
    public static void Print(KitReport report, IAnsiConsole console)
    {
        console.WriteLine(report.CaseTitle);
        console.Write(new Rule(Markup.Escape($"Kit for {report.Name} ({report.Frame})")) { Justification = Justify.Left });
        WarningLines.Print(report.Warning, report.Status, report.Diagnosis, console);
        Missing(report, console);
        Items(report, console);
        Lengths(report, console);
        console.WriteLine("Cautions:");
        foreach (SourcedCaution c in report.Cautions)
        {
            console.WriteLine($"- {c.Text} {c.Source} [{c.Tag}]");
        }

        console.WriteLine("Allowed for:");
        foreach (Assumption a in report.Assumptions)
        {
            console.WriteLine($"- {a.Name}: {a.Value}. {a.Source} [{a.Tag}]");
        }

        console.WriteLine();
        console.WriteLine(report.SafetyNote);
    }

    private static void Missing(KitReport report, IAnsiConsole console)
    {
        if (report.Stock is null)
        {
            return;
        }

        console.WriteLine(report.Shortages.IsEmpty ? $"{report.Stock}: everything is there." : $"{report.Stock}: not everything is there.");
        foreach (Shortage s in report.Shortages)
        {
            console.WriteLine($"  MISSING  {s.Message}");
        }

        if (report.Proposal is KitProposal p)
        {
            console.WriteLine(p.Message);
            if (!p.Costs.IsEmpty)
            {
                Table table = new() { Border = TableBorder.Rounded };
                table.AddColumn("Stiffness at the fracture");
                foreach (string heading in new[] { "This frame", "Changed frame", "Change" })
                {
                    table.AddColumn(new TableColumn(heading).RightAligned());
                }

                foreach (StiffnessCost c in p.Costs)
                {
                    table.AddRow(Markup.Escape($"{c.Name}, {c.Unit}"), N(c.Before, "0.00"), N(c.After, "0.00"), c.ChangePercent is double change ? N(change, "+0;−0;0") + " %" : "–");
                }

                console.Write(table);
            }
        }
    }

    private static void Items(KitReport report, IAnsiConsole console)
    {
        Table table = new() { Border = TableBorder.Rounded };
        table.AddColumn("Item");
        table.AddColumn(new TableColumn("Length\nmm").RightAligned());
        table.AddColumn(new TableColumn("Needed").RightAligned());
        if (report.Stock is not null)
        {
            table.AddColumn(new TableColumn("In stock").RightAligned());
        }

        table.AddColumn("For");
        table.AddColumn("Remark");
        foreach (KitItem i in report.Items)
        {
            string[] cells =
            [
                i.StockName is null ? i.Description : $"{i.Description}\n{i.StockName}",
                i.LengthMm is double l ? N(l, "0.#") : "",
                $"{i.Quantity}",
                .. report.Stock is null ? Array.Empty<string>() : [i.InStock is int n ? $"{n}" : "not listed"],
                string.Join(" ", i.Parts),
                i.Reason.Length > 0 ? i.Reason : i.Kind == KitKind.Tool ? $"{i.Source} [{i.Tag}]" : "",
            ];
            table.AddRow([.. cells.Select(Markup.Escape)]);
        }

        console.Write(table);
    }

    private static void Lengths(KitReport report, IAnsiConsole console)
    {
        Table table = new() { Border = TableBorder.Rounded, Title = new("How each pin's length comes about, mm") };
        table.AddColumn("Pin");
        foreach (string heading in new[] { "Tip past\nfar cortex", "Bone", "Standoff", "Half\nclamp", "Tail", "Needed", "Taken", "Thread wanted", "Thread", "Thread out\nof bone" })
        {
            table.AddColumn(new TableColumn(heading).RightAligned());
        }

        foreach (PinLength p in report.PinLengths)
        {
            table.AddRow(
                Markup.Escape(p.Pin), N(p.TipMm, "0.#"), N(p.ChordMm, "0.0"), N(p.StandoffMm, "0.0"), N(p.HalfClampMm, "0.#"), N(p.TailMm, "0.#"), N(p.NeededMm, "0.0"),
                p.LengthMm is double l ? N(l, "0.#") : "none", $"{N(p.ThreadFromMm, "0")}–{N(p.ThreadToMm, "0")}", p.ThreadLengthMm is double t ? N(t, "0.#") : "–", p.ExposedThreadMm is double e ? N(e, "0.0") : "–");
        }

        console.Write(table);
    }

    private static string N(double value, string digits) => value.ToString(digits, CultureInfo.InvariantCulture);
}
