using System.Collections.Immutable;
using System.Text.Json;

namespace Halfpin.Storage.Cases;

/// <summary>Puts the free notes of a case into lines of text: a line each for a text's lines, a list's entries and an object's members.</summary>
internal static class NoteLines
{
    public static ImmutableArray<string> Of(JsonElement root) =>
        root.TryGetProperty("notes", out JsonElement notes) ? [.. Lines(notes, "").Where(l => l.Length > 0)] : [];

    private static IEnumerable<string> Lines(JsonElement value, string before) => value.ValueKind switch
    {
        JsonValueKind.Object => value.EnumerateObject().SelectMany(m => Lines(m.Value, before.Length == 0 ? m.Name : $"{before}, {m.Name}")),
        JsonValueKind.Array => value.EnumerateArray().SelectMany(e => Lines(e, before)),
        JsonValueKind.String => value.GetString()!.ReplaceLineEndings("\n").Split('\n').Select(l => Headed(before, l.Trim())),
        JsonValueKind.Null => [],
        _ => [Headed(before, value.GetRawText())],
    };

    private static string Headed(string before, string text) => before.Length == 0 || text.Length == 0 ? text : $"{before}: {text}";
}
