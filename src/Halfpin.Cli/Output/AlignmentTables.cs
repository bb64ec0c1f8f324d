using System.Globalization;
using Halfpin.Domain.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>An alignment report on the screen.</summary>
internal static class AlignmentTables
{
    public static void Print(AlignmentReport report, IAnsiConsole console)
    {
        if (report.CaseTitle is string title)
        {
            console.WriteLine(title);
        }

        foreach (Finding f in report.Findings)
        {
            console.WriteLine($"{(f.Verdict is Verdict v ? Mark(v) : "       ")} {f.Label}: {f.Text}");
        }

        console.WriteLine();
        SmallAngleRule rule = report.SmallAngleRule;
        string plane = rule is { PlaneDeg: double p, PlaneDifferenceDeg: double dp } && report.PlaneFromFrontalDeg is double exact
            ? $"; plane from the frontal plane {N(exact, "0.0")}° exactly, {N(p, "0.0")}° by the rule ({N(dp, "+0.0;−0.0;0.0")}°)" : "";
        console.WriteLine($"True angle {N(report.TrueAngleDeg, "0.00")}° exactly, {N(rule.AngleDeg, "0.00")}° by the rule of small angles ({N(rule.AngleDifferenceDeg, "+0.00;−0.00;0.00")}°){plane}.");
        if (report.Shift is AlignmentShift shift)
        {
            string where = shift is { AzimuthDeg: double a, AzimuthRange: DirectionRange s } ? $"toward azimuth {N(a, "0")}°, {N(s.FromDeg, "0")}° to {N(s.ToDeg, "0")}°" : "direction open within the error";
            console.WriteLine($"True shift of the distal end {N(shift.SizeMm, "0.0")} mm ({N(shift.SizeRange.Low, "0.0")} to {N(shift.SizeRange.High, "0.0")}), {where}.");
        }

        console.WriteLine();
        Limits("Published limits (they contradict in places; all are shown)", report.Limits, console);
        Limits("Correction indicated from", report.CorrectionIndicated, console);
        Movement(report.Corrections[0], console);
        foreach (AlignmentCorrection c in report.Corrections.Where(c => c.Frame is not null))
        {
            Frame(c, console);
        }

        console.WriteLine(report.Method);
        console.WriteLine("Signs: varus +, procurvatum +, external rotation +; the distal end medial +, anterior +; long +. Azimuth 0 anterior, +90 medial on both sides.");
        foreach (Assumption a in report.Assumptions)
        {
            console.WriteLine($"- {a.Name}: {a.Value}. {a.Source} [{a.Tag}{(a.FromCase ? ", given" : "")}]");
        }

        foreach (string caution in report.Cautions)
        {
            console.WriteLine($"! {caution}");
        }

        console.WriteLine(report.SafetyNote);
    }

    private static void Limits(string title, IEnumerable<AlignmentLimit> rows, IAnsiConsole console)
    {
        Table table = new() { Border = TableBorder.Rounded, Title = new(Markup.Escape(title)) };
        table.AddColumns("", "Of", "Found", "Source");
        foreach (AlignmentLimit r in rows)
        {
            table.AddRow([.. new[] { r.Verdict is Verdict v ? Mark(v) : "–", r.Name, r.Message, $"{r.Source} [{r.Tag}]" }.Select(Markup.Escape)]);
        }

        console.Write(table);
        console.WriteLine();
    }

    private static void Movement(AlignmentCorrection c, IAnsiConsole console)
    {
        console.WriteLine("To bring the distal fragment into line, the proximal one held:");
        foreach (string words in c.Words)
        {
            console.WriteLine($"- {words}");
        }

        if (c.AxisAzimuthDeg is double axis)
        {
            console.WriteLine($"  The axis of this turn lies across the bone at azimuth {N(axis, "0")}°; with rotation it is {N(c.WholeTurnDeg, "0.0")}° in one.");
        }

        console.WriteLine();
    }

    private static void Frame(AlignmentCorrection c, IAnsiConsole console)
    {
        console.Write(new Rule(Markup.Escape($"{c.Name} ({c.Frame})")) { Justification = Justify.Left });
        foreach (string cannot in c.CannotCorrect)
        {
            console.WriteLine(cannot);
        }

        foreach (ReductionWay way in c.Ways)
        {
            console.WriteLine($"{Mark(way.Verdict)} {way.Message}");
            Table travels = Heads("Clamp", "Along rod\nmm", "Along pin\nmm", "About rod\n°", "About pin\n°", "Hinge\n°", "Cannot follow\nmm", "Turned about it: centre\nmm across / opening", "near cortex", "far cortex", "left to shift");
            foreach (PivotTravel pivot in way.Pivots)
            {
                string[] own = way.Clamps.FirstOrDefault(t => t.Clamp == pivot.Clamp) is ClampTravel t
                    ? [N(t.SlideAlongRodMm, "0.0"), N(t.SlideAlongMemberMm, "0.0"), N(t.TurnAboutRodDeg, "0.0"), N(t.TurnAboutMemberDeg, "0.0"), N(t.HingeDeg, "0.0"), N(t.MisfitMm, "0.0")]
                    : ["–", "–", "–", "–", "–", "–"];
                travels.AddRow([.. new[] { pivot.Clamp }.Concat(own).Concat([P(pivot.Centre), P(pivot.NearCortex), P(pivot.FarCortex), P(pivot.LeftOver)]).Select(Markup.Escape)]);
            }

            console.Write(travels);
        }

        console.WriteLine();
    }

    private static Table Heads(params string[] heads)
    {
        Table table = new() { Border = TableBorder.Rounded };
        foreach (string head in heads)
        {
            table.AddColumn(new TableColumn(Markup.Escape(head)).RightAligned());
        }

        return table;
    }

    private static string P(PointTravel t) => $"{N(t.AcrossMm, "0.0")} / {N(t.OpeningMm, "0.0")}";

    private static string Mark(Verdict v) => v switch
    {
        Verdict.Pass => "ok     ",
        Verdict.Caution => "caution",
        _ => "FAIL   ",
    };

    private static string N(double value, string digits) => value.ToString(digits, CultureInfo.InvariantCulture);
}
