using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Search;

/// <summary>Sets pins in the fragments between fractures that have none, so that something holds them.</summary>
/// <remarks>
/// A construct is laid out anew by <see cref="SegmentalBuilder"/>. Any other frame, a dynamised double rod too, keeps its parts and gains pins
/// at the same levels: like the nearest pin of a rod that passes the fragment, with a tight clamp on each rod of that pin that passes it.
/// </remarks>
internal static class PinsBetween
{
    // ASSUMED, beside the sizes of other changes.
    private const double Size = 6;

    /// <summary>The fragments between without a pin, each by the number of the fracture above it, from proximal.</summary>
    public static ImmutableArray<int> Free(Case value, Frame frame)
    {
        Parts parts = PartsOf(frame, value.Fractures);
        return [.. Enumerable.Range(0, value.Fractures.Length - 1).Where(f => !parts.Pins.Any(p => IsIn(f, p, value.Fractures)))];
    }

    /// <summary>The ways to give every free fragment its pins, in the order of their words; empty when there is none.</summary>
    /// <remarks>A way turns a construct into its parts, and so comes after all other changes.</remarks>
    public static ImmutableArray<FrameChange> Ways(Case value, Frame frame, CandidateSet candidates)
    {
        ImmutableArray<int> free = Free(value, frame);
        int planes = IsLaidOutAnew(frame) ? 1 : MostPlanes(value, frame, free);
        return [.. from middle in candidates.Middles
                   where free.All(f => SegmentalBuilder.Fits(middle, value.Fractures[f], value.Fractures[f + 1]))
                   from plane in Enumerable.Range(0, free.IsEmpty ? 0 : planes)
                   select Way(value, frame, free, middle, plane) into way
                   group way by way.Words into same
                   orderby same.Key.Length, same.Key
                   select same.First()];
    }

    /// <summary>Why there is no way, in a sentence.</summary>
    public static string WhyNone(Case value, Frame frame)
    {
        ImmutableArray<int> free = Free(value, frame);
        string where = string.Join(" and ", free.Select(f => $"between {Round(value.Fractures[f].LevelMm)} and {Round(value.Fractures[f + 1].LevelMm)} mm"));
        string why = !IsLaidOutAnew(frame) && MostPlanes(value, frame, free) == 0
            ? "no rod that holds pins passes there: add a rod and pins by hand"
            : "the distances of search.middleEdgeMm leave no room for pins there: choose less, or one pin (search.middlePins)";
        return $"Nothing holds the {(free.Length == 1 ? "fragment" : "fragments")} {where}, and {why}.";
    }

    private static FrameChange Way(Case value, Frame frame, ImmutableArray<int> free, MiddlePins middle, int plane)
    {
        Frame Apply(Frame f) => f with { Construct = null, Parts = Set(value, f, free, middle, plane) };
        string WordsOn(Frame f) => Words(value.Fractures, f, Apply(f).Parts!, free, middle);
        return new("middle", Size, WordsOn(frame), Apply, WordsOn);
    }

    private static Parts Set(Case value, Frame frame, ImmutableArray<int> free, MiddlePins middle, int plane) =>
        IsLaidOutAnew(frame) ? SegmentalBuilder.Build(frame.Construct!, middle, value.Fractures)
        : free.Aggregate(PartsOf(frame, value.Fractures), (parts, f) => Planes(parts, value.Fractures[f], value.Fractures[f + 1]) is { IsEmpty: false } planes
            ? With(parts, planes[Math.Min(plane, planes.Length - 1)], SegmentalBuilder.LevelsMm(middle, value.Fractures[f], value.Fractures[f + 1]))
            : parts);

    // As many as the fragment with most choice has; none when one fragment has none.
    private static int MostPlanes(Case value, Frame frame, ImmutableArray<int> free)
    {
        Parts parts = PartsOf(frame, value.Fractures);
        int[] counts = [.. free.Select(f => Planes(parts, value.Fractures[f], value.Fractures[f + 1]).Length)];
        return counts.Length == 0 || counts.Contains(0) ? 0 : counts.Max();
    }

