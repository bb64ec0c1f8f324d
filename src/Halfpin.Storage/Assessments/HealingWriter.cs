using System.Text.Json;
using Halfpin.Domain.Assessments;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Assessments;

/// <summary>Writes a healing report as JSON.</summary>
public static class HealingWriter
{
    /// <summary>The report as indented JSON text.</summary>
    public static string ToJson(HealingReport report) => JsonSerializer.Serialize(report, HalfpinJson.Options);
}
