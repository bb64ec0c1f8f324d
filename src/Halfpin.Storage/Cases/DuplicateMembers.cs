using System.Text.Json;
using Halfpin.Domain.Validity;

namespace Halfpin.Storage.Cases;

/// <summary>Finds members that stand twice in an object: JSON readers disagree on which one counts.</summary>
internal static class DuplicateMembers
{
    public static IEnumerable<Fault> In(JsonElement element, string pointer = "")
    {
        if (element.ValueKind == JsonValueKind.Array)
        {
            return element.EnumerateArray().SelectMany((item, i) => In(item, $"{pointer}/{i}"));
        }

        if (element.ValueKind != JsonValueKind.Object)
        {
            return [];
        }

        JsonProperty[] members = [.. element.EnumerateObject()];
        return members.GroupBy(m => m.Name).Where(g => g.Count() > 1)
            .Select(g => new Fault(
                Pointers.Append(pointer, g.Key), FaultCodes.DuplicateMember, $"\"{g.Key}\" stands {g.Count()} times in the same object.", "Once.", "Keep the right one."))
            .Concat(members.SelectMany(m => In(m.Value, Pointers.Append(pointer, m.Name))));
    }
}
