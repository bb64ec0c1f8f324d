using Halfpin.Anatomy.SoftTissue;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Geometry;
using static Halfpin.Placement.Checks.CheckWords;

namespace Halfpin.Placement.Checks;

/// <summary>Pins and rods against skin, wounds and later incisions. A synthetic bone has no skin.</summary>
internal static class SkinChecks
{
    private const double WoundMm = 20, IncisionMm = 30;
    private const double WorkingSpaceMm = 20;
    private const int RodSteps = 40;

    // ASSUMED: with less than this a rod presses on skin and dressing.
    private const double TightMm = 10;

    public static IEnumerable<Check> OfPins(PlacedFrame frame)
    {
        if (frame.Skin is SkinShape skin && !frame.Case.Wounds.IsEmpty)
        {
            yield return PinsAndWounds(frame, skin);
        }

        if (frame.Skin is SkinShape cover && !frame.Case.PlannedIncisions.IsEmpty)
        {
            yield return Incisions(frame, cover);
        }
    }

    public static IEnumerable<Check> OfRods(PlacedFrame frame)
    {
        if (frame.Skin is SkinShape skin)
        {
            yield return Room(frame, skin);
            if (!frame.Case.Wounds.IsEmpty)
            {
                yield return RodsAndWounds(frame);
            }
        }
    }

    /// <summary>Least room between any rod and the skin; null on a synthetic bone.</summary>
    public static double? LeastRoomMm(PlacedFrame frame) => frame.Skin is SkinShape skin ? Least(frame, skin).Mm : null;

    /// <summary>Least distance of any rod from the way to a wound; null when none passes one.</summary>
    public static double? WoundRoomMm(PlacedFrame frame) => frame.Case.Wounds.IsEmpty || double.IsInfinity(Beside(frame).Mm) ? null : Beside(frame).Mm;

    private static Check Room(PlacedFrame frame, SkinShape skin)
    {
        const string Rule = "Rod to skin 30–40 mm, at least 20, swelling added: common practice. " + SkinShape.Source;
        double swelling = frame.Case.Limb.SoftTissue.SwellingMm;
        (string Rod, double Mm, double LevelMm) least = Least(frame, skin);
        string where = $"{least.Rod} runs {Mm(Math.Max(0, least.Mm))} from the skin at {Text(least.LevelMm)} mm";
        double after = least.Mm - swelling, lacking = Clearance.SkinMm - after;
        string cure = $"Move {least.Rod} {Text(Math.Ceiling(lacking))} mm farther out{(least.Mm < Clearance.SkinMm ? "" : " while the limb may swell")}.";
        return least.Mm < Clearance.SkinMm ? new("skin-room", Verdict.Fail, $"{where}: no room for skin, dressing and swelling.", cure, Rule, "MEMORY")
            : after < TightMm ? new("skin-room", Verdict.Fail, $"{where}: only {Mm(Math.Max(0, after))} are left when it swells by {Text(swelling)} mm.", cure, Rule, "MEMORY")
            : lacking > 0 ? new("skin-room", Verdict.Caution, $"{where}: {Mm(after)} when it swells by {Text(swelling)} mm.", cure, Rule, "MEMORY")
            : new("skin-room", Verdict.Pass, $"{where}, and keeps {Mm(after)} after {Text(swelling)} mm of swelling.", "", Rule, "MEMORY");
    }

    private static (string Rod, double Mm, double LevelMm) Least(PlacedFrame frame, SkinShape skin) =>
        frame.Parts.Rods.SelectMany((r, i) => Enumerable.Range(0, RodSteps + 1).Select(s =>
        {
            PlacedRod rod = frame.Rods[i];
            Vec3 at = Along(rod, s);
            double radius = double.Hypot(at.X, at.Y), azimuth = Math.Atan2(at.Y, at.X) * 180 / Math.PI;
            return (r.Id, radius - (r.DiameterMm / 2) - skin.RadiusMm(-at.Z, azimuth), -at.Z);
        })).MinBy(r => r.Item2);

