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
/// A number that is missing, out of range or no number becomes NaN, over which the rules on content pass. Other members with
/// faults are left out; where one cannot be spared, the frame goes, or, outside the frames, the draft. A draft with faults is
/// never handed on.
/// </remarks>
internal static class DraftCase
{
    private static readonly JsonSerializerOptions _lenient = new(HalfpinJson.Options)
    {
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
    };

    public static Case? From(JsonElement root, List<Fault> faults)
    {
        if (faults.Count == 0)
        {
            return Deserialise(JsonObject.Create(root)!, HalfpinJson.Options, faults);
        }

        if (faults.Any(f => f.Code == FaultCodes.DuplicateMember))
        {
            return null; // Which of the two counts is not ours to choose.
        }

        JsonObject copy = JsonObject.Create(root)!;
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

        return Deserialise(copy, _lenient, []);
    }

    private static void Mend(JsonObject copy, Fault fault, HashSet<string> lost)
    {
        string name = Pointers.Leaf(fault.Pointer);
        bool number = Words.Unit(name).Length > 0 || name is "poissonRatio";
        if (number && Find(copy, Pointers.Parent(fault.Pointer)) is JsonObject holder && fault.Code != FaultCodes.UnknownMember)
        {
            holder[name] = "NaN";
        }
        else if (fault.Code is not (FaultCodes.UnknownMember or FaultCodes.Range) || Find(copy, fault.Pointer) is JsonValue { } v && v.GetValueKind() == JsonValueKind.Number)
        {
            string[] steps = fault.Pointer.Split('/');
            lost.Add(steps.Length > 2 && steps[1] == "frames" ? $"/frames/{steps[2]}" : "");
        }
        else if (fault.Code == FaultCodes.Range && name is "fractures" or "frames" && Find(copy, fault.Pointer) is JsonArray { Count: 0 })
        {
            lost.Add("");
        }
    }

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

    private static Case? Deserialise(JsonObject document, JsonSerializerOptions options, List<Fault> faults)
    {
        try
        {
            return document.Deserialize<Case>(options);
        }
        catch (JsonException e)
        {
            faults.Add(new(e.Path ?? "", FaultCodes.Type, "A value does not fit its member.", "See halfpin schema case.", "Write whole numbers without a decimal point, and texts in quotes."));
            return null;
        }
    }
}
