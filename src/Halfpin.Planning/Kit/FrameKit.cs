using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Building;
using static Halfpin.Planning.Building.SizeWords;

namespace Halfpin.Planning.Kit;

/// <summary>The kit of one frame, from a stock or from none.</summary>
internal sealed class FrameKit
{
    private readonly Stock? _stock;
    private readonly double _tailMm;
    private readonly List<KitItem> _items = [];
    private readonly List<PinLength> _lengths = [];
    private readonly List<Shortage> _shortages = [];

    private FrameKit(Case value, Parts parts, Stock? stock, double tailMm)
    {
        _stock = stock;
        _tailMm = tailMm;
        Layout = new(value, parts, KitAllowances.ClampMm / 2);
        Order = BuildOrder.Of(Layout);
    }

    public FrameLayout Layout { get; }

    public BuildOrder Order { get; }

    public ImmutableArray<KitItem> Items => [.. _items];

    public ImmutableArray<PinLength> Lengths => [.. _lengths];

    public ImmutableArray<Shortage> Shortages => [.. _shortages];

    /// <summary>The pin of the stock for each pin; empty without a stock.</summary>
    public Dictionary<string, StockPin> Pins { get; } = [];

    /// <summary>The rod of the stock for each rod; empty without a stock.</summary>
    public Dictionary<string, StockRod> Rods { get; } = [];

    /// <summary>The kit of valid parts.</summary>
    public static FrameKit Of(Case value, Parts parts, Stock? stock, double tailMm = KitAllowances.TailMm)
    {
        FrameKit kit = new(value, parts, stock, tailMm);
        kit.TakePins();
        kit.TakeRods();
        kit.TakeClamps();
        kit.TakeTools();
        return kit;
    }

    /// <summary>The drill for a pin: the thinnest that any drilled pin of its diameter needs, so that one serves them all.</summary>
    public double DrillMm(Pin pin) => Layout.Parts.Pins.Zip(_lengths).Where(p => p.First.DiameterMm == pin.DiameterMm && p.Second.Tip == PinTip.Predrilled)
        .Min(p => KitAllowances.Drill(pin.DiameterMm, ToolList.CoreOf(p.First, Pins)).DiameterMm);

