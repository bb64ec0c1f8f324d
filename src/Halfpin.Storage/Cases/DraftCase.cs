using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Cases;

/// <summary>
/// Makes a case of a document that may have faults of form, so that faults of content are found in the same reading.
/// </summary>
/// <remarks>
/// A number that is missing, out of range or no number becomes NaN, over which the rules on content pass. Words and ids that are
/// missing or wrong are replaced by harmless ones; of members that stand twice the last counts. Where that is not enough, the
/// frame goes, or, outside the frames, the draft. A draft with faults is never handed on.
/// </remarks>
internal static class DraftCase
{
    private static readonly JsonSerializerOptions _lenient = new(HalfpinJson.Options)
    {
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
    };

    // Numbers without a unit in their name.
    private static readonly HashSet<string> _bareNumbers = ["poissonRatio", "contactFriction", "callusPoissonRatio", "week", "low", "high", "mode", "mean", "standardDeviation"];

    private static readonly Dictionary<string, string> _standIns = new()
    {
        ["title"] = "\"\"",
        ["bone"] = "\"tibia\"",
        ["side"] = "\"left\"",
        ["fibula"] = "\"intact\"",
        ["boneModel"] = """{ "kind": "anatomical" }""",
        ["pattern"] = "\"transverse\"",
        ["contact"] = "true",
        ["purpose"] = "\"temporary\"",
        ["for"] = "\"flap\"",
        ["placement"] = "\"near-far\"",
        ["dynamised"] = "false",
        ["material"] = "\"steel\"",
        ["state"] = "\"tight\"",
        ["tip"] = "\"predrilled\"",
        ["openSided"] = "false",
        ["beam"] = "\"timoshenko\"",
        ["name"] = "\"\"",
        ["distribution"] = "\"uniform\"",
    };

    /// <summary>The case of a document in which no fault of form was found; null when it shows one all the same.</summary>
    public static Case? Sound(JsonElement root, List<Fault> faults)
    {
        try
        {
            return root.Deserialize<Case>(HalfpinJson.Options);
        }
        catch (JsonException e)
        {
            faults.Add(new(e.Path ?? "", FaultCodes.Type, "A value does not fit its member.", "See halfpin schema case.", "Write whole numbers without a decimal point, and texts in quotes."));
            return null;
        }
    }

    /// <summary>As much of a case as can be made of a document with faults of form; null where that is too little.</summary>
    public static Case? Mended(JsonElement root, List<Fault> faults)
    {
        JsonObject copy = (JsonObject)Copy(root)!;
        HashSet<string> lost = [];
        foreach (Fault fault in faults)
        {
            Mend(copy, fault, lost);
        }

        if (lost.Contains(""))
        {
            return null;
        }

        // Frames keep their places, so that pointers stay right: a lost one becomes an empty shell with no parts.
        foreach (string frame in lost)
        {
            int index = int.Parse(Pointers.Leaf(frame), CultureInfo.InvariantCulture);
            copy["frames"]!.AsArray()[index] = new JsonObject
            {
                ["id"] = $"lost-{index}",
                ["parts"] = new JsonObject { ["pins"] = new JsonArray(), ["rods"] = new JsonArray(), ["clamps"] = new JsonArray() },
            };
        }

        try
        {
            return copy.Deserialize<Case>(_lenient);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static JsonNode? Copy(JsonElement element)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                JsonObject o = [];
                foreach (JsonProperty member in element.EnumerateObject())
                {
                    o[member.Name] = Copy(member.Value);
                }

                return o;
            case JsonValueKind.Array:
                return new JsonArray([.. element.EnumerateArray().Select(Copy)]);
            case JsonValueKind.Null:
                return null;
            default:
                return JsonValue.Create(element);
        }
    }

    private static void Mend(JsonObject copy, Fault fault, HashSet<string> lost)
    {
        string name = Pointers.Leaf(fault.Pointer);
        JsonObject? holder = Find(copy, Pointers.Parent(fault.Pointer)) as JsonObject;
        if (fault.Code is FaultCodes.UnknownMember or FaultCodes.DuplicateMember || IsHarmlessRange(copy, fault))
        {
            return;
        }

        if (fault.Pointer.StartsWith("/indication/", StringComparison.Ordinal))
        {
            copy.Remove("indication"); // Nothing else in the case rests on it.
        }
        else if (holder is not null && (Words.Unit(name).Length > 0 || _bareNumbers.Contains(name)))
        {
            holder[name] = "NaN";
        }
        else if (holder is not null && _standIns.TryGetValue(name, out string? standIn))
        {
            holder[name] = JsonNode.Parse(standIn);
        }
        else if (holder is not null && name == "id")
        {
            holder[name] = fault.Pointer.Replace('/', '-')[1..];
        }
        else
        {
            string[] steps = fault.Pointer.Split('/');
            lost.Add(steps.Length > 2 && steps[1] == "frames" ? $"/frames/{steps[2]}" : "");
        }
    }

    // A text too long or a list too long can be read all the same; an empty list of frames or fractures leaves nothing to read.
    private static bool IsHarmlessRange(JsonObject copy, Fault fault) =>
        fault.Code == FaultCodes.Range && Find(copy, fault.Pointer) switch
        {
            JsonArray list => list.Count > 0,
            JsonValue value => value.GetValueKind() == JsonValueKind.String,
            _ => false,
        };

    private static JsonNode? Find(JsonNode root, string pointer)
    {
        JsonNode? node = root;
        foreach (string step in pointer.Split('/').Skip(1))
        {
            node = node switch
            {
                JsonObject o => o[step],
                JsonArray a when int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out int i) && i < a.Count => a[i],
                _ => null,
            };
        }

        return node;
    }
}
