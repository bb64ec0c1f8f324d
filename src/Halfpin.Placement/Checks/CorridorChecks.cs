using Halfpin.Anatomy.Corridors;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Placement.Corridors;
using static Halfpin.Placement.Checks.CheckWords;

namespace Halfpin.Placement.Checks;

/// <summary>Pins against the anatomy round the bone: where they enter, what their way in meets, what lies behind their tips.</summary>
internal static class CorridorChecks
{
    // ASSUMED: nearer than this to a named structure, the way in deserves a look.
    private const double WayInMm = 5;

    public static IEnumerable<Check> Of(PlacedFrame frame) => frame.Skin is null ? [] : [Entry(frame), WayIn(frame), Tips(frame)];

    private static Check Entry(PlacedFrame frame)
    {
        (Pin Pin, CorridorGrade Grade, double Percent, double AzimuthDeg)[] pins = [.. frame.Parts.Pins.Select((p, i) =>
        {
            (double level, double azimuth) = PinPassage.EntryPoint(frame.Pins[i]);
            return (p, PinPassage.Entry(frame.Bone, p, frame.Pins[i]), 100 * level / frame.Bone.LengthMm, azimuth);
        })];
        CorridorGrade worst = pins.Max(p => p.Grade);
        var at = pins.Where(p => p.Grade == worst).ToArray();
        CorridorSector sector = TibiaCorridors.SectorsAt(at[0].Percent).First(s => at[0].AzimuthDeg <= s.ToDeg);
        string who = List(at.Select(p => $"{p.Pin.Id} ({Deg(p.AzimuthDeg)})"));
        string zones = List(at.Select(p => TibiaCorridors.ZoneName(p.Percent)));
        if (worst <= CorridorGrade.Safe)
        {
            string message = worst == CorridorGrade.Preferred ? $"All {pins.Length} pins enter by preferred sectors." : $"All {pins.Length} pins enter by safe sectors; {who} by one that is not preferred.";
            return new("corridor", Verdict.Pass, message, "", sector.Source, sector.Tag);
        }

        string risk = List(at.SelectMany(p => TibiaCorridors.StructuresAt(p.Percent, p.AzimuthDeg)));
        string near = risk.Length > 0 ? risk : "the edge of what is to be avoided";
        string cure = string.Join(' ', at.Select(p => Turn(p.Pin.Id, p.Percent, p.AzimuthDeg)).Distinct());
        return worst == CorridorGrade.Caution
            ? new("corridor", Verdict.Caution, $"{who} {Enter(at.Length)} where dissection is due, {zones}: {near}.", $"{cure} Else cut, spread to bone and use a sleeve.", sector.Source, sector.Tag)
            : new("corridor", Verdict.Fail, $"{who} {Enter(at.Length)} where no half-pin should, {zones}: {near}.", cure, sector.Source, sector.Tag);
    }

    private static Check WayIn(PlacedFrame frame)
    {
        (string Pin, NearStructure Structure)[] met = [.. frame.Parts.Pins.SelectMany((p, i) => PinPassage.Near(
                frame.Bone, p, frame.Pins[i], frame.Pins[i].SurfaceMm, frame.SkinMm(i), WayInMm).Select(s => (p.Id, s))).OrderBy(m => m.s.GapMm)];
        if (met.Length == 0)
        {
            return new("way-in", Verdict.Pass, $"Between skin and bone no pin comes within {Mm(WayInMm)} of a large vessel, a nerve or the fibula.", "", "Courses on measured bone", "ESTIMATE");
        }

        (string pin, NearStructure s) = met[0];
        return new("way-in", s.GapMm < PinPassage.SleeveMm ? Verdict.Fail : Verdict.Caution,
            $"On its way in {pin} {(s.GapMm < 0 ? "meets" : $"passes {Mm(s.GapMm)} from")} the {s.Name}.", $"Turn {pin} into the preferred sector, or expose the structure.", s.Source, s.Tag);
    }

    private static Check Tips(PlacedFrame frame)
    {
        const string Rule = "Tip no more than 2 mm past the far cortex, never over 5 mm: common practice; what lies behind is derived from estimated courses";
        (Pin Pin, IEnumerable<string> Behind)[] pins = [.. frame.Parts.Pins.Select((p, i) => (p, (IEnumerable<string>)PinPassage.Behind(frame.Bone, frame.Pins[i])))];
        Pin proud = pins.MaxBy(p => p.Pin.TipBeyondMm).Pin;
        if (proud.TipBeyondMm > PinPassage.TipCautionMm)
        {
            string behind = List(pins.First(p => p.Pin == proud).Behind);
            return new("tip", proud.TipBeyondMm > PinPassage.TipNeverMm ? Verdict.Fail : Verdict.Caution,
                $"The tip of {proud.Id} stands {Text(proud.TipBeyondMm, "0.#")} mm beyond the far cortex{(behind.Length > 0 ? $", toward the {behind}" : "")}.", $"Draw {proud.Id} back to at most 2 mm.", Rule, "MEMORY");
        }

        var facing = pins.SelectMany(p => p.Behind.Select(b => (p.Pin.Id, Behind: b))).GroupBy(p => p.Behind).ToArray();
        string warn = facing.Length == 0 ? "" : $" Behind {string.Join("; behind ", facing.Select(g => $"{List(g.Select(p => p.Id))} the {g.Key}"))}: go no deeper, and see the tip on the image.";
        return new("tip", Verdict.Pass, $"All tips end within 2 mm of the far surface.{warn}", "", Rule, "MEMORY");
    }

    private static string Enter(int count) => count == 1 ? "enters" : "enter";
}
