using System.Collections.Immutable;
using Halfpin.Anatomy.Corridors;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Placement.Corridors;
using static Halfpin.Placement.Checks.CheckWords;

namespace Halfpin.Placement.Checks;

/// <summary>Pins against the anatomy round the bone: where they enter, what their way in meets, what lies behind their tips.</summary>
internal static class CorridorChecks
{
    public static readonly ImmutableArray<PlacementRule> Rules = [new("corridor", JudgeEntry, Entry), new("way-in", JudgeWayIn, WayIn), new("tip", JudgeTips, Tips)];

    private static Verdict? JudgeEntry(PlacedFrame frame)
    {
        if (frame.Skin is null)
        {
            return null;
        }

        CorridorGrade worst = CorridorGrade.Preferred;
        foreach (PinSite site in frame.Sites)
        {
            worst = site.Entry.Grade > worst ? site.Entry.Grade : worst;
        }

        return worst <= CorridorGrade.Safe ? Verdict.Pass : worst == CorridorGrade.Caution ? Verdict.Caution : Verdict.Fail;
    }

    private static Telling Entry(PlacedFrame frame, Verdict verdict)
    {
        PinEntry[] pins = [.. frame.Parts.Pins.Select((p, i) =>
        {
            (CorridorGrade grade, double level) = frame.Sites[i].Entry;
            (double middle, double azimuth) = PinPassage.EntryPoint(frame.Pins[i]);
            return new PinEntry(p, grade, 100 * level / frame.Bone.LengthMm, azimuth, level == middle ? null : level);
        })];
        CorridorGrade worst = pins.Max(p => p.Grade);
        CorridorSector sector = TibiaCorridors.SectorsAt(pins.First(p => p.Grade == worst).Percent)[0];
        if (verdict == Verdict.Pass)
        {
            string within = string.Concat(pins.SelectMany(p => TibiaCorridors.StructuresAt(p.Percent, p.AzimuthDeg).Select(s => (p.Pin.Id, s))).GroupBy(p => p.s).Select(g => $" At {List(g.Select(p => p.Id))}: {g.Key}."));
            string safe = List(pins.Where(p => p.Grade == CorridorGrade.Safe).Select(p => p.Words));
            return new($"All {pins.Length} pins enter by {(safe.Length == 0 ? "preferred sectors" : $"safe sectors; {safe} by one that is not preferred")}.{within}", "", sector.Source, sector.Tag);
        }

        string message = string.Join(' ', pins.Where(p => p.Grade >= CorridorGrade.Caution).GroupBy(p => p.Grade).OrderByDescending(g => g.Key).Select(g =>
            $"{List(g.Select(p => p.Words))} {(g.Count() == 1 ? "enters" : "enter")} {(g.Key == CorridorGrade.Avoid ? "where no half-pin should" : "where dissection is due")}: {List(g.Select(Risk))}."));
        string cure = string.Join(' ', pins.Where(p => p.Grade >= CorridorGrade.Caution).Select(p => Cure(frame, p.Pin)));
        return new(message, verdict == Verdict.Caution ? $"{cure} Else cut, spread to bone and use a sleeve." : cure, sector.Source, sector.Tag);
    }

    private static string Risk(PinEntry pin)
    {
        string risk = List(TibiaCorridors.StructuresAt(pin.Percent, pin.AzimuthDeg));
        return $"{TibiaCorridors.ZoneName(pin.Percent)}{(risk.Length > 0 ? $", {risk}" : "")}";
    }

    private static string Cure(PlacedFrame frame, Pin pin) => PinMove.For(frame.Bone, pin) switch
    {
        null => $"No safe place is near: {pin.Id} needs another level.",
        { AlongMm: 0 } turn => $"Turn {pin.Id} to {Deg(turn.AzimuthDeg)}.",
        PinMove move => $"Move {pin.Id} {Mm(Math.Abs(move.AlongMm))} {(move.AlongMm > 0 ? "distally" : "proximally")}{(move.AzimuthDeg == pin.AzimuthDeg ? "" : $" and turn it to {Deg(move.AzimuthDeg)}")}.",
    };

    private static Verdict? JudgeWayIn(PlacedFrame frame)
    {
        if (frame.Skin is null)
        {
            return null;
        }

        Verdict verdict = Verdict.Pass;
        foreach (PinSite site in frame.Sites)
        {
            foreach (NearStructure near in site.WayIn)
            {
                verdict = IsDeep(near) || verdict == Verdict.Fail ? Verdict.Fail : IsMet(near) ? Verdict.Caution : verdict;
            }
        }

        return verdict;
    }

