using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Placement;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Handles;

namespace Halfpin.Workbench.Edits;

/// <summary>An end of a fragment of the bone.</summary>
public enum FragmentEnd
{
    /// <summary>The end nearer the knee.</summary>
    Proximal,

    /// <summary>The end nearer the ankle.</summary>
    Distal,
}

/// <summary>Changes to which parts a frame has that is given part by part.</summary>
public static class PartEdits
{
    // ASSUMED: how far a new pin stands from the one at that end of the fragment, the first that suits. Between the pins and beyond the other end come after.
    private static readonly double[] _stepsMm = [25, 20, 30, 15, 35, 12, 40, 10];
    private static readonly double[] _shares = [0.5, 1 / 3.0, 2 / 3.0];

    /// <summary>
    /// A pin like the one at an end of a fragment, beyond it and on its rods, which are lengthened to reach it. Of the places tried it takes the one that is
    /// possible and spoils the checks of placement least, the first of several; where none is possible the first, whose faults then tell why not.
    /// </summary>
    /// <param name="value">The case.</param>
    /// <param name="frame">The frame; it is given part by part.</param>
    /// <param name="fragment">Number of the fragment from proximal, from 0.</param>
    /// <param name="end">At which end.</param>
    public static CaseEdit AddPin(Case value, Frame frame, int fragment, FragmentEnd end)
    {
        Parts parts = frame.Parts!;
        PlacementReview review = new();
        Dictionary<string, Verdict> before = Worst(review.Of(value, parts).Verdicts);
        Parts[] tried = [.. LevelsMm(value, parts, fragment, end).Select(l => WithPin(value, parts, fragment, end, l))];
        Parts? chosen = null;
        int least = int.MaxValue;
        foreach (Parts next in tried)
        {
            int spoils = review.Of(value, next) is { Fault: null, Verdicts: var verdicts } ? Worst(verdicts).Sum(c => Math.Max(0, c.Value - before.GetValueOrDefault(c.Key, Verdict.Pass))) : int.MaxValue;
            if (spoils < least)
            {
                (chosen, least) = (next, spoils);
            }

            if (least == 0)
            {
                break;
            }
        }

        chosen ??= tried[0];
        Pin added = chosen.Pins.First(p => parts.Pins.All(o => o.Id != p.Id));
        return new($"add pin {added.Id} at {N(added.LevelMm)} mm, {frame.DisplayName}", v => With(v, frame, chosen));
    }

    /// <summary>Without a pin and its clamps.</summary>
    public static CaseEdit RemovePin(Frame frame, string pin) => new($"remove pin {pin}, {frame.DisplayName}", v => With(v, frame, frame.Parts! with
    {
        Pins = frame.Parts.Pins.RemoveAll(p => p.Id == pin),
        Clamps = frame.Parts.Clamps.RemoveAll(c => c.Pin == pin),
    }));

    /// <summary>A clamp of a pin to a rod, like the frame's first clamp of a pin.</summary>
    public static CaseEdit AddClamp(Frame frame, string pin, string rod) => new($"clamp {pin} to {rod}, {frame.DisplayName}", v => With(v, frame, WithClamp(frame.Parts!, pin, rod)));

    /// <summary>Without a clamp.</summary>
    public static CaseEdit RemoveClamp(Frame frame, string clamp) =>
        new($"remove clamp {clamp}, {frame.DisplayName}", v => With(v, frame, frame.Parts! with { Clamps = frame.Parts.Clamps.RemoveAll(c => c.Id == clamp) }));

    /// <summary>Pins and rods that are not joined yet and near enough for a clamp.</summary>
    /// <param name="value">The case.</param>
    /// <param name="parts">The parts of one of its frames.</param>
    public static ImmutableArray<(string Pin, string Rod)> Joinable(Case value, Parts parts)
    {
        BoneShape bone = BoneShape.For(value.Limb);
        return
        [
            .. from pin in parts.Pins
               from rod in parts.Rods
               where parts.Clamps.All(c => c.Pin != pin.Id || c.Rod != rod.Id) && !PlacementRules.Check(bone, value.Fractures, WithClamp(parts, pin.Id, rod.Id)).Any()
               select (pin.Id, rod.Id),
        ];
    }

    /// <summary>The pins of a fragment, from proximal.</summary>
    public static ImmutableArray<Pin> PinsOf(Case value, Parts parts, int fragment) =>
        [.. parts.Pins.Where(p => value.Fractures.Count(f => p.LevelMm > f.LevelMm) == fragment).OrderBy(p => p.LevelMm)];

    private static Case With(Case value, Frame frame, Parts parts) => FrameEdits.WithFrame(value, frame.Id, f => f with { Parts = parts });

    private static Dictionary<string, Verdict> Worst(IEnumerable<CheckVerdict> verdicts) => verdicts.GroupBy(c => c.Check).ToDictionary(g => g.Key, g => g.Max(c => c.Verdict));

