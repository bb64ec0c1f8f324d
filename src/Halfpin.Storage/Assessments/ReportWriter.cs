using System.Text.Json;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Assessments;

/// <summary>Writes an assessment or another report as JSON.</summary>
public static class ReportWriter
{
    /// <summary>The report as indented JSON text.</summary>
    /// <typeparam name="T">Its type, whose members are the keys.</typeparam>
    public static string ToJson<T>(T report) => JsonSerializer.Serialize(report, HalfpinJson.Options);
}
