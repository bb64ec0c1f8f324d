using System.Collections.Immutable;
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

    public static readonly ImmutableArray<PlacementRule> OfPins = [new("wound", JudgeWounds, PinsAndWounds), new("incision", JudgeIncisions, Incisions)];

    public static readonly ImmutableArray<PlacementRule> OfRods = [new("skin-room", JudgeRoom, Room), new("wound-access", JudgeAccess, RodsAndWounds)];

    /// <summary>Least room between any rod and the skin; null on a synthetic bone.</summary>
    public static double? LeastRoomMm(PlacedFrame frame) => frame.Skin is SkinShape skin ? Least(frame, skin).Mm : null;

    /// <summary>Least distance of any rod from the way to a wound; null when none passes one.</summary>
    public static double? WoundRoomMm(PlacedFrame frame) => frame.Case.Wounds.IsEmpty || double.IsInfinity(Beside(frame).Mm) ? null : Beside(frame).Mm;

    private static Verdict? JudgeRoom(PlacedFrame frame)
    {
        if (frame.Skin is not SkinShape skin)
        {
            return null;
        }

        double mm = Least(frame, skin).Mm, after = mm - frame.Case.Limb.SoftTissue.SwellingMm;
        return mm < Clearance.SkinMm || after < TightMm ? Verdict.Fail : Clearance.SkinMm - after > 0 ? Verdict.Caution : Verdict.Pass;
    }

    private static Telling Room(PlacedFrame frame, Verdict verdict)
    {
        const string Rule = "Rod to skin 30–40 mm, at least 20, swelling added: common practice. " + SkinShape.Source;
        double swelling = frame.Case.Limb.SoftTissue.SwellingMm;
        (int rod, double mm, double levelMm) = Least(frame, frame.Skin!);
        string id = frame.Parts.Rods[rod].Id, where = $"{id} runs {Mm(Math.Max(0, mm))} from the skin at {Text(levelMm)} mm";
        double after = mm - swelling, lacking = Clearance.SkinMm - after;
        string cure = $"Move {id} {Text(Math.Ceiling(lacking))} mm farther out{(mm < Clearance.SkinMm ? "" : " while the limb may swell")}.";
        return verdict switch
        {
            Verdict.Fail when mm < Clearance.SkinMm => new($"{where}: no room for skin, dressing and swelling.", cure, Rule, "MEMORY"),
            Verdict.Fail => new($"{where}: only {Mm(Math.Max(0, after))} are left when it swells by {Text(swelling)} mm.", cure, Rule, "MEMORY"),
            Verdict.Caution => new($"{where}: {Mm(after)} when it swells by {Text(swelling)} mm.", cure, Rule, "MEMORY"),
            _ => new($"{where}, and keeps {Mm(after)} after {Text(swelling)} mm of swelling.", "", Rule, "MEMORY"),
        };
    }

    private static (int Rod, double Mm, double LevelMm) Least(PlacedFrame frame, SkinShape skin)
    {
        (int Rod, double Mm, double LevelMm) least = (0, double.PositiveInfinity, double.NaN);
        for (int r = 0; r < frame.Rods.Length; r++)
        {
            for (int s = 0; s <= RodSteps; s++)
            {
                Vec3 at = Along(frame.Rods[r], s);
                double mm = double.Hypot(at.X, at.Y) - (frame.Parts.Rods[r].DiameterMm / 2) - skin.RadiusMm(-at.Z, Azimuth(at));
                least = mm < least.Mm ? (r, mm, -at.Z) : least;
            }
        }

        return least;
    }

    private static Verdict? JudgeWounds(PlacedFrame frame)
    {
        if (frame.Skin is not SkinShape skin || frame.Case.Wounds.IsEmpty)
        {
            return null;
        }

        double least = double.PositiveInfinity;
        for (int p = 0; p < frame.Pins.Length; p++)
        {
            foreach (Wound wound in frame.Case.Wounds)
            {
                least = Math.Min(least, FromAreaMm(frame, skin, p, wound));
            }
        }

        return least < 0 ? Verdict.Fail : least < WoundMm ? Verdict.Caution : Verdict.Pass;
    }

    private static Telling PinsAndWounds(PlacedFrame frame, Verdict verdict)
    {
        (string Id, double Mm)[] pins = [.. FromAreas(frame, frame.Skin!, frame.Case.Wounds)];
        const string Rule = "Pins outside the zone of injury (online surgical reference, READ), 20 mm from the wound's edge (MEMORY)";
        (string Id, double Mm)[] near = [.. pins.Where(p => p.Mm < WoundMm)];
        return verdict == Verdict.Pass
            ? new($"Nearest to the wound stands {pins[0].Id}, {Mm(pins[0].Mm)} from its edge.", "", Rule, "MEMORY")
            : new($"{List(near.Select(p => p.Mm < 0 ? $"{p.Id} stands in the wound" : $"{p.Id} stands {Mm(p.Mm)} from the wound's edge"))}.", $"Sound skin {Mm(WoundMm)} or more from the wound is the place for {List(near.Select(p => p.Id))}.", Rule, "MEMORY");
    }

    private static Verdict? JudgeIncisions(PlacedFrame frame)
    {
        if (frame.Skin is not SkinShape skin || frame.Case.PlannedIncisions.IsEmpty)
        {
            return null;
        }

        bool near = false;
        for (int p = 0; p < frame.Pins.Length; p++)
        {
            foreach (PlannedIncision incision in frame.Case.PlannedIncisions)
            {
                near |= FromAreaMm(frame, skin, p, incision) < NeededMm(incision);
            }
        }

        return near ? Verdict.Caution : Verdict.Pass;
    }

    private static Telling Incisions(PlacedFrame frame, Verdict verdict)
    {
        const string Rule = "Pins out of the way of later plates and flaps (online surgical reference, READ), 30 mm from their incision, else 20 (MEMORY)";
        (string Pin, PlannedIncision Incision, double Mm, double Needed)[] pins = [.. frame.Case.PlannedIncisions
            .SelectMany(p => FromAreas(frame, frame.Skin!, [p]).Select(n => (n.Id, p, n.Mm, NeededMm(p)))).OrderBy(p => p.Mm - p.Item4)];
        static string What(PlannedIncision incision) => incision.For.ToString().ToLowerInvariant();
        (string Pin, PlannedIncision Incision, double Mm, double Needed)[] near = [.. pins.Where(p => p.Mm < p.Needed)];
        return verdict == Verdict.Pass
            ? new($"Planned incisions stay clear of pins; nearest {pins[0].Pin}, {Mm(pins[0].Mm)} from that for the {What(pins[0].Incision)}.", "", Rule, "MEMORY")
            : new($"{List(near.Select(p => $"{p.Pin} stands {(p.Mm < 0 ? "in" : $"{Mm(p.Mm)} from")} the incision planned for the {What(p.Incision)}"))}.", $"Keep {List(near.Select(p => $"{Mm(p.Needed)} from the {What(p.Incision)}"))}, or plan the incision elsewhere.", Rule, "MEMORY");
    }

    private static double NeededMm(PlannedIncision incision) => incision.For is IncisionPurpose.Plate or IncisionPurpose.Flap ? IncisionMm : WoundMm;

    // A rod in front of a wound is in the way of debridement: how far it passes beside the wound's sector, seen along the bone.
    private static Verdict? JudgeAccess(PlacedFrame frame) =>
        frame.Skin is null || frame.Case.Wounds.IsEmpty ? null : Beside(frame).Mm < WorkingSpaceMm ? Verdict.Caution : Verdict.Pass;

    private static Telling RodsAndWounds(PlacedFrame frame, Verdict verdict)
    {
        const string Rule = "Frame out of the wound's working space: common practice; 20 mm ASSUMED";
        (int rod, double mm) = Beside(frame);
        string id = frame.Parts.Rods[rod].Id;
        return verdict == Verdict.Caution
            ? new(mm < 0 ? $"{id} stands over the wound." : $"{id} passes {Mm(mm)} beside the way to the wound.", "Turn the plane of pins away from the wound, or bring the rod past it.", Rule, "ASSUMED")
            : new(double.IsInfinity(mm) ? "No rod passes the wound." : $"The way to the wound is free; {id} passes {Mm(mm)} beside it.", "", Rule, "ASSUMED");
    }

    private static (int Rod, double Mm) Beside(PlacedFrame frame)
    {
        (int Rod, double Mm) least = (0, double.PositiveInfinity);
        for (int r = 0; r < frame.Rods.Length; r++)
        {
            foreach (Wound wound in frame.Case.Wounds)
            {
                double mm = BesideMm(frame.Rods[r], wound) - (frame.Parts.Rods[r].DiameterMm / 2);
                least = mm < least.Mm ? (r, mm) : least;
            }
        }

        return least;
    }

    // A point of the whole rod, its overhang too.
    private static Vec3 Along(PlacedRod rod, int step) =>
        rod.FromMm + (((((rod.SpanMm + (2 * rod.OverhangMm)) * step) / RodSteps) - rod.OverhangMm) * rod.Along);

    private static double Azimuth(Vec3 at) => Math.Atan2(at.Y, at.X) * 180 / Math.PI;

    private static double BesideMm(PlacedRod rod, Wound wound)
    {
        double least = double.PositiveInfinity;
        for (int s = 0; s <= RodSteps; s++)
        {
            Vec3 at = Along(rod, s);
            if (-at.Z >= wound.FromLevelMm - WorkingSpaceMm && -at.Z <= wound.ToLevelMm + WorkingSpaceMm)
            {
                double off = SkinArea.OffDeg(wound, Azimuth(at));
                double radius = Math.Sqrt((at.X * at.X) + (at.Y * at.Y));
                least = Math.Min(least, off <= 0 ? 0 : off >= 90 ? radius : radius * Math.Sin(off * Math.PI / 180));
            }
        }

        return least;
    }

    // Each pin's distance from the nearest of some areas, nearest pin first.
    private static IEnumerable<(string Id, double Mm)> FromAreas(PlacedFrame frame, SkinShape skin, IReadOnlyList<Wound> areas) =>
        frame.Parts.Pins.Select((p, i) => (p.Id, Mm: areas.Min(a => FromAreaMm(frame, skin, i, a)))).OrderBy(p => p.Mm);

    private static double FromAreaMm(PlacedFrame frame, SkinShape skin, int pin, Wound area)
    {
        Vec3 at = frame.Pins[pin].At(frame.SkinMm(pin));
        double level = -at.Z, azimuth = Azimuth(at);
        return SkinArea.DistanceMm(area, level, azimuth, skin.RadiusMm(level, azimuth)) - (frame.Parts.Pins[pin].DiameterMm / 2);
    }
}
