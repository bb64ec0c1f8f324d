using System.Collections.Immutable;
using System.Reflection;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Halfpin.Verification.Running;

/// <summary>The cases that ship with the program.</summary>
public static class CaseLibrary
{
    private static readonly JsonSerializerOptions _json = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <summary>All cases with their topic (the folder they lie in), by topic and id.</summary>
    public static ImmutableArray<(string Topic, VerificationCase Case)> Load()
    {
        Assembly assembly = typeof(CaseLibrary).Assembly;
        return [.. assembly.GetManifestResourceNames()
            .Where(n => n.StartsWith("cases/", StringComparison.Ordinal))
            .Select(n => (Topic: n.Replace('\\', '/').Split('/')[1], Case: Read(assembly, n)))
            .OrderBy(c => c.Topic, StringComparer.Ordinal).ThenBy(c => c.Case.Id, StringComparer.Ordinal)];
    }

    private static VerificationCase Read(Assembly assembly, string name)
    {
        using Stream stream = assembly.GetManifestResourceStream(name)!;
        try
        {
            return JsonSerializer.Deserialize<VerificationCase>(stream, _json)!;
        }
        catch (JsonException e)
        {
            throw new InvalidDataException($"{name}: {e.Message}", e);
        }
    }
}
