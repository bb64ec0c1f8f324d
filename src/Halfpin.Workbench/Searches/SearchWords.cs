using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Search;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Searches;

/// <summary>What a search of a case would do, in words.</summary>
public static class SearchWords
{
    /// <summary>How many candidates of what, and what counts as simple.</summary>
    /// <param name="value">The case.</param>
    /// <param name="stock">The stock that frames must be built from; null for any.</param>
    public static string Lead(Case value, StockFile? stock)
    {
        long candidates = new Suggester(value, stock?.Stock).Candidates;
        string parts = stock is null ? "" : $" Only parts of the stock {stock.FileName} are used.";
        string purpose = value.Purpose.ToString().ToLowerInvariant();
        string between = value.Fractures.Length == 1 ? "" : ", with pins in each fragment between fractures,";
        return string.Create(CultureInfo.InvariantCulture, $"Tries {candidates:#,0} candidates of one rod, two rods and a V{between} against what a {purpose} frame must meet, and names the simplest: fewest parts, then least cost, then most room at the wound.{parts}");
    }
}
