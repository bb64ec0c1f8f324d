using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>One frame in full.</summary>
internal static class FrameTables
{
    private const int UtilisationRows = 8;

    public static void Print(FrameAssessment frame, IAnsiConsole console)
    {
        console.Write(new Rule(Markup.Escape($"{frame.Name} ({frame.Id})")) { Justification = Justify.Left });
        console.WriteLine($"{frame.Kit.Pins} pins, {frame.Kit.Rods} rods, {frame.Kit.Clamps} clamps. Status: {frame.Status}.");
        if (frame.Diagnosis is Diagnosis d)
        {
            console.WriteLine(d.Message);
            console.WriteLine($"Try: {d.Try}");
        }

        if (frame.Stiffness is FrameStiffness stiffness)
        {
            Stiffness(stiffness, frame, console);
            Motion(frame, console);
            ContactLines.Print(frame, console);
            Utilisation(frame, console);
            GaitLines.Print(frame, console);
        }

        Checks(frame, console);
        console.WriteLine();
    }

    private static void Stiffness(FrameStiffness s, FrameAssessment frame, IAnsiConsole console)
    {
        Table table = New("Stiffness", "Axial N/mm", "AP N·m/deg", "ML N·m/deg", "Torsion N·m/deg");
        Row(frame.Fractures.IsEmpty ? "at the fracture" : "at fracture 1", s.AtFracture);
        if (frame.Band is ResultBand band)
        {
            Row("  all soft", band.Low);
            Row("  all stiff", band.High);
        }

        for (int i = 1; i < frame.Fractures.Length; i++)
        {
            Row($"at fracture {i + 1}", frame.Fractures[i].AtFracture);
        }

        Row("at the load, potted or ball ends", s.AtLoad.Potted);
        table.AddRow("at the load, guided ends", N(s.AtLoad.Guided.AxialNPerMm, "0.0"), "", "", "");
        console.Write(table);
        if (frame.Band is not null)
        {
            console.WriteLine($"Band: {frame.Band.Inputs}.");
            if (frame.FirstLimit is FirstLimit first)
            {
                console.WriteLine($"Model's first limit as an axial load grows once (not a load to allow): {LoadWords.Limit(first, frame.Band.FirstLimitKg)}.");
            }
        }

        void Row(string place, FourStiffnesses f) => table.AddRow(
            place, N(f.AxialNPerMm, "0.0"), N(f.ApBendingNmPerDeg, "0.00"), N(f.MlBendingNmPerDeg, "0.00"), N(f.TorsionNmPerDeg, "0.000"));
    }

    private static void Motion(FrameAssessment frame, IAnsiConsole console)
    {
        Table table = New($"Motion at the {(frame.Fractures.IsEmpty ? "fracture" : "fractures")}", "Axial mm", "Shear mm", "Tilt °", "Twist °", "Closing near / far mm", "Strain %");
        foreach ((string name, FractureMotion? motion) in MotionRows(frame))
        {
            if (motion is { LoadN: > 0 } m)
            {
                table.AddRow(
                    $"{name}, {N(m.LoadN / Loading.NewtonPerKg, "0.#")} kg", N(m.AxialMm, "0.00"), N(m.ShearMm, "0.00"), N(m.TiltDeg, "0.00"), N(m.TwistDeg, "0.00"),
                    $"{N(m.ClosingNearMm, "0.00")} / {N(m.ClosingFarMm, "0.00")}", m.StrainPercent is double s ? N(s, "0") : "–");
            }
        }

        if (table.Rows.Count > 0)
        {
            console.Write(table);
        }
    }

    // The chosen load and the overload, at every fracture if there are several.
    private static IEnumerable<(string Name, FractureMotion? Motion)> MotionRows(FrameAssessment frame) => frame.Fractures.IsEmpty
        ? [("chosen load", frame.Motion), ("overload", frame.OverloadMotion)]
        : frame.Fractures.SelectMany((f, i) => new[] { ($"fracture {i + 1}, chosen load", f.Motion), ($"fracture {i + 1}, overload", f.OverloadMotion) });

    private static void Utilisation(FrameAssessment frame, IAnsiConsole console)
    {
        if (frame.Utilisation.IsEmpty || frame.Utilisation[0].Value == 0)
        {
            return;
        }

        Table table = New("Nearest limits", "Check", "Place", "Used");
        foreach (UtilisationEntry u in frame.Utilisation.Take(UtilisationRows))
        {
            table.AddRow(Markup.Escape(u.Part), u.Check, Markup.Escape(u.Place), N(100 * u.Value, "0") + " %");
        }

        console.Write(table);
    }

    /// <summary>A frame's rules alone, worst first, with their sources.</summary>
    public static void PrintChecks(FrameAssessment frame, IAnsiConsole console)
    {
        int Count(Verdict verdict) => frame.Checks.Count(c => c.Verdict == verdict);
        console.Write(new Rule(Markup.Escape($"{frame.Name} ({frame.Id})")) { Justification = Justify.Left });
        bool held = frame.Status is FrameStatus.Ok or FrameStatus.OutOfRange;
        console.WriteLine($"{Count(Verdict.Fail) + (held ? 0 : 1)} failed, {Count(Verdict.Caution)} with caution, {Count(Verdict.Pass)} passed.");
        if (frame.Diagnosis is Diagnosis d)
        {
            console.WriteLine($"{Sign(held ? Verdict.Caution : Verdict.Fail)} {d.Message} {d.Try}");
        }

        foreach (Check check in frame.Checks)
        {
            console.WriteLine($"{Sign(check.Verdict)} {check.Message}{(check.Cure.Length > 0 ? " " + check.Cure : "")}");
            console.WriteLine($"            {check.Source} [{check.Tag}]");
        }

        console.WriteLine();
    }

    private static void Checks(FrameAssessment frame, IAnsiConsole console)
    {
        foreach (Check check in frame.Checks)
        {
            console.WriteLine($"{Sign(check.Verdict)} {check.Message}{(check.Cure.Length > 0 ? " " + check.Cure : "")} [{check.Tag}]");
        }
    }

    /// <summary>A verdict as a sign and a word, so that colour is never needed.</summary>
    public static string Sign(Verdict verdict) => verdict switch
    {
        Verdict.Fail => "✕ fail   ",
        Verdict.Caution => "! caution",
        _ => "✓ pass   ",
    };

    private static Table New(string first, params string[] columns)
    {
        Table table = new() { Border = TableBorder.Rounded };
        table.AddColumn(first);
        foreach (string c in columns)
        {
            table.AddColumn(new TableColumn(c).RightAligned());
        }

        return table;
    }

    // Rounding to nothing leaves no minus sign.
    private static string N(double value, string digits)
    {
        string text = value.ToString(digits, CultureInfo.InvariantCulture);
        return text.StartsWith('-') && text.All(c => c is '-' or '0' or '.') ? text[1..] : text;
    }
}
