using System.Text.Json;
using System.Text.Json.Nodes;
using Halfpin.Domain.Cases;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Cases;

/// <summary>Writes cases as files that <see cref="CaseReader"/> reads back to the same value.</summary>
public static class CaseWriter
{
    /// <summary>The file's text: UTF-8 JSON, members in the order of the format, free notes as lines.</summary>
    public static byte[] Write(Case value)
    {
        JsonObject root = JsonSerializer.SerializeToNode(value, HalfpinJson.Options)!.AsObject();

        DropNulls(root);
        if (!value.Notes.IsEmpty)
        {
            root["notes"] = new JsonArray([.. value.Notes.Select(n => (JsonNode)n)]);
        }

        return JsonSerializer.SerializeToUtf8Bytes(root, HalfpinJson.Options);
    }

    // A member that is not given is left out, as people write it.
    private static void DropNulls(JsonNode? node)
    {
        if (node is JsonObject o)
        {
            foreach (string name in o.Where(m => m.Value is null).Select(m => m.Key).ToArray())
            {
                o.Remove(name);
            }

            foreach (KeyValuePair<string, JsonNode?> member in o)
            {
                DropNulls(member.Value);
            }
        }
        else if (node is JsonArray a)
        {
            foreach (JsonNode? entry in a)
            {
                DropNulls(entry);
            }
        }
    }
}
