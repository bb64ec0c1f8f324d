using Halfpin.Storage.Stocks;
using Halfpin.Web.Server;

namespace Halfpin.Cli;

/// <summary>Opens the stock that a verb names.</summary>
internal static class StockSource
{
    private const string ExamplePrefix = "stock:";

    /// <summary>The example stocks that ship with the program.</summary>
    public static IEnumerable<ExampleStock> Examples() => EmbeddedFiles.Under(ExamplePrefix).Select(f => new ExampleStock(f.Name, f.Bytes));

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
