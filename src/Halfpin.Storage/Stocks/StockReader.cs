using System.Security.Cryptography;
using System.Text.Json;
using Halfpin.Domain.Stocks;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Stocks;

/// <summary>Reads stock files, JSON or CSV: every fault of form and content in one answer, never an exception for what a file may contain.</summary>
public static class StockReader
{
    /// <summary>Largest stock file accepted.</summary>
    public const int MaxBytes = 2 * 1024 * 1024;

    private const int MaxFaults = 100;

    private static readonly SchemaFaults _schema = new("stock");

    /// <summary>Reads a stock.</summary>
    /// <param name="utf8">The file's bytes.</param>
    /// <param name="fileName">The file's name: one that ends in .csv is read as CSV, any other as JSON.</param>
    public static StockReading Read(ReadOnlyMemory<byte> utf8, string fileName)
    {
        string sha = Convert.ToHexStringLower(SHA256.HashData(utf8.Span));
        if (utf8.Length > MaxBytes)
        {
            return Refuse(sha, [new("", FaultCodes.TooLarge, $"The file has {utf8.Length} bytes.", $"At most {MaxBytes} bytes.", "Check that this is a stock file.")]);
        }

        ReadOnlyMemory<byte> text = utf8.Span.StartsWith("\uFEFF"u8) ? utf8[3..] : utf8;
        return fileName.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) ? Csv(text, fileName, sha) : Json(text, sha);
    }

    private static StockReading Json(ReadOnlyMemory<byte> text, string sha)
    {
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(text, new() { MaxDepth = HalfpinJson.MaxDepth, CommentHandling = JsonCommentHandling.Skip });
        }
        catch (JsonException e)
        {
            string where = e.LineNumber is long line ? $" at line {line + 1}, byte {e.BytePositionInLine + 1}" : "";
            return Refuse(sha, [new("", FaultCodes.Syntax, $"The file is not JSON{where}.", "UTF-8 JSON (RFC 8259), or CSV in a file whose name ends in .csv.", "Mend the text there.")]);
        }

        using (document)
        {
            List<Fault> broken = [.. BrokenTexts.In(document.RootElement)];
            return broken.Count > 0 ? Refuse(sha, broken)
                : Identify(document.RootElement) is Fault stranger ? Refuse(sha, [stranger])
                : Content(document.RootElement, sha, [.. DuplicateMembers.In(document.RootElement)]);
        }
    }

    private static StockReading Csv(ReadOnlyMemory<byte> text, string fileName, string sha)
    {
        StockCsv csv = StockCsv.Read(text, Path.GetFileNameWithoutExtension(fileName));
        if (csv.Items == 0)
        {
            return Refuse(sha, csv.Faults);
        }

        using JsonDocument document = JsonDocument.Parse(csv.Json);
        StockReading reading = Content(document.RootElement, sha, []);
        if (reading.Faults.IsEmpty && csv.Faults.Count == 0)
        {
            return reading;
        }

        // A cell that is told of already is told of once.
        HashSet<string> told = [.. csv.Faults.Select(f => f.Pointer)];
        return Refuse(sha, [.. csv.Faults, .. reading.Faults.Select(f => f with { Pointer = csv.Place(f.Pointer) }).Where(f => !told.Contains(f.Pointer))]);
    }

    private static StockReading Content(JsonElement root, string sha, List<Fault> faults)
    {
        faults.AddRange(_schema.In(root));

        // Rules on content read the items that have no fault of form, so that both kinds are told at once.
        if (root.TryGetProperty("items", out JsonElement items) && items.ValueKind == JsonValueKind.Array)
        {
            HashSet<string> faulty = [.. faults.Select(f => f.Pointer.Split('/')).Where(s => s.Length > 2 && s[1] == "items").Select(s => s[2])];
            int i = 0;
            foreach (JsonElement item in items.EnumerateArray())
            {
                string at = $"/items/{i}";
                if (!faulty.Contains($"{i++}"))
                {
                    faults.AddRange(StockRules.Check(item.Deserialize<StockItem>(HalfpinJson.Options)!, at));
                }
            }
        }

        return faults.Count > 0 ? Refuse(sha, faults) : new(root.Deserialize<Stock>(HalfpinJson.Options), sha, []);
    }

    private static Fault? Identify(JsonElement root)
    {
        const string Try = "Start from examples/demo-stock.json.";
        if (root.ValueKind != JsonValueKind.Object)
        {
            return new("", FaultCodes.Format, "The file holds no JSON object.", $"An object with \"format\": \"{Stock.FormatName}\".", Try);
        }

        if (!root.TryGetProperty("format", out JsonElement format) || format.ValueKind != JsonValueKind.String || !format.ValueEquals(Stock.FormatName))
        {
            return new("/format", FaultCodes.Format, "The file does not say that it is a stock.", $"\"format\": \"{Stock.FormatName}\"", Try);
        }

        return root.TryGetProperty("formatVersion", out JsonElement version) && version.ValueKind == JsonValueKind.Number
            && version.TryGetDouble(out double v) && v > Stock.CurrentFormatVersion
            ? new("/formatVersion", FaultCodes.NewerVersion, $"The stock has format version {version}, newer than this program knows.", $"Up to {Stock.CurrentFormatVersion}.", "Update Halfpin.")
            : null;
    }

    private static StockReading Refuse(string sha, IEnumerable<Fault> faults) =>
        new(null, sha, [.. faults.DistinctBy(f => (f.Pointer, f.Code, f.Message)).Take(MaxFaults)]);
}
