using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Halfpin.Domain.Validity;
using Json.Schema;

namespace Halfpin.Storage.Cases;

/// <summary>Turns what a JSON Schema validator finds into faults in our words.</summary>
/// <remarks>The committed schema is read instead of being made from the types anew: that takes a sixth of a second of every start.</remarks>
internal sealed class SchemaFaults
{
    private readonly JsonObject _schema;
    private readonly JsonSchema _validator;
    private readonly string _name;

    /// <summary>Faults by a committed schema.</summary>
    /// <param name="name">The name by which halfpin schema prints it. The schema must not use references.</param>
    public SchemaFaults(string name)
    {
        using Stream stream = typeof(SchemaFaults).Assembly.GetManifestResourceStream($"schema:{name}") ?? throw new ArgumentException($"No schema {name}.", nameof(name));
        using StreamReader reader = new(stream);
        string text = reader.ReadToEnd();
        (_schema, _validator, _name) = ((JsonObject)JsonNode.Parse(text)!, JsonSchema.FromText(text), name);
    }

    public IEnumerable<Fault> In(JsonElement root)
    {
        EvaluationResults results = _validator.Evaluate(root, new() { OutputFormat = OutputFormat.List });
        if (results.IsValid)
        {
            return [];
        }

        return (results.Details ?? [])
            .Where(d => !d.IsValid && !d.EvaluationPath.ToString().Contains("/if", StringComparison.Ordinal))
            .SelectMany(d => (d.Errors ?? new Dictionary<string, string>()).Keys.SelectMany(keyword => Fault(root, d, keyword)));
    }

    private IEnumerable<Fault> Fault(JsonElement root, EvaluationResults detail, string keyword)
    {
        string pointer = detail.InstanceLocation.ToString(), path = detail.EvaluationPath.ToString();
        JsonElement value = At(root, pointer);
        if (keyword.Length == 0)
        {
            return path.EndsWith("/additionalProperties", StringComparison.Ordinal) ? [Unknown(pointer, Schema(Pointers.Parent(path)))] : [];
        }

        JsonObject schema = Schema(path);
        string name = Pointers.Leaf(pointer);
        return keyword switch
        {
            "required" => schema["required"]!.AsArray().Select(r => (string)r!).Where(r => !value.TryGetProperty(r, out _)).Select(r => Missing(pointer, r, schema)),
            "type" => [new(pointer, FaultCodes.Type, $"\"{name}\" is {Words.Kind(value)}.", Words.Types(schema["type"]!), "Write the one instead of the other.")],
            "enum" => [Choice(pointer, value, schema["enum"]!.AsArray())],
            "minimum" or "maximum" => [Range(pointer, value, schema)],
            "minItems" or "maxItems" => [new(pointer, FaultCodes.Range, $"\"{name}\" has {value.GetArrayLength()} entries.", Words.Count(schema), "Add or remove entries.")],
            "minLength" or "maxLength" => [new(pointer, FaultCodes.Range, $"\"{name}\" has {value.GetString()!.Length} characters.", $"At most {schema["maxLength"]}.", "Shorten it.")],
            "pattern" => [new(pointer, FaultCodes.Type, $"\"{value.GetString()}\" is no id.", "1 to 40 letters, digits, dots, hyphens or underscores, first a letter or digit.", "Rename it, here and where it is named.")],
            _ => [],
        };
    }

    private static Fault Unknown(string pointer, JsonObject schema)
    {
        string name = Pointers.Leaf(pointer);
        string[] known = [.. schema["properties"]!.AsObject().Select(p => p.Key).Where(k => k != "notes")];
        return new(pointer, FaultCodes.UnknownMember, $"\"{name}\" is not a member here.", $"{string.Join(", ", known)}, and anything under notes or x-….", Spelling.DidYouMean(name, known) ?? "Remove it, or put it under notes.");
    }

    private Fault Missing(string pointer, string name, JsonObject schema)
    {
        string allowed = (string?)schema["properties"]?[name]?["description"] ?? $"See halfpin schema {_name}.";
        return new(Pointers.Append(pointer, name), FaultCodes.Missing, $"\"{name}\" is missing.", allowed, "Add it.");
    }

    private static Fault Choice(string pointer, JsonElement value, JsonArray choices)
    {
        string[] known = [.. choices.Where(c => c is not null).Select(c => (string)c!)];
        string given = value.ValueKind == JsonValueKind.String ? value.GetString()! : value.GetRawText();
        return new(pointer, FaultCodes.Choice, $"\"{Words.Short(given)}\" is not a choice for \"{Pointers.Leaf(pointer)}\".", string.Join(", ", known), Spelling.DidYouMean(given, known) ?? $"Choose one of {string.Join(", ", known)}.");
    }

    private static Fault Range(string pointer, JsonElement value, JsonObject schema)
    {
        string name = Pointers.Leaf(pointer), unit = Words.Unit(name);
        string low = Number(schema["minimum"]), high = Number(schema["maximum"]);
        return new(pointer, FaultCodes.Range, $"\"{name}\" is {Words.Short(value.GetRawText())}{unit}.", $"{low} to {high}{unit}.", $"Use a value from {low} to {high}{unit}.");
    }

    private static string Number(JsonNode? limit) => ((double)limit!).ToString("0.###", CultureInfo.InvariantCulture);

    // No references are used in our schema, so the path of evaluation is the path in the schema, but that the validator says
    // "items" twice for each list.
    private JsonObject Schema(string path)
    {
        JsonNode node = _schema;
        foreach (string step in path.Replace("/items/items", "/items", StringComparison.Ordinal).Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            string name = step.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);
            node = node is JsonArray array ? array[int.Parse(name, CultureInfo.InvariantCulture)]! : node[name]!;
        }

        return node.AsObject();
    }

    private static JsonElement At(JsonElement root, string pointer)
    {
        foreach (string step in pointer.Split('/').Skip(1))
        {
            string name = step.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);
            root = root.ValueKind == JsonValueKind.Array ? root[int.Parse(name, CultureInfo.InvariantCulture)] : root.GetProperty(name);
        }

        return root;
    }
}
