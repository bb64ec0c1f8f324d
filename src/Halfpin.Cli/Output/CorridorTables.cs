using System.Globalization;
using Halfpin.Domain.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>Where half-pins may go at a level.</summary>
internal static class CorridorTables
{
    private const int TissueStep = 6;

    public static void Print(CorridorReport report, IAnsiConsole console)
    {
        console.WriteLine($"{report.CaseTitle}: {N(report.LevelMm)} mm below the knee joint line ({N(report.LevelPercent)} % of the bone), {report.Zone}.");
        console.WriteLine("Azimuths of the pin's axis where it enters: 0° straight anterior, + medial, − lateral, on either leg.");
        Table sectors = new() { Border = TableBorder.Rounded };
        sectors.AddColumns("From", "To", "Grade", "At risk");
        foreach (CorridorSector s in report.Sectors)
        {
            sectors.AddRow($"{N(s.FromDeg)}°", $"{N(s.ToDeg)}°", s.Grade.ToString().ToLowerInvariant(), Markup.Escape(string.Join("; ", s.Structures)));
        }

        console.Write(sectors);
        console.WriteLine($"{report.Sectors[0].Source} [{report.Sectors[0].Tag}]");
        if (!report.Structures.IsEmpty)
        {
            console.WriteLine($"Round the bone, from its axis: {string.Join("; ", report.Structures.Select(s => $"{s.Name} {N(s.AzimuthDeg)}°, {N(s.DistanceMm)} mm [{s.Tag}]"))}.");
        }

        SectionDirection[] forward = [.. report.Outline.Where((o, i) => i % TissueStep == 0 && o.AzimuthDeg is >= -60 and <= 120)];
        console.WriteLine($"Least standoff of an 11 mm rod with {N(report.SwellingMm)} mm for swelling: {string.Join(", ", forward.Select(o => $"{N(o.AzimuthDeg)}° {N(Math.Ceiling(o.LeastStandoffMm))} mm"))}.");
        console.WriteLine($"  {report.TissueSource}.");
        foreach (SectionPin p in report.Pins)
        {
            string behind = p.Behind.IsEmpty ? "" : $"; behind it {string.Join(", ", p.Behind)}";
            console.WriteLine($"{p.Frame}, {p.Pin} at {N(p.LevelMm)} mm, {N(p.AzimuthDeg)}°: {p.Grade.ToString().ToLowerInvariant()}{behind}.");
        }

        foreach (string caution in report.Cautions)
        {
            console.WriteLine($"! {caution}");
        }

        console.WriteLine(Safety.ShortNote);
    }

    private static string N(double value) => (Math.Round(value) + 0.0).ToString("0", CultureInfo.InvariantCulture);
}
