using System.Text.Json;
using Halfpin.Domain.Assessments;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Assessments;

/// <summary>Writes an overload report as JSON.</summary>
public static class OverloadWriter
{
    /// <summary>The report as indented JSON text.</summary>
    public static string ToJson(OverloadReport report) => JsonSerializer.Serialize(report, HalfpinJson.Options);
}
