using Halfpin.Storage.Stocks;

namespace Halfpin.Cli;

/// <summary>Opens the stock that a verb names.</summary>
internal static class StockSource
{
    /// <summary>Reads a stock from a file.</summary>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public static StockReading Read(string path)
    {
        using Stream stream = File.OpenRead(path);
        byte[] bytes = new byte[StockReader.MaxBytes + 1];
        int length = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return StockReader.Read(bytes.AsMemory(0, length), path);
    }
}
