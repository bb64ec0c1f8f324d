using System.Collections.Immutable;
using Halfpin.Domain.Cases;

namespace Halfpin.Domain.Frames;

/// <summary>Where pins stand in each fragment between two fractures.</summary>
/// <param name="PinsPerFragment">Pins in each such fragment; more than one stand evenly between two ends, one alone midway between them.</param>
/// <param name="ProximalEdgeMm">The proximal end to the edge of the fracture above, along the axis.</param>
/// <param name="DistalEdgeMm">The distal end to the edge of the fracture below, along the axis.</param>
public sealed record MiddlePins(int PinsPerFragment, double ProximalEdgeMm, double DistalEdgeMm);

/// <summary>Lays out the parts of a construct about the outer fractures with pins in each fragment between them.</summary>
/// <remarks>
/// The pins between are like the others and stand in the first plane, on all rods of that plane: the one of a single rod, both of a double
/// rod, the first of a V. Parts are numbered as those of a construct: pins from proximal, the first plane before the second; rods and links
/// are the construct's own.
/// </remarks>
public static class SegmentalBuilder
{
    /// <summary>The parts.</summary>
    /// <param name="construct">The construct, not dynamised.</param>
    /// <param name="middle">The pins between, which fit.</param>
    /// <param name="fractures">The fractures, from proximal.</param>
    /// <exception cref="ArgumentException">The construct is dynamised: what slides is then to be said clamp by clamp.</exception>
    public static Parts Build(Construct construct, MiddlePins middle, ImmutableArray<Fracture> fractures)
    {
        if (construct is DoubleRod { Dynamised: true })
        {
            throw new ArgumentException("No layout between fractures for a dynamised double rod.", nameof(construct));
        }

        Parts outer = ConstructBuilder.Build(construct, fractures);
        int plane = construct is TwoPlane ? outer.Pins.Length / 2 : outer.Pins.Length;
        IEnumerable<Pin> between = Enumerable.Range(0, fractures.Length - 1)
            .SelectMany(f => LevelsMm(middle, fractures[f], fractures[f + 1])).Select(level => outer.Pins[0] with { LevelMm = level });
        ImmutableArray<Pin> pins = [.. outer.Pins.Take(plane / 2).Concat(between).Concat(outer.Pins.Skip(plane / 2)).Select((p, i) => p with { Id = $"p{i + 1}" })];
        Pin[] second = [.. pins.TakeLast(outer.Pins.Length - plane)], first = [.. pins.SkipLast(second.Length)];
        IEnumerable<(string Rod, Pin Pin)> held = construct switch
        {
            DoubleRod => [.. On("r1", first), .. On("r2", first)],
            TwoPlane => [.. On("r1", first), .. On("r2", second)],
            _ => On("r1", first),
        };
        return outer with
        {
            Pins = pins,
            Clamps = [.. held.Select((h, i) => new Clamp { Id = $"c{i + 1}", Pin = h.Pin.Id, Rod = h.Rod }), .. outer.Clamps.Where(c => c.Pin is null)],
        };
    }

    /// <summary>True when the first pin of every fragment between stands proximal to the last, or a single one within its bounds.</summary>
    public static bool Fits(MiddlePins middle, ImmutableArray<Fracture> fractures) => Enumerable.Range(0, fractures.Length - 1).All(f => Fits(middle, fractures[f], fractures[f + 1]));

    /// <summary>The same of one fragment, between two fractures.</summary>
    public static bool Fits(MiddlePins middle, Fracture above, Fracture below)
    {
        (double first, double last) = Ends(middle, above, below);
        return middle.PinsPerFragment > 1 ? first < last : first <= last;
    }

    /// <summary>Levels of the pins in the fragment between two fractures, mm, from proximal.</summary>
    public static ImmutableArray<double> LevelsMm(MiddlePins middle, Fracture above, Fracture below)
    {
        (double first, double last) = Ends(middle, above, below);
        int n = middle.PinsPerFragment;
        return n == 1 ? [(first + last) / 2] : [.. Enumerable.Range(0, n).Select(i => first + ((last - first) * i / (n - 1)))];
    }

    private static IEnumerable<(string Rod, Pin Pin)> On(string rod, IEnumerable<Pin> pins) => pins.Select(p => (rod, p));

    // Levels of the first and the last pin.
    private static (double FirstMm, double LastMm) Ends(MiddlePins middle, Fracture above, Fracture below) =>
        (above.LevelMm + (above.GapMm / 2) + middle.ProximalEdgeMm, below.LevelMm - (below.GapMm / 2) - middle.DistalEdgeMm);
}
