using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>Frames side by side, a line each.</summary>
internal static class ComparisonTable
{
    public static void Print(Case value, Assessment assessment, IAnsiConsole console)
    {
        Table table = new() { Border = TableBorder.Rounded };
        table.AddColumn("Frame");
        foreach (string heading in new[] { "Axial\nN/mm", "AP\nN·m/deg", "ML\nN·m/deg", "Torsion\nN·m/deg", "Weakest bending\nN·m/deg at" })
        {
            table.AddColumn(new TableColumn(heading).RightAligned());
        }

        bool loaded = value.Loading.IsChosen;
        if (loaded)
        {
            table.AddColumn(new TableColumn("Axial / shear\nmm").RightAligned());
        }

        table.AddColumn("Model's first limit\n(not to allow)");
        table.AddColumn(new TableColumn("Pins rods\nclamps").RightAligned());
        foreach (FrameAssessment frame in assessment.Frames)
        {
            table.AddRow([.. Row(frame, loaded).Select(Markup.Escape)]);
        }

        console.Write(table);
        console.WriteLine($"Stiffness at the fracture{Bands(assessment)}. Loading: {LoadWords.Of(value)}; overload: {LoadWords.Overload(value)}.");
        console.WriteLine(Safety.NotChecked);
        console.WriteLine();
        foreach (string sentence in assessment.Comparison)
        {
            console.WriteLine($"- {sentence}");
        }
    }

    private static IEnumerable<string> Row(FrameAssessment f, bool loaded)
    {
        yield return f.Name;
        FourStiffnesses? s = f.Stiffness?.AtFracture;
        if (s is null)
        {
            foreach (string cell in new[] { "–", "–", "–", "–", "–" })
            {
                yield return cell;
            }
        }
        else
        {
            string band = f.Band is ResultBand b && s.AxialNPerMm > 0 ? $" ({N(b.Low.AxialNPerMm, "0")}–{N(b.High.AxialNPerMm, "0")})" : "";
            yield return s.AxialNPerMm == 0 ? "free" : N(s.AxialNPerMm, "0") + band;
            yield return Stiff(s.ApBendingNmPerDeg, "0.0");
            yield return Stiff(s.MlBendingNmPerDeg, "0.0");
            yield return Stiff(s.TorsionNmPerDeg, "0.00");
            yield return f.BendingRose is BendingRose r ? $"{N(r.WeakNmPerDeg, "0.0")} at {N(r.WeakAzimuthDeg, "0")}°" : "–";
        }

        if (loaded)
        {
            yield return f.Motion is FractureMotion m
                ? string.Join("; ", f.Fractures.IsEmpty ? [Of(m)] : f.Fractures.Select(r => Of(r.Motion!)))
                : "withheld";
        }

        yield return f.Status == FrameStatus.Mechanism ? "mechanism" : f.FirstLimit is FirstLimit l ? LoadWords.Limit(l, f.Band?.FirstLimitKg) : f.Freedoms.IsEmpty ? "not worked out" : "slides as intended";
        yield return $"{f.Kit.Pins} {f.Kit.Rods} {f.Kit.Clamps}";
    }

    private static string Of(FractureMotion m) => $"{N(m.AxialMm, "0.00")} / {N(m.ShearMm, "0.00")}";

    private static string Stiff(double value, string digits) => value == 0 ? "free" : N(value, digits);

    private static string Bands(Assessment a) => a.Frames.Select(f => f.Band?.Inputs).FirstOrDefault(i => i is not null) is string inputs
        ? $"; in brackets the span over {inputs}"
        : "";

    private static string N(double value, string digits) => value.ToString(digits, CultureInfo.InvariantCulture);
}
