using System.Text.Json;
using Halfpin.Domain.Validity;

namespace Halfpin.Storage.Cases;

/// <summary>Finds texts and names that end in half a surrogate pair: JSON's grammar lets them pass, but they are no Unicode text.</summary>
internal static class BrokenTexts
{
    public static IEnumerable<Fault> In(JsonElement element, string pointer = "")
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                foreach (JsonProperty member in element.EnumerateObject())
                {
                    if (Read(() => member.Name) is not string name)
                    {
                        yield return Broken(pointer, "A member's name");
                        continue;
                    }

                    foreach (Fault fault in In(member.Value, Pointers.Append(pointer, name)))
                    {
                        yield return fault;
                    }
                }

                break;
            case JsonValueKind.Array:
                foreach (Fault fault in element.EnumerateArray().SelectMany((e, i) => In(e, $"{pointer}/{i}")))
                {
                    yield return fault;
                }

                break;
            case JsonValueKind.String when Read(element.GetString) is null:
                yield return Broken(pointer, "A text");
                break;
        }
    }

    private static string? Read(Func<string?> text)
    {
        try
        {
            return text();
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }

    private static Fault Broken(string pointer, string what) =>
        new(pointer, FaultCodes.Syntax, $"{what} holds half a surrogate pair.", "Unicode text: an escape \\uD800–\\uDBFF followed by one of \\uDC00–\\uDFFF.", "Write the character itself instead of its escapes.");
}