    // The clamps of a pin on rods that pass a fragment; of each set of rods the pin nearest to it, nearest first.
    private static ImmutableArray<(Pin Pin, ImmutableArray<Clamp> Clamps)> Planes(Parts parts, Fracture above, Fracture below)
    {
        string[] passing = [.. parts.Rods.Where(r => Math.Min(r.From.LevelMm, r.To.LevelMm) - r.OverhangMm < above.LevelMm && Math.Max(r.From.LevelMm, r.To.LevelMm) + r.OverhangMm > below.LevelMm).Select(r => r.Id)];
        double middleMm = (above.LevelMm + below.LevelMm) / 2;
        return [.. parts.Pins
            .Select(p => (Pin: p, Clamps: parts.Clamps.Where(c => c.Pin == p.Id && c.State != ClampState.Off && passing.Contains(c.Rod)).ToImmutableArray()))
            .Where(p => !p.Clamps.IsEmpty)
            .OrderBy(p => Math.Abs(p.Pin.LevelMm - middleMm))
            .DistinctBy(p => string.Join(' ', p.Clamps.Select(c => c.Rod).Order(StringComparer.Ordinal)))];
    }

    private static Parts With(Parts parts, (Pin Pin, ImmutableArray<Clamp> Clamps) like, ImmutableArray<double> levelsMm)
    {
        Queue<string> pinIds = new(Unused("p", parts.Pins.Select(p => p.Id)).Take(levelsMm.Length));
        Queue<string> clampIds = new(Unused("c", parts.Clamps.Select(c => c.Id)).Take(levelsMm.Length * like.Clamps.Length));
        Pin[] pins = [.. levelsMm.Select(level => like.Pin with { Id = pinIds.Dequeue(), LevelMm = level })];
        IEnumerable<Clamp> clamps = like.Clamps.SelectMany(c => pins.Select(p => c with { Id = clampIds.Dequeue(), Pin = p.Id, State = ClampState.Tight, SlideStopMm = null, OneWay = false, SlideFrictionN = 0 }));
        return parts with { Pins = [.. parts.Pins, .. pins], Clamps = [.. parts.Clamps, .. clamps] };
    }

    private static IEnumerable<string> Unused(string letter, IEnumerable<string> ids)
    {
        HashSet<string> used = [.. ids];
        return Enumerable.Range(1, int.MaxValue - 1).Select(i => $"{letter}{i}").Where(id => !used.Contains(id));
    }

    // Levels and rods are read off the frame as it then is.
    private static string Words(ImmutableArray<Fracture> fractures, Frame before, Parts after, ImmutableArray<int> free, MiddlePins middle)
    {
        Pin[] pins = [.. after.Pins.Where(p => free.Any(f => IsIn(f, p, fractures))).OrderBy(p => p.LevelMm)];
        string[] rods = [.. after.Clamps.Where(c => pins.Any(p => p.Id == c.Pin)).Select(c => c.Rod).Distinct()];
        string where = (free.Length, free.Length == fractures.Length - 1) switch
        {
            (1, true) => "the fragment between the fractures",
            (_, true) => "each fragment between the fractures",
            (1, false) => "the fragment between the fractures that has none",
            _ => "each fragment between the fractures that has none",
        };
        bool slides = PartsOf(before, fractures).Clamps.Any(c => c.State == ClampState.Loose && rods.Contains(c.Rod));
        return $"add {(middle.PinsPerFragment == 1 ? "a pin" : $"{middle.PinsPerFragment} pins")} in {where}{(free.Length == 1 ? "" : $" ({pins.Length} in all)")}"
            + $" at {(pins.Length == 1 ? "level" : "levels")} {Listed(pins.Select(p => p.LevelMm.ToString("0.#", CultureInfo.InvariantCulture)))} mm on {(rods.Length == 1 ? "rod" : "rods")} {Listed(rods)}"
            + (slides ? " with tight clamps (loose ones there then slide less or not at all)" : "");
    }

    private static string Listed(IEnumerable<string> words)
    {
        string[] all = [.. words];
        return all.Length < 2 ? string.Concat(all) : $"{string.Join(", ", all.SkipLast(1))} and {all[^1]}";
    }

    private static string Round(double levelMm) => levelMm.ToString("0", CultureInfo.InvariantCulture);

    private static bool IsIn(int above, Pin pin, ImmutableArray<Fracture> fractures) => pin.LevelMm > fractures[above].LevelMm && pin.LevelMm < fractures[above + 1].LevelMm;

    private static bool IsLaidOutAnew(Frame frame) => frame.Construct is not (null or DoubleRod { Dynamised: true });

    private static Parts PartsOf(Frame frame, ImmutableArray<Fracture> fractures) => frame.Parts ?? ConstructBuilder.Build(frame.Construct!, fractures);
}
