using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Storage.Tables;
using Halfpin.Studies.Uncertainty;
using Halfpin.Workbench.Answers;

namespace Halfpin.Workbench.Comparing;

/// <summary>A comparison as a table file: a row for each frame, the unit at the end of each heading, numbers in full.</summary>
public static class ComparisonCsv
{
    /// <summary>The table.</summary>
    /// <param name="value">The case.</param>
    /// <param name="frames">Frames of it.</param>
    /// <param name="answers">Assesses them.</param>
    /// <param name="study">Bands that were worked out for all of them and are about the case as it is; null, or of other frames, to leave them out.</param>
    public static string Of(Case value, ImmutableArray<Frame> frames, FrameAnswers answers, SharedReport? study = null)
    {
        study = study is not null && SharedBandsWriter.CoversAll(study, frames) ? study : null;
        ImmutableArray<string> studied = study is null ? [] : [.. study.Frames[0].Results.Select(r => r.Name)];
        ImmutableArray<ComparedValue> values = [.. ComparedValue.Groups(value).SelectMany(g => g.Values)];
        FrameAssessment[] assessed = [.. frames.Select(f => answers.Assess(value, f))];
        HashSet<string> banded = [.. values.Where(v => assessed.Any(f => v.Band(f) is not null)).Select(v => v.Key)];
        ImmutableArray<string> columns =
        [
            "frame", "name", "status", .. values.SelectMany(v => banded.Contains(v.Key) ? new[] { v.Key, $"low.{v.Key}", $"high.{v.Key}" } : [v.Key]),
            .. studied.SelectMany(name => new[] { $"median.{name}", $"p5.{name}", $"p95.{name}" }), .. study is null ? [] : new[] { "samples" }, "reason", "note",
        ];
        return CsvText.Of(columns, assessed.Select(f => (IReadOnlyList<object?>)
        [
            f.Id, f.Name, f.Status.ToString().ToLowerInvariant(),
            .. values.SelectMany(v => banded.Contains(v.Key) ? new object?[] { v.Of(f), v.Band(f)?.Low, v.Band(f)?.High } : [v.Of(f)]),
            .. studied.SelectMany(name => study!.Of(f.Id)!.Results.First(r => r.Name == name) is var r ? new object?[] { r.Median, r.P5, r.P95 } : []), .. study is null ? [] : new object?[] { study.Samples },
            f.Diagnosis?.Message, Safety.ShortNote,
        ]));
    }
}
