using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Words;
using Halfpin.Search;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>The suggestion first, then what else there is and how the case's own frames fare.</summary>
internal static class SuggestTables
{
    public static void Print(SuggestReport report, IAnsiConsole console)
    {
        console.WriteLine($"{report.CaseTitle}: {report.Purpose.ToString().ToLowerInvariant()} frame.");
        if (report.Simplest is SuggestedFrame simplest)
        {
            Simplest(simplest, console);
        }
        else
        {
            console.WriteLine("Nothing that was tried meets all requirements.");
            foreach (RequirementConflict conflict in report.Conflicts)
            {
                console.WriteLine($"✕ {conflict.Words}");
                if (conflict.NearestMiss is Frame near)
                {
                    console.WriteLine($"  Nearest miss: {FrameWords.Line(near)}.");
                }
            }
        }

        Own(report, console);
        Pareto(report, console);
        Searched(report, console);
        console.WriteLine("Required:");
        foreach (RequirementNote r in report.Requirements)
        {
            console.WriteLine($"  {r.Words} [{r.Tag}]");
        }

        foreach (Assumption a in report.Assumptions)
        {
            console.WriteLine($"  {a.Name}: {a.Value} [{a.Tag}]");
        }

        console.WriteLine(Safety.NotChecked);
        foreach (string caution in Safety.Cautions)
        {
            console.WriteLine($"! {caution}");
        }

        console.WriteLine(report.SafetyNote);
    }

    private static void Simplest(SuggestedFrame f, IAnsiConsole console)
    {
        console.WriteLine($"Simplest that meets all requirements: {FrameWords.Line(f.Frame)}.");
        console.WriteLine($"  {f.Parts.Pins} pins, {f.Parts.Rods} {(f.Parts.Rods == 1 ? "rod" : "rods")}, {f.Parts.Clamps} clamps; {N(f.AxialNPerMm, "0")} N/mm axial, {N(f.WeakBendingNmPerDeg, "0.0")} N·m/deg in its weakest bending, {N(f.TorsionNmPerDeg, "0.00")} in torsion; axial motion {N(f.AxialMm, "0.00")} mm at the chosen load, {N(f.OverloadAxialMm, "0.0")} in the overload.");
        if (f.BetweenBendingNmPerDeg is double between)
        {
            console.WriteLine($"  Holds the fragments between the fractures by {N(between, "0.0")} N·m/deg in their weakest bending; the stiffnesses above are against loads on the end of the bone, which run past them.");
        }

        console.WriteLine($"  Narrowest requirement: {f.NarrowestRequirement}, {N(f.LeastMarginPercent, "0")} % left.{Room(f)}{Soft(f)}");
        foreach (Check check in f.Checks.Where(c => c.Verdict != Verdict.Pass))
        {
            console.WriteLine($"  {FrameTables.Sign(check.Verdict)} {check.Message}{(check.Cure.Length > 0 ? " " + check.Cure : "")} [{check.Tag}]");
        }
    }

    private static string Room(SuggestedFrame f) => f.SkinRoomMm is double room ? $" Rod to skin {N(room, "0")} mm." : "";

    private static string Soft(SuggestedFrame f) => f.HoldsWhenSoft switch
    {
        true => " Meets all requirements at the soft end of clamps and bone too.",
        false => " Does not meet all of them at the soft end of clamps and bone: measure the clamps on a bench.",
        null => "",
    };

    private static void Own(SuggestReport report, IAnsiConsole console)
    {
        Table table = new() { Border = TableBorder.Rounded };
        table.AddColumns("Frame of the case", "Parts", "Cost", "Against the requirements", "Smallest change that makes it pass");
        foreach (CaseFrameStanding s in report.CaseFrames)
        {
            string change = report.SmallestChanges.FirstOrDefault(c => c.Frame == s.Frame)?.Text ?? "";
            table.AddRow(Markup.Escape(s.Frame), N(s.Parts, "0"), N(s.CostPoints, "0"), Markup.Escape(s.Verdict), Markup.Escape(change));
        }

        console.Write(table);
    }

    private static void Pareto(SuggestReport report, IAnsiConsole console)
    {
        if (report.Pareto.IsEmpty)
        {
            return;
        }

        Table table = new() { Border = TableBorder.Rounded };
        bool segmental = report.Pareto.Any(f => f.BetweenBendingNmPerDeg is not null);
        table.AddColumns(["To choose from: none beats another in everything", "Parts", "Cost", "Axial N/mm", "Weak bending", .. segmental ? (string[])["Hold between"] : [], "Skin mm", "Margin", "Soft"]);
        foreach (SuggestedFrame f in report.Pareto)
        {
            table.AddRow(
            [
                Markup.Escape(FrameWords.Line(f.Frame)), N(f.Parts.Pins + f.Parts.Rods + f.Parts.Clamps, "0"), N(f.CostPoints, "0"), N(f.AxialNPerMm, "0"), N(f.WeakBendingNmPerDeg, "0.0"),
                .. segmental ? (string[])[f.BetweenBendingNmPerDeg is double between ? N(between, "0.0") : "–"] : [],
                f.SkinRoomMm is double room ? N(room, "0") : "–", $"{N(f.LeastMarginPercent, "0")} %", f.HoldsWhenSoft switch { true => "holds", false => "misses", null => "–" },
            ]);
        }

        console.Write(table);
    }

    private static void Searched(SuggestReport report, IAnsiConsole console)
    {
        SearchCount s = report.Searched;
        console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Tried all {s.Candidates:#,0} candidates in {s.Seconds:0.0} s: {s.Filtered:#,0} turned away by rules of placement, {s.Solved:#,0} solved, {s.Feasible:#,0} meet all requirements; {s.Candidates / Math.Max(s.Seconds, 1e-3):#,0} a second."));
        if (!s.Rules.IsEmpty)
        {
            console.WriteLine($"Turned away by: {string.Join(", ", s.Rules.Select(r => string.Create(CultureInfo.InvariantCulture, $"{Suggester.WordsOf(r.Rule) ?? r.Rule} {r.Candidates:#,0}")))}.");
        }
    }

    private static string N(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
