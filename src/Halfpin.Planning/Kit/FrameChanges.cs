using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Materials;
using Halfpin.Domain.Stocks;
using static Halfpin.Planning.Building.SizeWords;

namespace Halfpin.Planning.Kit;

/// <summary>A frame on the way to another.</summary>
/// <param name="Parts">Its parts.</param>
/// <param name="TailMm">The tail its pins are to have.</param>
internal sealed record Draft(Parts Parts, double TailMm);

/// <summary>A change to a frame.</summary>
/// <param name="Sentence">What changes.</param>
/// <param name="IsAmount">True for one of a row of growing amounts, of which the first that serves is enough.</param>
/// <param name="OfConstruct">The change to a construct; null for one to parts.</param>
/// <param name="OfParts">The change to parts; null for one to a construct.</param>
internal sealed record FrameChange(string Sentence, bool IsAmount, Func<Construct, Construct>? OfConstruct, Func<Draft, Draft?>? OfParts);

/// <summary>The changes by which a stock may still build a frame, by kind, the smallest first.</summary>
internal static class FrameChanges
{
    // Rods come no closer than this: the nearest of the rod distances that the examples call clinical, once swelling is down. ASSUMED.
    private const double LeastStandoffMm = 40;
    private const double StandoffStepMm = 4;
    private const double SpanStepMm = 5;

    // Pins of a fragment stay at least this far apart: 40 mm, MEMORY.
    private const double LeastSpreadMm = 40;

    // A fragment needs two pins: MEMORY, two pins a fragment.
    private const int LeastPins = 2;

    /// <summary>The changes to try for a frame.</summary>
    public static ImmutableArray<ImmutableArray<FrameChange>> For(Case value, Frame frame, Stock stock)
    {
        Parts parts = frame.Parts ?? ConstructBuilder.Build(frame.Construct!, value.Fractures);
        HashSet<string> materials = [.. BuiltInMaterials.All.Select(b => b.Material.Id), .. value.Materials.Select(m => m.Id)];
        return
        [
            Tail(), Overhang(), Closer(parts), .. frame.Construct is Construct c ? [Narrower(c)] : Array.Empty<ImmutableArray<FrameChange>>(),
            OtherPins(parts, stock, materials), OtherRods(parts, stock, materials), WithoutPins(value, parts), WithoutRods(value, parts),
        ];
    }

    /// <summary>A frame with its changes; null when they leave nothing.</summary>
    public static Draft? Apply(Case value, Frame frame, ImmutableArray<FrameChange> changes)
    {
        Construct? construct = changes.Where(c => c.OfConstruct is not null).Aggregate(frame.Construct, (c, change) => change.OfConstruct!(c!));
        Draft? draft = new(frame.Parts ?? ConstructBuilder.Build(construct!, value.Fractures), KitAllowances.TailMm);
        foreach (FrameChange change in changes.Where(c => c.OfParts is not null))
        {
            draft = draft is null ? null : change.OfParts!(draft);
        }

        return draft;
    }

    private static FrameChange Of(string sentence, Func<Draft, Draft?> change, bool isAmount = false) => new(sentence, isAmount, null, change);

    // The case's own lengths give way too: they are what the stock cannot meet.
    private static ImmutableArray<FrameChange> Tail() =>
        [Of("Pins end flush with their outermost clamp, with no tail to spare.", d => new(d.Parts with { Pins = [.. d.Parts.Pins.Select(p => p with { LengthMm = null })] }, 0))];

    private static ImmutableArray<FrameChange> Overhang() =>
    [
        Of("Rods end flush with their outermost clamps.", d => d with
        {
            Parts = d.Parts with { Rods = [.. d.Parts.Rods.Select(r => r with { LengthMm = null, OverhangMm = KitAllowances.ClampMm / 2 })] },
        }),
    ];

    private static ImmutableArray<FrameChange> Closer(Parts parts)
    {
        double least = parts.Rods.SelectMany(r => new[] { r.From, r.To }).Select(p => p.StandoffMm ?? double.PositiveInfinity).DefaultIfEmpty(double.PositiveInfinity).Min();
        return double.IsFinite(least)
            ? [.. Amounts(least - LeastStandoffMm, StandoffStepMm).Select(by => Of(
                $"All rods come {Fine(by)} mm closer to the bone, to {Fine(least - by)} mm at the nearest: check the room for swelling.",
                d => d with { Parts = d.Parts with { Rods = [.. d.Parts.Rods.Select(r => r with { From = Nearer(r.From, by), To = Nearer(r.To, by) })] } }, isAmount: true))]
            : [];
    }

    private static RodPoint Nearer(RodPoint p, double byMm) => p with { StandoffMm = p.StandoffMm - byMm, RadiusMm = p.RadiusMm - byMm };

    private static ImmutableArray<FrameChange> Narrower(Construct construct)
    {
        double most = construct.FarMm - (construct.Placement == PinPlacement.FarFar ? 2 * LeastSpreadMm : (construct.NearMm ?? 0) + LeastSpreadMm);
        return [.. Amounts(most, SpanStepMm).Select(by => new FrameChange(
            $"Far pins stand {Fine(construct.FarMm - by)} mm from the fracture instead of {Fine(construct.FarMm)} mm.", IsAmount: true, c => c with { FarMm = construct.FarMm - by }, null))];
    }

