using System.Text.Json;
using System.Text.Json.Nodes;

namespace Halfpin.Storage.Cases;

/// <summary>Words for faults of form.</summary>
internal static class Words
{
    private static readonly (string Suffix, string Unit)[] _units =
    [
        ("NPerMm2", "N/mm²"), ("NPerMm", "N/mm"), ("NmPerRad", "N·m/rad"), ("MPa", "MPa"), ("Mm", "mm"), ("Deg", "°"), ("Kg", "kg"), ("Nm", "N·m"),
    ];

    /// <summary>The unit that a member's name ends in, with a space before it where one belongs.</summary>
    public static string Unit(string name)
    {
        string? unit = _units.FirstOrDefault(u => name.EndsWith(u.Suffix, StringComparison.Ordinal)).Unit;
        return unit is null or "°" ? unit ?? "" : " " + unit;
    }

    public static string Kind(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.String => "a text",
        JsonValueKind.Number => "a number",
        JsonValueKind.True or JsonValueKind.False => "true or false",
        JsonValueKind.Array => "a list",
        JsonValueKind.Object => "an object",
        _ => "null",
    };

    public static string Types(JsonNode type)
    {
        IEnumerable<string> names = type is JsonArray many ? many.Select(t => (string)t!) : [(string)type!];
        return string.Join(" or ", names.Where(n => n != "null").Select(n => n switch
        {
            "string" => "A text",
            "number" => "A number",
            "integer" => "A whole number",
            "boolean" => "true or false",
            "array" => "A list",
            _ => "An object",
        })) + ".";
    }

    public static string Count(JsonObject schema) => (schema["minItems"], schema["maxItems"]) switch
    {
        (null, JsonNode max) => $"At most {max}.",
        (JsonNode min, null) => $"At least {min}.",
        (JsonNode min, JsonNode max) => $"{min} to {max}.",
        _ => "",
    };

    public static string Short(string text) => text.Length <= 60 ? text : text[..57] + "…";
}
