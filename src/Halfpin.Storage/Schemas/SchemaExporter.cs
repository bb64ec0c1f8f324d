using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using System.Text.Json.Serialization.Metadata;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Stocks;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Schemas;

/// <summary>The JSON Schemas (draft 2020-12) of the case file and of the reports, made from the types and their fields.</summary>
public static class SchemaExporter
{
    private const string IdPattern = "^[A-Za-z0-9][A-Za-z0-9_.-]{0,39}$";

    private static readonly Document[] _documents =
    [
        new("case", typeof(Case), IsInput: true), new("stock", typeof(Stock), IsInput: true), new("assessment", typeof(Assessment)), new("check", typeof(CheckReport)),
        new("corridors", typeof(CorridorReport)), new("healing", typeof(HealingReport)), new("dynamise", typeof(DynamisationReport)),
        new("overload", typeof(OverloadReport)), new("kit", typeof(KitReport)), new("steps", typeof(StepsReport)),
        new("suggest", typeof(SuggestReport)), new("vary", typeof(VariationReport)), new("uncertainty", typeof(UncertaintyReport)), new("align", typeof(AlignmentReport)), new("indication", typeof(IndicationReport)),
    ];

    /// <summary>The documents that have a schema.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. _documents.Select(d => d.Name)];

    /// <summary>The schema of a document by one of the names. That of an input refuses unknown members, but for notes and x-….</summary>
    public static JsonObject Of(string name)
    {
        Document document = _documents.Single(d => d.Name == name);
        return Export(document.Type, $"urn:halfpin:schema:{name}:1", $"Halfpin {name}", document.IsInput);
    }

    private static JsonObject Export(Type type, string id, string title, bool input)
    {
        JsonSchemaExporterOptions options = new()
        {
            TreatNullObliviousAsNonNullable = true,
            TransformSchemaNode = (context, node) => Transform(context, node, input),
        };
        JsonObject schema = (JsonObject)JsonSchemaExporter.GetJsonSchemaAsNode(HalfpinJson.Options, type, options);
        JsonObject headed = new()
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["$id"] = id,
            ["title"] = title,
        };
        foreach (KeyValuePair<string, JsonNode?> member in schema.ToArray())
        {
            schema.Remove(member.Key);
            headed[member.Key] = member.Value;
        }

        return headed;
    }

    private static JsonNode Transform(JsonSchemaExporterContext context, JsonNode node, bool input)
    {
        if (node is not JsonObject schema)
        {
            return node;
        }

        if (schema["anyOf"] is JsonArray kinds)
        {
            ByKind(schema, kinds);
        }
        else if (schema["properties"] is JsonObject properties)
        {
            foreach (JsonPropertyInfo property in context.TypeInfo.Properties)
            {
                // Kinds get no visit of their own as members, so meanings and limits are set from the object that has them.
                if (property.AttributeProvider?.GetCustomAttributes(typeof(FieldAttribute), true).FirstOrDefault() is FieldAttribute field
                    && properties[property.Name] is JsonObject member)
                {
                    Limit(member, field);
                }
            }

            if (input)
            {
                properties.TryAdd("notes", new JsonObject { ["description"] = context.TypeInfo.Type == typeof(Case) ? "Anything; shown in the report as text." : "Anything; kept, never read." });
                schema["patternProperties"] = new JsonObject { ["^x-"] = true };
                schema["additionalProperties"] = false;
            }
        }

        return schema;
    }

    // The exporter writes kinds as anyOf, which makes a validator blame every branch. Choosing the branch by its kind first
    // keeps the blame where it belongs.
    private static void ByKind(JsonObject schema, JsonArray kinds)
    {
        JsonArray names = [], branches = [];
        foreach (JsonNode? kind in kinds.ToArray())
        {
            kinds.Remove(kind);
            JsonObject branch = (JsonObject)kind!;
            JsonNode name = branch["properties"]![HalfpinJson.Discriminator]!["const"]!;
            names.Add(name.DeepClone());
            branches.Add(new JsonObject
            {
                ["if"] = new JsonObject
                {
                    ["properties"] = new JsonObject { [HalfpinJson.Discriminator] = new JsonObject { ["const"] = name.DeepClone() } },
                    ["required"] = new JsonArray(HalfpinJson.Discriminator),
                },
                ["then"] = branch,
            });
        }

        schema.Remove("anyOf");
        schema["type"] = Nullable(schema) ? new JsonArray("object", "null") : "object";
        schema["properties"] = new JsonObject { [HalfpinJson.Discriminator] = new JsonObject { ["enum"] = names } };
        schema["required"] = new JsonArray(HalfpinJson.Discriminator);
        schema["allOf"] = branches;
    }

    private static bool Nullable(JsonObject schema) => schema["type"] is JsonArray types && types.Any(t => (string?)t == "null");

    private static void Limit(JsonObject schema, FieldAttribute field)
    {
        schema["description"] = field.Meaning;
        string[] types = schema["type"] switch
        {
            JsonArray many => [.. many.Select(t => (string)t!)],
            JsonValue one => [(string)one!],
            _ => [],
        };
        (string min, string max) = types.Contains("array") ? ("minItems", "maxItems")
            : types.Contains("string") ? ("minLength", "maxLength")
            : ("minimum", "maximum");
        if (!double.IsNaN(field.Min))
        {
            schema[min] = field.Min;
        }

        if (!double.IsNaN(field.Max))
        {
            schema[max] = field.Max;
        }

        if (field.IsId)
        {
            schema["pattern"] = IdPattern;
        }
    }

    private sealed record Document(string Name, Type Type, bool IsInput = false);
}
