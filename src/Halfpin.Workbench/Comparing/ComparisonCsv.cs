using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Storage.Tables;
using Halfpin.Workbench.Answers;

namespace Halfpin.Workbench.Comparing;

/// <summary>A comparison as a table file: a row for each frame, the unit at the end of each heading, numbers in full.</summary>
public static class ComparisonCsv
{
    /// <summary>The table.</summary>
    /// <param name="value">The case.</param>
    /// <param name="frames">Frames of it.</param>
    /// <param name="answers">Assesses them.</param>
    public static string Of(Case value, ImmutableArray<Frame> frames, FrameAnswers answers)
    {
        ImmutableArray<ComparedValue> values = [.. ComparedValue.Groups(value).SelectMany(g => g.Values)];
        FrameAssessment[] assessed = [.. frames.Select(f => answers.Assess(value, f))];
        HashSet<string> banded = [.. values.Where(v => assessed.Any(f => v.Band(f) is not null)).Select(v => v.Key)];
        ImmutableArray<string> columns =
        [
            "frame", "name", "status", .. values.SelectMany(v => banded.Contains(v.Key) ? new[] { v.Key, $"low.{v.Key}", $"high.{v.Key}" } : [v.Key]), "reason", "note",
        ];
        return CsvText.Of(columns, assessed.Select(f => (IReadOnlyList<object?>)
        [
            f.Id, f.Name, f.Status.ToString().ToLowerInvariant(),
            .. values.SelectMany(v => banded.Contains(v.Key) ? new object?[] { v.Of(f), v.Band(f)?.Low, v.Band(f)?.High } : [v.Of(f)]),
            f.Diagnosis?.Message, Safety.ShortNote,
        ]));
    }
}