    // The middle of a fragment without pins; else beyond the pin at that end; then between pins, midway and at thirds, the widest spaces first; then beyond the other end. Whole millimetres, as they are read off a limb.
    private static IEnumerable<double> LevelsMm(Case value, Parts parts, int fragment, FragmentEnd end)
    {
        double top = fragment == 0 ? 0 : value.Fractures[fragment - 1].LevelMm, bottom = fragment == value.Fractures.Length ? value.Limb.LengthMm : value.Fractures[fragment].LevelMm;
        double[] levels = [.. PinsOf(value, parts, fragment).Select(p => p.LevelMm)];
        double[] middle = levels.Length == 0 ? [(top + bottom) / 2] : [];
        levels = [.. middle, .. levels];
        IEnumerable<double> Beyond(FragmentEnd at) => _stepsMm.Select(s => at == FragmentEnd.Distal ? levels[^1] + s : levels[0] - s);
        IEnumerable<double> between = levels.Zip(levels.Skip(1)).OrderByDescending(s => s.Second - s.First).SelectMany(s => _shares.Select(k => s.First + (k * (s.Second - s.First))));
        return middle.Concat(Beyond(end)).Concat(between).Concat(Beyond(end == FragmentEnd.Distal ? FragmentEnd.Proximal : FragmentEnd.Distal)).Select(l => Math.Round(l)).Where(l => l > top && l < bottom)
            .DefaultIfEmpty((top + bottom) / 2);
    }

    private static Parts WithPin(Case value, Parts parts, int fragment, FragmentEnd end, double levelMm)
    {
        ImmutableArray<Pin> there = PinsOf(value, parts, fragment);
        Pin like = !there.IsEmpty ? end == FragmentEnd.Distal ? there[^1] : there[0] : parts.Pins.MinBy(p => Math.Abs(p.LevelMm - levelMm))!;
        Pin pin = like with { Id = FreeId(parts, "p"), LevelMm = levelMm };
        Parts next = parts with { Pins = parts.Pins.Insert(parts.Pins.IndexOf(like) + (levelMm > like.LevelMm ? 1 : 0), pin) };
        BoneShape bone = BoneShape.For(value.Limb);
        foreach (Clamp clamp in parts.Clamps.Where(c => c.Pin == like.Id && c.State != ClampState.Off))
        {
            next = next with { Clamps = next.Clamps.Add(clamp with { Id = FreeId(next, "c"), Pin = pin.Id }), Rods = [.. next.Rods.Select(r => r.Id == clamp.Rod ? Reaching(bone, r, pin) : r)] };
        }

        return next;
    }

    private static Parts WithClamp(Parts parts, string pin, string rod) =>
        parts with { Clamps = parts.Clamps.Add((parts.Clamps.FirstOrDefault(c => c.Pin is not null) ?? new() { Id = "", Rod = rod }) with { Id = FreeId(parts, "c"), Pin = pin, Rod = rod, State = ClampState.Tight }) };

    // The same straight rod, lengthened so that it runs past a pin as far as it ran past its own points.
    private static Rod Reaching(BoneShape bone, Rod rod, Pin pin)
    {
        PlacedRod placed = PlacedRod.Place(bone, rod);
        PlacedPin at = PlacedPin.Place(bone, pin);
        double along = PlacedClamp.Between(at.CrossingMm, at.Outward, placed.FromMm, placed.Along).AlongRodMm;
        if (!double.IsFinite(along) || (along >= 0 && along <= placed.SpanMm))
        {
            return rod;
        }

        Vec3 end = placed.FromMm + (along * placed.Along);
        Rod longer = rod with { LengthMm = rod.LengthMm is double length ? length + Math.Ceiling(Math.Max(-along, along - placed.SpanMm)) : null };
        return along < 0 ? longer with { From = Point(bone, rod.From, end) } : longer with { To = Point(bone, rod.To, end) };
    }

    private static RodPoint Point(BoneShape bone, RodPoint like, Vec3 at)
    {
        double level = Math.Round(-at.Z, 3), azimuth = Math.Round(Math.Atan2(at.Y, at.X) * 180 / Math.PI, 3), radius = Math.Sqrt((at.X * at.X) + (at.Y * at.Y));
        return like.StandoffMm is null
            ? like with { LevelMm = level, AzimuthDeg = azimuth, RadiusMm = Math.Round(radius, 3) }
            : like with { LevelMm = level, AzimuthDeg = azimuth, StandoffMm = Math.Round(radius - bone.OuterRadiusMm(level, azimuth), 3) };
    }

    private static string FreeId(Parts parts, string letter)
    {
        HashSet<string> taken = [.. parts.Pins.Select(p => p.Id), .. parts.Rods.Select(r => r.Id), .. parts.Clamps.Select(c => c.Id)];
        return Enumerable.Range(1, taken.Count + 1).Select(i => string.Create(CultureInfo.InvariantCulture, $"{letter}{i}")).First(id => !taken.Contains(id));
    }

    private static string N(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