    private void TakePins()
    {
        PinNeed[] needs = [.. Layout.Parts.Pins.Select(p => new PinNeed(p, Layout, _tailMm)).OrderByDescending(n => n.Unstocked().NeededMm)];
        StockPin[] items = Of<StockPin>();
        int[] picked = _stock is null ? [.. needs.Select(_ => -1)] : Picking.Pick(needs.Length, Quantities(items), (n, i) => needs[n].Rank(items[i]));
        Dictionary<string, PinLength> lengths = [];
        for (int n = 0; n < needs.Length; n++)
        {
            string id = needs[n].Part.Id;
            if (picked[n] >= 0)
            {
                Pins[id] = items[picked[n]];
                lengths[id] = needs[n].With(items[picked[n]]);
            }
            else
            {
                lengths[id] = _stock is null ? needs[n].Unstocked() : needs[n].Unstocked() with { LengthMm = null };
            }
        }

        _lengths.AddRange(Layout.Parts.Pins.Select(p => lengths[p.Id]));
        foreach (var group in Layout.Parts.Pins.GroupBy(p => (Stock: Pins.GetValueOrDefault(p.Id), p.DiameterMm, p.Material, lengths[p.Id].Tip, Length: Listed(lengths[p.Id]), lengths[p.Id].ThreadLengthMm)).OrderBy(g => g.Key.DiameterMm).ThenBy(g => g.Key.Length))
        {
            bool own = _stock is null && group.All(p => p.LengthMm is double l && l == group.Key.Length);
            _items.Add(new()
            {
                Kind = KitKind.Pin,
                Description = $"Half-pin {Fine(group.Key.DiameterMm)} mm {group.Key.Material}, {SizeWords.Of(group.Key.Tip)}, {Thread(group.Key.ThreadLengthMm)}",
                StockName = group.Key.Stock?.Name,
                LengthMm = group.Key.Length,
                Quantity = group.Count(),
                InStock = _stock is null ? null : group.Key.Stock?.Quantity ?? 0,
                DiameterMm = group.Key.DiameterMm,
                ThreadLengthMm = group.Key.ThreadLengthMm,
                Tip = group.Key.Tip,
                Material = group.Key.Material,
                Parts = [.. group.Select(p => p.Id)],
                Reason = Exposed([.. group.Select(p => lengths[p.Id])]),
                Source = own ? "The case" : "Tip, bone along the pin, standoff, half a clamp and tail",
                Tag = own ? "GIVEN" : "MEMORY",
            });
        }

        Short(KitKind.Pin, needs.Where((_, n) => _stock is not null && picked[n] < 0), n => (n.Part.DiameterMm, n.Part.Material, n.Part.Tip), n => n.Part.Id, n => lengths[n.Part.Id].NeededMm, (key, ids, needed) =>
        {
            StockPin[] alike = [.. items.Where(i => i.DiameterMm == key.DiameterMm && i.Material == key.Material && (key.Tip is null || key.Tip == i.Tip) && i.Quantity > 0)];
            PinNeed[] without = [.. needs.Where(n => ids.Contains(n.Part.Id))];
            double? longest = alike.Length == 0 ? null : alike.Max(i => i.LengthMm);
            double thread = without.Max(n => lengths[n.Part.Id].ThreadFromMm);
            string tip = key.Tip is PinTip t ? $", {SizeWords.Of(t)}" : "";
            int able = alike.Where(i => without.Any(n => n.Rank(i) is not null)).Sum(i => i.Quantity);
            string why = alike.Length == 0 ? "the stock has none of this diameter, material and tip"
                : longest < needed ? $"the longest in stock has {Fine(longest.Value)} mm, {Fine(needed - longest.Value)} mm too short"
                : able == 0 ? $"none that is long enough has the {Fine(thread)} mm of thread that the bone needs"
                : $"the stock has {able} that will do";
            return ($"Half-pin {Fine(key.DiameterMm)} mm {key.Material}{tip}, at least {Fine(Math.Ceiling(needed))} mm long", able, longest < needed ? needed - longest : null, why);
        });
    }

    private void TakeRods()
    {
        (Rod Part, double NeededMm)[] needs = [.. Layout.Parts.Rods.Select(r => (r, Needed(r))).OrderByDescending(n => n.Item2)];
        StockRod[] items = Of<StockRod>();
        int[] picked = _stock is null ? [.. needs.Select(_ => -1)] : Picking.Pick(needs.Length, Quantities(items), (n, i) =>
            Alike(items[i], needs[n].Part) && items[i].LengthMm >= needs[n].NeededMm - 1e-9 ? items[i].LengthMm : null);
        Dictionary<string, double> lengths = [];
        for (int n = 0; n < needs.Length; n++)
        {
            if (picked[n] >= 0)
            {
                Rods[needs[n].Part.Id] = items[picked[n]];
            }

            bool own = needs[n].Part.LengthMm is double l && needs[n].NeededMm <= l + 1e-9;
            lengths[needs[n].Part.Id] = picked[n] >= 0 ? items[picked[n]].LengthMm : own ? needs[n].Part.LengthMm!.Value : KitAllowances.RoundedUpMm(needs[n].NeededMm);
        }

        foreach (var group in Layout.Parts.Rods.GroupBy(r => (Stock: Rods.GetValueOrDefault(r.Id), r.DiameterMm, r.InnerDiameterMm, r.Material, Length: lengths[r.Id])).OrderByDescending(g => g.Key.Length))
        {
            bool own = _stock is null && group.All(r => r.LengthMm == group.Key.Length);
            _items.Add(new()
            {
                Kind = KitKind.Rod,
                Description = RodWords(group.Key.DiameterMm, group.Key.InnerDiameterMm, group.Key.Material),
                StockName = group.Key.Stock?.Name,
                LengthMm = group.Key.Length,
                Quantity = group.Count(),
                InStock = _stock is null ? null : group.Key.Stock?.Quantity ?? 0,
                DiameterMm = group.Key.DiameterMm,
                Material = group.Key.Material,
                Parts = [.. group.Select(r => r.Id)],
                Source = own ? "The case" : "Span of its clamps with overhang",
                Tag = own ? "GIVEN" : "DERIVED",
            });
        }

        Short(KitKind.Rod, needs.Where((_, n) => _stock is not null && picked[n] < 0), n => (n.Part.DiameterMm, n.Part.InnerDiameterMm, n.Part.Material), n => n.Part.Id, n => n.NeededMm, (key, ids, needed) =>
        {
            StockRod[] alike = [.. items.Where(i => Alike(i, needs.First(n => n.Part.Id == ids[0]).Part) && i.Quantity > 0)];
            double? longest = alike.Length == 0 ? null : alike.Max(i => i.LengthMm);
            int able = alike.Where(i => i.LengthMm >= needs.Where(n => ids.Contains(n.Part.Id)).Min(n => n.NeededMm)).Sum(i => i.Quantity);
            string why = alike.Length == 0 ? "the stock has none of this diameter and material"
                : longest < needed ? $"the longest in stock has {Fine(longest.Value)} mm, {Fine(needed - longest.Value)} mm too short"
                : $"the stock has {able} that will do";
            return ($"{RodWords(key.DiameterMm, key.InnerDiameterMm, key.Material)}, at least {Fine(Math.Ceiling(needed))} mm long", able, longest < needed ? needed - longest : null, why);
        });
    }

