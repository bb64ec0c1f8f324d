using Halfpin.Domain.Assessments;
using Halfpin.Placement;
using Halfpin.Placement.Checks;

namespace Halfpin.Planning.Building;

/// <summary>Why a frame is not to be built as it is: it does not hold, or it fails checks.</summary>
internal static class FrameWarning
{
    /// <summary>True when a frame that ended so holds the fracture.</summary>
    public static bool Holds(FrameStatus status) => status is FrameStatus.Ok or FrameStatus.OutOfRange;

    /// <summary>The warning, one line each, checks of placing before those of stability; null when there is none.</summary>
    /// <param name="assessed">The frame's assessment.</param>
    /// <param name="placed">The frame in its limb.</param>
    public static string? Of(FrameAssessment assessed, PlacedFrame placed)
    {
        Check[] placing = [.. PlacementChecks.Of(placed).Where(c => c.Verdict == Verdict.Fail)];
        Check[] failed = [.. placing, .. assessed.Checks.Where(c => c.Verdict == Verdict.Fail && placing.All(p => p.Id != c.Id))];
        List<string> lines = [];
        if (!Holds(assessed.Status))
        {
            lines.Add($"This frame does not hold the fracture. {assessed.Diagnosis?.Message} {assessed.Diagnosis?.Try} Built as below it stays so: change it first.");
        }

        if (failed.Length > 0)
        {
            lines.Add($"This frame fails {(failed.Length == 1 ? "a check" : $"{failed.Length} checks")}. Built as below it stays so: change it first.");
            lines.AddRange(failed.Select(c => $"{c.Message} {c.Cure} [{c.Tag}]"));
        }

        return lines.Count == 0 ? null : string.Join('\n', lines);
    }
}
