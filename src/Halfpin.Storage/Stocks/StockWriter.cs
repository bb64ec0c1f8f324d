using System.Text.Json;
using System.Text.Json.Nodes;
using Halfpin.Domain.Stocks;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Stocks;

/// <summary>Writes stocks as JSON files that <see cref="StockReader"/> reads back to the same value.</summary>
public static class StockWriter
{
    /// <summary>The file's text: UTF-8 JSON, what is not known left out.</summary>
    public static byte[] Write(Stock value)
    {
        JsonObject root = JsonSerializer.SerializeToNode(value, HalfpinJson.Options)!.AsObject();
        foreach (JsonObject item in root["items"]!.AsArray().OfType<JsonObject>())
        {
            foreach (string name in item.Where(m => m.Value is null).Select(m => m.Key).ToArray())
            {
                item.Remove(name);
            }
        }

        return JsonSerializer.SerializeToUtf8Bytes(root, HalfpinJson.Options);
    }
}
