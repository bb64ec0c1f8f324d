using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Halfpin.Domain.Stocks;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Json;
using Halfpin.Storage.Schemas;
using nietras.SeparatedValues;

namespace Halfpin.Storage.Stocks;

/// <summary>
/// A stock as CSV: a heading of member names and a row for each item; empty cells are left out. It becomes the same JSON as
/// the other form, so that one set of rules reads both.
/// </summary>
internal sealed class StockCsv
{
    // Members by name with their JSON type, over all kinds of items.
    private static readonly Dictionary<string, string> _types = Types();

    private readonly List<int> _lines = [];

    private StockCsv()
    {
    }

    /// <summary>The document as JSON.</summary>
    public string Json { get; private set; } = "";

    /// <summary>How many items it has.</summary>
    public int Items => _lines.Count;

    /// <summary>Faults that only the table has.</summary>
    public List<Fault> Faults { get; } = [];

    /// <summary>Reads a table.</summary>
    /// <param name="utf8">Its bytes.</param>
    /// <param name="title">A title for the stock; a table has none.</param>
    public static StockCsv Read(ReadOnlyMemory<byte> utf8, string title)
    {
        StockCsv csv = new();
        string text;
        try
        {
            text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(utf8.Span);
        }
        catch (DecoderFallbackException)
        {
            csv.Faults.Add(new("", FaultCodes.Syntax, "The file is not UTF-8.", "Text in UTF-8.", "Save it again as CSV UTF-8."));
            return csv;
        }

        if (text.Contains('\0', StringComparison.Ordinal))
        {
            csv.Faults.Add(new("", FaultCodes.Syntax, "The file holds a zero character.", "Text.", "Check that this is a stock file."));
            return csv;
        }

        JsonArray items = [];
        try
        {
            csv.Rows(text, items);
        }
        catch (Exception e) when (e is InvalidDataException or ArgumentException or NotSupportedException or OverflowException)
        {
            csv.Faults.Add(new($"row {csv._lines.LastOrDefault(1) + 1}", FaultCodes.Syntax, "The table cannot be read from here on.", "Cells parted by commas, semicolons or tabs; quotes come in pairs.", "Mend the row there."));
        }

        if (csv.Items == 0 && csv.Faults.Count == 0)
        {
            csv.Faults.Add(new("row 2", FaultCodes.Missing, "The table has no items.", "A row for each item below the heading.", "Add rows."));
        }

        csv.Json = new JsonObject { ["format"] = Stock.FormatName, ["formatVersion"] = Stock.CurrentFormatVersion, ["title"] = title, ["items"] = items }.ToJsonString();
        return csv;
    }

    /// <summary>A pointer into <see cref="Json"/> as a row and column of the table.</summary>
    public string Place(string pointer)
    {
        string[] steps = pointer.Split('/');
        return steps.Length > 2 && steps[1] == "items" && int.TryParse(steps[2], NumberStyles.None, CultureInfo.InvariantCulture, out int item)
            ? $"row {_lines[item]}" + (steps.Length > 3 ? $", column {steps[3]}" : "")
            : pointer;
    }

    private void Rows(string text, JsonArray items)
    {
        string[]? heading = null;
        int next = 1;
        using SepReader reader = Sep.Reader(o => o with { HasHeader = false, Unescape = true, DisableColCountCheck = true, Trim = SepTrim.All }).FromText(text);
        foreach (SepReader.Row row in reader)
        {
            int line = next;
            next = row.LineNumberToExcl;
            string[] cells = new string[row.ColCount];
            for (int i = 0; i < cells.Length; i++)
            {
                cells[i] = row[i].ToString();
            }

            if (cells.All(c => c.Length == 0))
            {
                continue;
            }

            if (heading is null)
            {
                heading = cells;
                Heading(heading, line);
                continue;
            }

            _lines.Add(line);
            items.Add(Item(heading, cells, line));
        }
    }

    private void Heading(string[] heading, int line)
    {
        for (int i = 0; i < heading.Length; i++)
        {
            string at = $"row {line}, column {i + 1}";
            if (heading[i].Length > 0 && !_types.ContainsKey(heading[i]) && !heading[i].StartsWith("x-", StringComparison.Ordinal))
            {
                Faults.Add(new(at, FaultCodes.UnknownMember, $"\"{Words.Short(heading[i])}\" is not a column.", $"{string.Join(", ", _types.Keys)}, and any that begins with x-.", Spelling.DidYouMean(heading[i], _types.Keys) ?? "Remove it, or begin its name with x-."));
            }

            if (heading[i].Length > 0 && Array.IndexOf(heading, heading[i]) < i)
            {
                Faults.Add(new(at, FaultCodes.DuplicateMember, $"There are two columns \"{Words.Short(heading[i])}\".", "Each column once.", "Keep the right one."));
            }
        }
    }

    private JsonObject Item(string[] heading, string[] cells, int line)
    {
        JsonObject item = [];
        for (int i = 0; i < cells.Length; i++)
        {
            if (cells[i].Length == 0)
            {
                continue;
            }

            if (i >= heading.Length || heading[i].Length == 0)
            {
                Faults.Add(new($"row {line}, column {i + 1}", FaultCodes.UnknownMember, $"\"{Words.Short(cells[i])}\" stands under no heading.", "As many cells as headings.", "Quote cells that hold a comma, or add a heading."));
            }
            else if (_types.TryGetValue(heading[i], out string? type) && !item.ContainsKey(heading[i]))
            {
                item[heading[i]] = Value(cells[i], type, $"row {line}, column {heading[i]}");
            }
        }

        return item;
    }

    private JsonNode Value(string cell, string type, string at)
    {
        switch (type)
        {
            case "number" when double.TryParse(cell, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number):
                return number;
            case "number":
                Faults.Add(new(at, FaultCodes.Type, $"\"{Words.Short(cell)}\" is no number.", "A number with a decimal point and without its unit.", cell.Contains(',', StringComparison.Ordinal) ? "Write a point for the decimal comma." : "Write digits only."));
                return cell;
            case "integer" when int.TryParse(cell, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int whole):
                return whole;
            case "integer":
                Faults.Add(new(at, FaultCodes.Type, $"\"{Words.Short(cell)}\" is no whole number.", "A whole number.", "Write digits only."));
                return cell;
            case "boolean" when bool.TryParse(cell, out bool yes):
                return yes;
            case "boolean":
                Faults.Add(new(at, FaultCodes.Type, $"\"{Words.Short(cell)}\" is neither true nor false.", "true or false.", "Write one of them, or leave the cell empty."));
                return cell;
            default:
                return cell;
        }
    }

    private static Dictionary<string, string> Types()
    {
        Dictionary<string, string> types = new() { [HalfpinJson.Discriminator] = "string" };
        JsonObject items = SchemaExporter.Of("stock")["properties"]!["items"]!["items"]!.AsObject();
        foreach (JsonNode? branch in items["allOf"]!.AsArray())
        {
            foreach ((string name, JsonNode? member) in branch!["then"]!["properties"]!.AsObject())
            {
                if (name is not HalfpinJson.Discriminator and not "notes")
                {
                    types[name] = member!["type"] switch
                    {
                        JsonArray many => many.Select(t => (string)t!).First(t => t != "null"),
                        JsonValue one => (string)one!,
                        _ => "string",
                    };
                }
            }
        }

        return types;
    }
}
