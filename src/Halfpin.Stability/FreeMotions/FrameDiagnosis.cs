using Halfpin.Domain.Assessments;
using Halfpin.Stability.Analysis;

namespace Halfpin.Stability.FreeMotions;

/// <summary>Why a frame carries no numbers at all.</summary>
internal static class FrameDiagnosis
{
    /// <summary>Why there are no numbers where the equations are solved too badly.</summary>
    public static Diagnosis Inaccurate { get; } = new(
        "The parts are so unevenly stiff that the equations cannot be solved to the accuracy results need.",
        [], "Look for a part with an absurd size or stiffness.");

    /// <summary>The status and reason for the analyser's last frame; null when it can be used.</summary>
    public static (FrameStatus Status, Diagnosis Diagnosis)? Of(FrameAnalyser analyser) => analyser.Status switch
    {
        AnalysisStatus.Mechanism => (FrameStatus.Mechanism, new(
            string.Join(" ", analyser.Freedoms.Motions.Select(m => m.Message)),
            [.. analyser.Freedoms.Motions.SelectMany(m => m.Parts).Distinct()],
            string.Join(" ", analyser.Freedoms.Motions.Select(m => m.Try).Distinct()))),
        AnalysisStatus.Inaccurate => (FrameStatus.Invalid, Inaccurate),
        _ => null,
    };
}
