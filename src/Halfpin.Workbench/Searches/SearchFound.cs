using Halfpin.Domain.Assessments;

namespace Halfpin.Workbench.Searches;

/// <summary>What a search found, with the stock that it built from.</summary>
/// <param name="Suggestions">The report.</param>
/// <param name="StockName">File name of the stock; null for any parts.</param>
/// <param name="StockSha256">Its hash; null without one.</param>
public sealed record SearchFound(SuggestReport Suggestions, string? StockName, string? StockSha256);
