using System.Text.Json;
using Halfpin.Domain.Assessments;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Assessments;

/// <summary>Writes a dynamisation report as JSON.</summary>
public static class DynamisationWriter
{
    /// <summary>The report as indented JSON text.</summary>
    public static string ToJson(DynamisationReport report) => JsonSerializer.Serialize(report, HalfpinJson.Options);
}
