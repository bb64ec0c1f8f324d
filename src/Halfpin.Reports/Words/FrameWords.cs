using System.Collections.Immutable;
using Halfpin.Domain.Frames;

namespace Halfpin.Reports.Words;

/// <summary>A frame in words: by its construct, or by its parts.</summary>
public static class FrameWords
{
    /// <summary>All that makes it, in a line.</summary>
    public static string Line(Frame frame) => frame.Construct is Construct c ? ConstructWords.Line(c) : Line(frame.Parts!);

    /// <summary>A short name for lists: layout, pins and rod.</summary>
    public static string Name(Frame frame) => frame.Construct is Construct c ? ConstructWords.Name(c) : Name(frame.Parts!);

    private static string Line(Parts parts)
    {
        (ImmutableArray<Rod> rods, int links) = Rods(parts);
        string kind = rods.Length switch { 1 => "single rod", 2 when IsDouble(rods) => "double rod", 2 => "V", _ => $"{rods.Length} rods" };
        string tied = links == 0 ? "" : $" with {links} {(links == 1 ? "cross-link" : "cross-links")}";
        string pins = string.Join(", ", parts.Pins.GroupBy(p => p.AzimuthDeg).Select(g => $"{g.Count()} {(g.Count() == 1 ? "pin" : "pins")} at {Numbers.Azimuth(g.Key)} at levels {Levels(g)} mm"));
        string pin = Several(parts.Pins.Select(p => $"{Numbers.Length(p.DiameterMm)} mm {p.Material}"));
        string rod = Several(parts.Rods.Select(r => $"{Numbers.Length(r.DiameterMm)} mm {r.Material}"));
        return $"{kind}{tied}, {pins}, {pin} pins, {rod} {(rods.Length == 1 ? "rod" : "rods")}{Out(rods, " at ")}";
    }

    private static string Name(Parts parts)
    {
        (ImmutableArray<Rod> rods, _) = Rods(parts);
        string kind = rods.Length switch { 1 => "One rod", 2 when IsDouble(rods) => "Two rods", 2 => "V", _ => $"{rods.Length} rods" };
        string at = rods.Length > 0 ? $" at {Numbers.Azimuth(rods[0].From.AzimuthDeg)}" : "";
        return $"{kind}, {parts.Pins.Length} pins of {Several(parts.Pins.Select(p => Numbers.Length(p.DiameterMm)))} mm{Out(rods, ", ", each: false, " out")}{at}";
    }

    // Rods that hold pins, and the number of those that only join rods.
    private static (ImmutableArray<Rod> Rods, int Links) Rods(Parts parts)
    {
        HashSet<string> holding = [.. parts.Clamps.Where(c => c.Pin is not null).Select(c => c.Rod)];
        ImmutableArray<Rod> rods = [.. parts.Rods.Where(r => holding.Contains(r.Id))];
        return (rods, parts.Rods.Length - rods.Length);
    }

    private static bool IsDouble(ImmutableArray<Rod> rods) => rods[0].From.AzimuthDeg == rods[1].From.AzimuthDeg;

    private static string Levels(IEnumerable<Pin> pins)
    {
        string[] levels = [.. pins.Select(p => p.LevelMm).Order().Select(Numbers.Kg)];
        return levels.Length == 1 ? levels[0] : $"{string.Join(", ", levels.SkipLast(1))} and {levels[^1]}";
    }

    private static string Several(IEnumerable<string> texts) => string.Join(" and ", texts.Distinct());

    // How far out rods stand: from the bone's surface, or from its axis where the case gives that.
    private static string Out(ImmutableArray<Rod> rods, string before, bool each = true, string after = "")
    {
        RodPoint[] all = [.. rods.Select(r => r.From).Take(each ? rods.Length : 1)];
        string[] said = all.Any(p => p.StandoffMm is null)
            ? [.. all.Select(p => p.StandoffMm is double s ? $"{Numbers.Kg(s)} mm from the bone" : $"{Numbers.Kg(p.RadiusMm ?? 0)} mm from its axis").Distinct()]
            : [$"{string.Join(" and ", all.Select(p => Numbers.Kg(p.StandoffMm!.Value)).Distinct())} mm"];
        return all.Length == 0 ? "" : $"{before}{string.Join(" and ", said)}{after}";
    }
}