    private static ImmutableArray<FrameChange> OtherPins(Parts parts, Stock stock, HashSet<string> materials) =>
    [
        .. stock.Items.OfType<StockPin>().Where(i => i.Quantity > 0 && materials.Contains(i.Material)).Select(i => (i.DiameterMm, i.Material, i.Tip)).Distinct()
            .Where(k => parts.Pins.Any(p => p.DiameterMm != k.DiameterMm || p.Material != k.Material || (p.Tip is PinTip t && t != k.Tip)))
            .OrderBy(k => Math.Abs(k.DiameterMm - parts.Pins[0].DiameterMm)).ThenByDescending(k => k.DiameterMm)
            .Select(k => Of($"Pins of {Fine(k.DiameterMm)} mm {k.Material}, {SizeWordsOf(k.Tip)}, instead of {Fine(parts.Pins[0].DiameterMm)} mm {parts.Pins[0].Material}.", d => d with
            {
                Parts = d.Parts with
                {
                    Pins = [.. d.Parts.Pins.Select(p => p with { DiameterMm = k.DiameterMm, Material = k.Material, Tip = k.Tip, LengthMm = null, CoreDiameterMm = null, ThreadLengthMm = null })],
                },
            })),
    ];

    private static ImmutableArray<FrameChange> OtherRods(Parts parts, Stock stock, HashSet<string> materials) => parts.Rods.IsEmpty
        ? []
        :
        [
            .. stock.Items.OfType<StockRod>().Where(i => i.Quantity > 0 && materials.Contains(i.Material)).Select(i => (i.DiameterMm, i.InnerDiameterMm, i.Material)).Distinct()
                .Where(k => parts.Rods.Any(r => r.DiameterMm != k.DiameterMm || r.InnerDiameterMm != k.InnerDiameterMm || r.Material != k.Material))
                .OrderBy(k => Math.Abs(k.DiameterMm - parts.Rods[0].DiameterMm)).ThenByDescending(k => k.DiameterMm)
                .Select(k => Of($"Rods of {Fine(k.DiameterMm)} mm {k.Material} instead of {Fine(parts.Rods[0].DiameterMm)} mm {parts.Rods[0].Material}.", d => d with
                {
                    Parts = d.Parts with { Rods = [.. d.Parts.Rods.Select(r => r with { DiameterMm = k.DiameterMm, InnerDiameterMm = k.InnerDiameterMm, Material = k.Material, LengthMm = null })] },
                })),
        ];

    // One pin fewer, or one fewer in every fragment that has enough.
    private static ImmutableArray<FrameChange> WithoutPins(Case value, Parts parts)
    {
        IGrouping<int, Pin>[] rich = [.. parts.Pins.GroupBy(p => value.Fractures.Count(f => p.LevelMm > f.LevelMm)).Where(g => g.Count() > LeastPins)];
        IEnumerable<Pin[]> sets = rich.SelectMany(g => g.Select(p => new[] { p })).Concat(rich.Length > 1 ? [[.. rich.Select(g => g.OrderBy(p => p.LevelMm).ElementAt(g.Count() / 2))]] : []);
        return [.. sets.Select(set => Of($"Without {Named("pin", [.. set.Select(p => p.Id)])}.", d => Left(d, [.. set.Select(p => p.Id)])))];
    }

    private static ImmutableArray<FrameChange> WithoutRods(Case value, Parts parts)
    {
        if (parts.Rods.Length < 2)
        {
            return [];
        }

        string[] links = [.. parts.Rods.Where(r => !parts.Clamps.Any(c => c.Rod == r.Id && c.Pin is not null)).Select(r => r.Id)];
        IEnumerable<string[]> sets = [.. parts.Rods.Reverse().OrderByDescending(r => links.Contains(r.Id)).Select(r => new[] { r.Id }), .. links.Length > 1 ? [links] : Array.Empty<string[]>()];
        int fragments = value.Fractures.Length + 1;
        return
        [
            .. sets.Select(set => Of($"Without {Named("rod", set)} and what {(set.Length > 1 ? "they alone hold" : "it alone holds")}.", d =>
                Left(d, set) is Draft left && left.Parts.Pins.GroupBy(p => value.Fractures.Count(f => p.LevelMm > f.LevelMm)).Count(g => g.Count() >= LeastPins) == fragments ? left : null)),
        ];
    }

    // Without parts, without clamps that held them, without pins that no clamp holds any more, and without links that hang by one clamp.
    private static Draft? Left(Draft draft, string[] gone)
    {
        HashSet<string> without = [.. gone];
        HashSet<string> held = [.. draft.Parts.Clamps.Where(c => c.Pin is not null).Select(c => c.Pin!)];
        Clamp[] clamps = [.. draft.Parts.Clamps];
        int before;
        do
        {
            before = without.Count;
            clamps = [.. clamps.Where(c => !without.Contains(c.Rod) && !(c.Pin is string p && without.Contains(p)) && !(c.OtherRod is string o && without.Contains(o)))];
            without.UnionWith(held.Where(p => !clamps.Any(c => c.Pin == p)));
            without.UnionWith(draft.Parts.Rods.Select(r => r.Id).Where(r => clamps.Count(c => c.Rod == r || c.OtherRod == r) < 2));
        }
        while (without.Count > before);
        Parts parts = new()
        {
            Pins = [.. draft.Parts.Pins.Where(p => !without.Contains(p.Id))],
            Rods = [.. draft.Parts.Rods.Where(r => !without.Contains(r.Id))],
            Clamps = [.. clamps],
        };
        return parts.Pins.IsEmpty || parts.Rods.IsEmpty ? null : draft with { Parts = parts };
    }

    private static string SizeWordsOf(PinTip tip) => Building.SizeWords.Of(tip);

    private static IEnumerable<double> Amounts(double mostMm, double stepMm)
    {
        for (double by = stepMm; by <= mostMm; by += stepMm)
        {
            yield return by;
        }
    }
}
