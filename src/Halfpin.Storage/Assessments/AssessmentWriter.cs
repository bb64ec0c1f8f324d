using System.Text.Json;
using Halfpin.Domain.Assessments;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Assessments;

/// <summary>Writes an assessment as JSON.</summary>
public static class AssessmentWriter
{
    /// <summary>The assessment as indented JSON text.</summary>
    public static string ToJson(Assessment assessment) => JsonSerializer.Serialize(assessment, HalfpinJson.Options);
}