    private void TakeClamps()
    {
        ClampNeed[] needs = [.. Layout.Clamps.Select(c => ClampNeed.Of(c.Part, Layout, Order)).OrderByDescending(n => n.OpenSided)];
        StockClamp[] items = Of<StockClamp>();
        int[] picked = _stock is null ? [.. needs.Select(_ => -1)] : Picking.Pick(needs.Length, Quantities(items), (n, i) => needs[n].Rank(items[i]));
        Dictionary<string, StockClamp?> taken = needs.Select((n, i) => (n.Id, Item: picked[i] < 0 ? null : items[picked[i]])).ToDictionary(p => p.Id, p => p.Item);
        foreach (var group in needs.GroupBy(n => (Stock: taken[n.Id], Kind: n with { Id = "" })).OrderBy(g => g.Key.Kind.Joint).ThenBy(g => g.Key.Kind.OpenSided))
        {
            ClampNeed need = group.Key.Kind;
            HashSet<string> ids = [.. group.Select(n => n.Id)];
            _items.Add(new()
            {
                Kind = KitKind.Clamp,
                Description = need.Words,
                StockName = group.Key.Stock?.Name,
                Quantity = group.Count(),
                InStock = _stock is null ? null : group.Key.Stock?.Quantity ?? 0,
                DiameterMm = need.OtherMm,
                OpenSided = need.OpenSided,
                Parts = [.. Layout.Clamps.Select(c => c.Part.Id).Where(ids.Contains)],
                Reason = !need.OpenSided ? "" : need.Joint == ClampJoint.RodToRod
                    ? "Ties a rod to one that is already mounted, so it must open to the side"
                    : "Added to a mounted rod for a pin that already stands, so it must open to the side",
                Source = "The building order of this frame",
                Tag = "DERIVED",
            });
        }

        Short(KitKind.Clamp, needs.Where((_, n) => _stock is not null && picked[n] < 0), n => n with { Id = "" }, n => n.Id, _ => null, (key, _, _) =>
        {
            int able = items.Where(i => key.Rank(i) is not null).Sum(i => i.Quantity);
            return (key.Words, able, null, able == 0 ? "the stock has none" : $"the stock has {able} that will do");
        });
    }

