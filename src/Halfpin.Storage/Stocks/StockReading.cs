using System.Collections.Immutable;
using Halfpin.Domain.Stocks;
using Halfpin.Domain.Validity;

namespace Halfpin.Storage.Stocks;

/// <summary>What came of reading a stock file.</summary>
/// <param name="Stock">The stock, null when there are faults.</param>
/// <param name="Sha256">SHA-256 of the bytes, lower-case hexadecimal.</param>
/// <param name="Faults">Everything that is wrong; empty for a good stock. In CSV a fault's place is its row and column.</param>
public sealed record StockReading(Stock? Stock, string Sha256, ImmutableArray<Fault> Faults);
