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

    /// <summary>Schema of a case file: unknown members are refused, but for notes and x-….</summary>
    public static JsonObject Case() => Export(typeof(Case), "urn:halfpin:schema:case:1", "Halfpin case", input: true);

    /// <summary>Schema of an assessment.</summary>
    public static JsonObject Assessment() => Export(typeof(Assessment), "urn:halfpin:schema:assessment:1", "Halfpin assessment", input: false);

    /// <summary>Schema of a healing report.</summary>
    public static JsonObject Healing() => Export(typeof(HealingReport), "urn:halfpin:schema:healing:1", "Halfpin healing", input: false);

    /// <summary>Schema of an alignment report.</summary>
    public static JsonObject Alignment() => Export(typeof(AlignmentReport), "urn:halfpin:schema:alignment:1", "Halfpin alignment", input: false);

    /// <summary>Schema of an indication report.</summary>
    public static JsonObject Indication() => Export(typeof(IndicationReport), "urn:halfpin:schema:indication:1", "Halfpin indication", input: false);

    /// <summary>Schema of a report on uncertainty.</summary>
    public static JsonObject Uncertainty() => Export(typeof(UncertaintyReport), "urn:halfpin:schema:uncertainty:1", "Halfpin uncertainty", input: false);

    /// <summary>Schema of a report on variation.</summary>
    public static JsonObject Variation() => Export(typeof(VariationReport), "urn:halfpin:schema:variation:1", "Halfpin variation", input: false);

    /// <summary>Schema of a stock file, as strict as that of a case.</summary>
    public static JsonObject Stock() => Export(typeof(Stock), "urn:halfpin:schema:stock:1", "Halfpin stock", input: true);

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
}