    private void TakeTools()
    {
        StockTool[] items = Of<StockTool>();
        foreach (KitItem tool in ToolList.Of(Layout.Parts.Pins, _lengths, Pins))
        {
            int inStock = items.Where(i => i.Tool == tool.Tool && (tool.DiameterMm is null || i.DiameterMm is null || i.DiameterMm == tool.DiameterMm)).Sum(i => i.Quantity);
            _items.Add(tool with { InStock = items.Length == 0 ? null : inStock });
            if (items.Length > 0 && inStock < tool.Quantity)
            {
                _shortages.Add(new()
                {
                    Kind = KitKind.Tool,
                    Description = tool.Description,
                    Needed = tool.Quantity,
                    InStock = inStock,
                    Missing = tool.Quantity - inStock,
                    Parts = [],
                    Message = $"{tool.Description}: {tool.Quantity} needed, {inStock} in stock.",
                });
            }
        }
    }

    private void Short<TNeed, TKey>(KitKind kind, IEnumerable<TNeed> without, Func<TNeed, TKey> key, Func<TNeed, string> id, Func<TNeed, double?> needed, Func<TKey, string[], double, (string Words, int Able, double? TooShortMm, string Why)> tell)
    {
        foreach (IGrouping<TKey, TNeed> group in without.GroupBy(key))
        {
            string[] ids = [.. group.Select(id)];
            double? most = group.Max(needed);
            (string words, int able, double? tooShort, string why) = tell(group.Key, ids, most ?? 0);
            _shortages.Add(new()
            {
                Kind = kind,
                Description = words,
                Needed = ids.Length + able,
                InStock = able,
                Missing = ids.Length,
                NeededMm = most,
                TooShortByMm = tooShort,
                Parts = [.. ids.OrderBy(i => i.Length).ThenBy(i => i, StringComparer.Ordinal)],
                Message = $"{words}: {ids.Length} missing ({string.Join(", ", ids.OrderBy(i => i.Length).ThenBy(i => i, StringComparer.Ordinal))}); {why}.",
            });
        }
    }

    private double Needed(Rod rod)
    {
        (double from, double to) = Layout.Extent(rod);
        return to - from;
    }

    private TItem[] Of<TItem>()
        where TItem : StockItem => _stock is null ? [] : [.. _stock.Items.OfType<TItem>()];

    private static int[] Quantities(StockItem[] items) => [.. items.Select(i => i.Quantity)];

    private static bool Alike(StockRod item, Rod rod) => item.DiameterMm == rod.DiameterMm && item.InnerDiameterMm == rod.InnerDiameterMm && item.Material == rod.Material;

    private static double Listed(PinLength p) => p.LengthMm ?? KitAllowances.RoundedUpMm(p.NeededMm);

    private static string RodWords(double diameterMm, double innerMm, string material) =>
        $"Rod {Fine(diameterMm)} mm {material}{(innerMm > 0 ? $", bore {Fine(innerMm)} mm" : "")}";

    private static string Thread(double? threadMm) => threadMm is double t ? $"thread {Fine(t)} mm" : "thread as the bone needs";

    // Thread that stands out of the near cortex, or what thread to look for where none is given.
    private static string Exposed(PinLength[] pins)
    {
        if (pins[0].ThreadLengthMm is not double thread)
        {
            return $"Thread wanted: {SizeWords.List([.. pins.Select(p => $"{p.Pin} {Whole(Math.Ceiling(p.ThreadFromMm))}–{Whole(Math.Ceiling(p.ThreadToMm))} mm")])}";
        }

        PinLength[] shortOnes = [.. pins.Where(p => thread < p.ThreadFromMm)], exposed = [.. pins.Where(p => p.ExposedThreadMm > 0.05)];
        return string.Join(". ", new[]
        {
            shortOnes.Length == 0 ? "" : $"Thread too short for the bone at {SizeWords.List([.. shortOnes.Select(p => $"{p.Pin} (wants {Whole(Math.Ceiling(p.ThreadFromMm))} mm)")])}",
            exposed.Length == 0 ? "" : $"Thread stands out of the near cortex and bends with its core: {SizeWords.List([.. exposed.Select(p => $"{p.Pin} by {Full(p.ExposedThreadMm!.Value)} mm")])}",
            exposed.Any(p => p.ThreadThroughSkin) ? $"Thread comes through the skin at {SizeWords.List([.. exposed.Where(p => p.ThreadThroughSkin).Select(p => p.Pin)])}: take a shorter thread" : "",
        }.Where(t => t.Length > 0));
    }
}
