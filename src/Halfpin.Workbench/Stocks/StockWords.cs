using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Indication;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Stocks;

/// <summary>Lines of a stock of one kind, as a table: the first cell of a row names the item.</summary>
/// <param name="Name">Name of the kind.</param>
/// <param name="Headings">Headings, units among them.</param>
/// <param name="Rows">Rows, as long as the headings.</param>
public sealed record StockTable(string Name, ImmutableArray<string> Headings, ImmutableArray<ImmutableArray<string>> Rows);

/// <summary>A stock in words and tables.</summary>
public static class StockWords
{
    /// <summary>What there is in a sentence.</summary>
    public static string Sentence(StockFile? file)
    {
        if (file is null)
        {
            return "No stock: kit and suggestion use sizes of their own.";
        }

        string[] parts =
        [
            .. Count<StockPin>(file.Stock, "half-pin", "half-pins"), .. Count<StockRod>(file.Stock, "rod", "rods"),
            .. Count<StockClamp>(file.Stock, "clamp", "clamps"), .. Count<StockTool>(file.Stock, "tool", "tools"),
        ];
        return $"{file.Stock.Title}: {string.Join(", ", parts)}.";
    }

    /// <summary>A table for each kind of part that there is.</summary>
    public static ImmutableArray<StockTable> Tables(Stock stock) =>
    [
        .. Table<StockPin>(stock, "Half-pins", ["Ø mm", "Length mm", "Thread mm", "Core Ø mm", "Tip", "Material"],
            p => [N(p.DiameterMm), N(p.LengthMm), N(p.ThreadLengthMm), N(p.CoreDiameterMm), IndicationRecorder.Word(p.Tip), p.Material]),
        .. Table<StockRod>(stock, "Rods", ["Ø mm", "Inner Ø mm", "Length mm", "Material"], r => [N(r.DiameterMm), r.InnerDiameterMm > 0 ? N(r.InnerDiameterMm) : "solid", N(r.LengthMm), r.Material]),
        .. Table<StockClamp>(stock, "Clamps", ["Joins", "Holds Ø mm", "On rod Ø mm", "Open-sided"],
            c => [IndicationRecorder.Word(c.Joins), $"{N(c.FromDiameterMm)} to {N(c.ToDiameterMm)}", N(c.RodDiameterMm), c.OpenSided ? "yes" : "no"]),
        .. Table<StockTool>(stock, "Tools", ["Kind", "For Ø mm"], t => [IndicationRecorder.Word(t.Tool), N(t.DiameterMm)]),
    ];

    private static IEnumerable<StockTable> Table<T>(Stock stock, string name, string[] headings, Func<T, string[]> cells)
        where T : StockItem
    {
        T[] items = [.. stock.Items.OfType<T>()];
        return items.Length == 0 ? [] : [new(name, ["Item", "Number", .. headings], [.. items.Select(i => (ImmutableArray<string>)[i.Name, i.Quantity.ToString(CultureInfo.InvariantCulture), .. cells(i)])])];
    }

    private static IEnumerable<string> Count<T>(Stock stock, string one, string many)
        where T : StockItem
    {
        int n = stock.Items.OfType<T>().Sum(i => i.Quantity);
        return n == 0 ? [] : [string.Create(CultureInfo.InvariantCulture, $"{n} {(n == 1 ? one : many)}")];
    }

    private static string N(double? value) => value is double v ? v.ToString("0.##", CultureInfo.InvariantCulture) : "–";
}
