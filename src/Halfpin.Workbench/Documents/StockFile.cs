using Halfpin.Domain.Stocks;

namespace Halfpin.Workbench.Documents;

/// <summary>The stock that a work holds.</summary>
/// <param name="FileName">Name of its file.</param>
/// <param name="Bytes">The file as it was given.</param>
/// <param name="Stock">What it says.</param>
/// <param name="Sha256">SHA-256 of the bytes, lower-case hexadecimal.</param>
public sealed record StockFile(string FileName, byte[] Bytes, Stock Stock, string Sha256);