    private static Check PinsAndWounds(PlacedFrame frame, SkinShape skin)
    {
        (string Id, double Mm)[] pins = [.. FromAreas(frame, skin, frame.Case.Wounds)];
        const string Rule = "Pins outside the zone of injury (online surgical reference, READ), 20 mm from the wound's edge (MEMORY)";
        (string Id, double Mm)[] near = [.. pins.Where(p => p.Mm < WoundMm)];
        return near.Length == 0
            ? new("wound", Verdict.Pass, $"Nearest to the wound stands {pins[0].Id}, {Mm(pins[0].Mm)} from its edge.", "", Rule, "MEMORY")
            : new("wound", near[0].Mm < 0 ? Verdict.Fail : Verdict.Caution, $"{List(near.Select(p => p.Mm < 0 ? $"{p.Id} stands in the wound" : $"{p.Id} stands {Mm(p.Mm)} from the wound's edge"))}.", $"Sound skin {Mm(WoundMm)} or more from the wound is the place for {List(near.Select(p => p.Id))}.", Rule, "MEMORY");
    }

    private static Check Incisions(PlacedFrame frame, SkinShape skin)
    {
        const string Rule = "Pins out of the way of later plates and flaps (online surgical reference, READ), 30 mm from their incision, else 20 (MEMORY)";
        (string Pin, PlannedIncision Incision, double Mm, double Needed)[] pins = [.. frame.Case.PlannedIncisions
            .SelectMany(p => FromAreas(frame, skin, [p]).Select(n => (n.Id, p, n.Mm, p.For is IncisionPurpose.Plate or IncisionPurpose.Flap ? IncisionMm : WoundMm))).OrderBy(p => p.Mm - p.Item4)];
        static string What(PlannedIncision incision) => incision.For.ToString().ToLowerInvariant();
        (string Pin, PlannedIncision Incision, double Mm, double Needed)[] near = [.. pins.Where(p => p.Mm < p.Needed)];
        return near.Length == 0
            ? new("incision", Verdict.Pass, $"Planned incisions stay clear of pins; nearest {pins[0].Pin}, {Mm(pins[0].Mm)} from that for the {What(pins[0].Incision)}.", "", Rule, "MEMORY")
            : new("incision", Verdict.Caution, $"{List(near.Select(p => $"{p.Pin} stands {(p.Mm < 0 ? "in" : $"{Mm(p.Mm)} from")} the incision planned for the {What(p.Incision)}"))}.", $"Keep {List(near.Select(p => $"{Mm(p.Needed)} from the {What(p.Incision)}"))}, or plan the incision elsewhere.", Rule, "MEMORY");
    }

    // A rod in front of a wound is in the way of debridement: how far it passes beside the wound's sector, seen along the bone.
    private static Check RodsAndWounds(PlacedFrame frame)
    {
        const string Rule = "Frame out of the wound's working space: common practice; 20 mm ASSUMED";
        (string Rod, double Mm) nearest = Beside(frame);
        return nearest.Mm < WorkingSpaceMm
            ? new("wound-access", Verdict.Caution, nearest.Mm < 0 ? $"{nearest.Rod} stands over the wound." : $"{nearest.Rod} passes {Mm(nearest.Mm)} beside the way to the wound.", "Turn the plane of pins away from the wound, or bring the rod past it.", Rule, "ASSUMED")
            : new("wound-access", Verdict.Pass, double.IsInfinity(nearest.Mm) ? "No rod passes the wound." : $"The way to the wound is free; {nearest.Rod} passes {Mm(nearest.Mm)} beside it.", "", Rule, "ASSUMED");
    }

    private static (string Rod, double Mm) Beside(PlacedFrame frame) =>
        frame.Parts.Rods.SelectMany((r, i) => frame.Case.Wounds.Select(w => (r.Id, BesideMm(frame.Rods[i], w) - (r.DiameterMm / 2)))).MinBy(r => r.Item2);

    // A point of the whole rod, its overhang too.
    private static Vec3 Along(PlacedRod rod, int step) =>
        rod.FromMm + (((((rod.SpanMm + (2 * rod.OverhangMm)) * step) / RodSteps) - rod.OverhangMm) * rod.Along);

    private static double BesideMm(PlacedRod rod, Wound wound)
    {
        double least = double.PositiveInfinity;
        for (int s = 0; s <= RodSteps; s++)
        {
            Vec3 at = Along(rod, s);
            if (-at.Z >= wound.FromLevelMm - WorkingSpaceMm && -at.Z <= wound.ToLevelMm + WorkingSpaceMm)
            {
                double off = SkinArea.OffDeg(wound, Math.Atan2(at.Y, at.X) * 180 / Math.PI);
                double radius = Math.Sqrt((at.X * at.X) + (at.Y * at.Y));
                least = Math.Min(least, off <= 0 ? 0 : off >= 90 ? radius : radius * Math.Sin(off * Math.PI / 180));
            }
        }

        return least;
    }

    // Each pin's distance from the nearest of some areas, nearest pin first.
    private static IEnumerable<(string Id, double Mm)> FromAreas(PlacedFrame frame, SkinShape skin, IReadOnlyList<Wound> areas) => frame.Parts.Pins.Select((p, i) =>
    {
        Vec3 at = frame.Pins[i].At(frame.SkinMm(i));
        double level = -at.Z, azimuth = Math.Atan2(at.Y, at.X) * 180 / Math.PI;
        return (p.Id, Mm: areas.Min(a => SkinArea.DistanceMm(a, level, azimuth, skin.RadiusMm(level, azimuth))) - (p.DiameterMm / 2));
    }).OrderBy(p => p.Mm);
}
