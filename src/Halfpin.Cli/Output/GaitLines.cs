using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>A frame through a step.</summary>
internal static class GaitLines
{
    // More rows than this are no table for a screen.
    private const int MostRows = 30;

    public static void Print(FrameAssessment frame, IAnsiConsole console)
    {
        if (frame.Gait is not GaitResult gait)
        {
            return;
        }

        bool several = !frame.Fractures.IsEmpty;
        if (gait.Phases.Length <= MostRows)
        {
            console.Write(Phases(gait, several));
        }

        if (gait is { WorstAxial: GaitWorstMotion axial, WorstShear: GaitWorstMotion shear, NearestLimit: GaitNearestLimit limit })
        {
            console.WriteLine($"Worst phase of the step: axial motion at {axial.Phase} ({N(axial.SizeMm, "0.00")} mm{At(axial)}); shear at {shear.Phase} ({N(shear.SizeMm, "0.00")} mm{At(shear)}); "
                + $"nearest limit at {limit.Phase} ({limit.Limit.Part}, {limit.Limit.Check}, {limit.Limit.Place}: {N(100 * limit.Limit.Value, "0")} % used).");
        }

        if (gait.WithheldPhases > 0)
        {
            console.WriteLine($"! {gait.WithheldPhases} of {gait.Phases.Length} phases have no answer and may be worse:");
            foreach (GaitPhaseResult p in gait.Phases.Where(p => p.Diagnosis is not null).Take(MostRows))
            {
                console.WriteLine($"  {p.Phase}: {p.Diagnosis!.Message}");
            }
        }

        string At(GaitWorstMotion w) => several ? $", fracture {w.Fracture}" : "";
    }

    private static Table Phases(GaitResult gait, bool several)
    {
        Table table = new() { Border = TableBorder.Rounded };
        table.AddColumn("Phase of the step");
        foreach (string heading in new[] { "Axial load kg", "Axial mm", "Shear mm", "Tilt °", "Twist °", "Ends", "Nearest limit" })
        {
            table.AddColumn(new TableColumn(heading).RightAligned());
        }

        foreach (GaitPhaseResult p in gait.Phases)
        {
            for (int f = 0; f < p.Motions.Length; f++)
            {
                FractureMotion m = p.Motions[f];
                UtilisationEntry u = p.Utilisation[0];
                string[] row =
                [
                    several ? $"{p.Phase}, fracture {f + 1}" : p.Phase, N(m.LoadN / Loading.NewtonPerKg, "0.#"), N(m.AxialMm, "0.00"), N(m.ShearMm, "0.00"), N(m.TiltDeg, "0.00"),
                    N(m.TwistDeg, "0.00"), m.EndsTouch ? "bear" : "apart", $"{u.Part} {u.Check} {N(100 * u.Value, "0")} %",
                ];
                table.AddRow([.. row.Select(Markup.Escape)]);
            }

            if (p.Motions.IsEmpty)
            {
                table.AddRow([Markup.Escape(p.Phase), .. Enumerable.Repeat("–", 7)]);
            }
        }

        return table;
    }

    private static string N(double value, string digits)
    {
        string text = value.ToString(digits, CultureInfo.InvariantCulture);
        return text.StartsWith('-') && text.All(c => c is '-' or '0' or '.') ? text[1..] : text;
    }
}
