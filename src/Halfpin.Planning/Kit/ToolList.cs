using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using static Halfpin.Planning.Building.SizeWords;

namespace Halfpin.Planning.Kit;

/// <summary>The tools for a frame, by the diameters and tips of its pins.</summary>
internal static class ToolList
{
    private const string Sleeve = "Drill and pin go through a sleeve held on bone: online reference";

    private static readonly Dictionary<ToolKind, string> _names = new()
    {
        [ToolKind.PowerDriver] = "Power driver",
        [ToolKind.HandChuck] = "Hand chuck",
        [ToolKind.PinSleeve] = "Pin sleeve",
        [ToolKind.Trocar] = "Trocar",
        [ToolKind.DrillSleeve] = "Drill sleeve",
        [ToolKind.Drill] = "Drill",
        [ToolKind.Wrench] = "Wrench",
    };

    /// <summary>The tools.</summary>
    /// <param name="pins">The pins.</param>
    /// <param name="lengths">How their lengths come about, in the same order: they know the tips.</param>
    /// <param name="stock">The stock's pin for each, where there is one: it knows the core.</param>
    public static IEnumerable<KitItem> Of(IReadOnlyList<Pin> pins, IReadOnlyList<PinLength> lengths, IReadOnlyDictionary<string, StockPin> stock)
    {
        yield return Tool(ToolKind.PowerDriver, "", 1, null, "Powered start, near cortex: Appropedia training module", "READ");
        yield return Tool(ToolKind.HandChuck, "", 1, null, "Far cortex by hand, which avoids plunging: Appropedia training module", "READ");
        foreach (double diameter in pins.Select(p => p.DiameterMm).Distinct().Order())
        {
            yield return Tool(ToolKind.PinSleeve, $"for {Fine(diameter)} mm pins", 1, diameter, Sleeve, "READ");
            yield return Tool(ToolKind.Trocar, $"for the {Fine(diameter)} mm pin sleeve", 1, diameter, "Trocar through the sleeve onto bone: common practice, no source", "common practice");
        }

        // The thinnest drill of each diameter of pins serves them all.
        foreach (var drilled in pins.Zip(lengths).Where(p => p.Second.Tip == PinTip.Predrilled)
            .GroupBy(p => p.First.DiameterMm).OrderBy(g => g.Key).Select(g => g.Select(p => KitAllowances.Drill(g.Key, CoreOf(p.First, stock))).MinBy(d => d.DiameterMm)).DistinctBy(d => d.DiameterMm))
        {
            yield return Tool(ToolKind.DrillSleeve, $"{Fine(drilled.DiameterMm)} mm, nested in the pin sleeve", 1, drilled.DiameterMm, Sleeve, "READ");
            yield return Tool(ToolKind.Drill, $"{Fine(drilled.DiameterMm)} mm, sharp", 1, drilled.DiameterMm, drilled.Source, drilled.Tag);
        }

        yield return Tool(ToolKind.Wrench, "for the clamps, one to hold against the other", 2, null, "Common practice, no source", "common practice");
    }

    /// <summary>Core of a pin's thread: the stock's where there is one, else the case's; null when neither tells.</summary>
    public static double? CoreOf(Pin pin, IReadOnlyDictionary<string, StockPin> stock) => stock.TryGetValue(pin.Id, out StockPin? item) ? item.CoreDiameterMm : pin.CoreDiameterMm;

    private static KitItem Tool(ToolKind kind, string words, int quantity, double? diameterMm, string source, string tag) => new()
    {
        Kind = KitKind.Tool,
        Description = words.Length == 0 ? _names[kind] : $"{_names[kind]} {words}",
        Quantity = quantity,
        DiameterMm = diameterMm,
        Tool = kind,
        Source = source,
        Tag = tag,
    };
}