    private static bool IsMet(NearStructure near) => !near.IsSubcutaneous || near.GapMm < 0;

    private static bool IsDeep(NearStructure near) => !near.IsSubcutaneous && near.GapMm < PinPassage.SleeveMm;

    private static Telling WayIn(PlacedFrame frame, Verdict verdict)
    {
        (string Pin, NearStructure Structure)[] met = [.. frame.Parts.Pins.SelectMany((p, i) => frame.Sites[i].WayIn.Select(s => (p.Id, s))).Where(m => IsMet(m.s)).OrderBy(m => m.s.GapMm)];
        if (verdict == Verdict.Pass)
        {
            return new($"Between skin and bone no pin comes within {Mm(PinPassage.WayInMm)} of what is followed: tibial and peroneal vessels and nerves, saphenous nerve and vein, fibula.", "", "Courses on measured bone", "ESTIMATE");
        }

        string message = string.Join("; ", met.Select(m => $"{m.Pin} {(m.Structure.GapMm < 0 ? "meets" : $"passes {Mm(m.Structure.GapMm)} from")} the {m.Structure.Name}"));
        return new($"On their way in, by estimated courses: {message}.",
            $"Turn {List(met.Select(m => m.Pin))} away, or {(verdict == Verdict.Fail ? "expose the structure and guard it" : "cut, spread to bone and use a sleeve")}.", met[0].Structure.Source, met[0].Structure.Tag);
    }

    private static Verdict? JudgeTips(PlacedFrame frame)
    {
        if (frame.Skin is null)
        {
            return null;
        }

        double farthest = double.NegativeInfinity;
        foreach (Pin pin in frame.Parts.Pins)
        {
            farthest = Math.Max(farthest, pin.TipBeyondMm);
        }

        return farthest > PinPassage.TipNeverMm ? Verdict.Fail : farthest > PinPassage.TipCautionMm ? Verdict.Caution : Verdict.Pass;
    }

    private static Telling Tips(PlacedFrame frame, Verdict verdict)
    {
        const string Rule = "Tip no more than 2 mm past the far cortex, never over 5 mm: common practice (MEMORY); what lies behind by windows of entry (DERIVED) and estimated courses";
        (Pin Pin, IEnumerable<string> Behind)[] pins = [.. frame.Parts.Pins.Select((p, i) => (p, (IEnumerable<string>)frame.Sites[i].Behind))];
        if (verdict != Verdict.Pass)
        {
            Pin[] proud = [.. pins.Select(p => p.Pin).Where(p => p.TipBeyondMm > PinPassage.TipCautionMm).OrderByDescending(p => p.TipBeyondMm)];
            string far = string.Join("; ", proud.Select(p =>
            {
                string behind = List(pins.First(q => q.Pin == p).Behind);
                return $"the tip of {p.Id} stands {Text(p.TipBeyondMm, "0.#")} mm beyond the far cortex{(behind.Length > 0 ? $", toward the {behind}" : "")}";
            }));
            return new($"{Capital(far)}.", $"Draw {List(proud.Select(p => p.Id))} back to at most 2 mm.", Rule, "ESTIMATE");
        }

        var facing = pins.SelectMany(p => p.Behind.Select(b => (p.Pin.Id, Behind: b))).GroupBy(p => p.Behind).ToArray();
        string warn = facing.Length == 0 ? "" : $" Behind {string.Join("; behind ", facing.Select(g => $"{List(g.Select(p => p.Id))} the {g.Key}"))}: no deeper, and the image shows the tip.";
        return new($"All tips end within 2 mm of the far surface.{warn}", "", Rule, "ESTIMATE");
    }

    /// <summary>A pin where it enters.</summary>
    private sealed record PinEntry(Pin Pin, CorridorGrade Grade, double Percent, double AzimuthDeg, double? EdgeMm)
    {
        /// <summary>Its name and direction; with the level of its edge, where only that lies on worse ground.</summary>
        public string Words => EdgeMm is double edge ? $"{Pin.Id} ({Deg(AzimuthDeg)}, its edge at {Mm(Math.Max(0, edge))})" : $"{Pin.Id} ({Deg(AzimuthDeg)})";
    }
}
