using Halfpin.Domain.Assessments;

namespace Halfpin.Stability.Comparison;

/// <summary>Which of several fractures a sentence about motion speaks of.</summary>
internal static class MostMoved
{
    /// <summary>Motion under the chosen load at the fracture that moves most along the bone; null when withheld.</summary>
    public static FractureMotion? Of(FrameAssessment frame) =>
        frame.Fractures.IsEmpty ? frame.Motion : frame.Fractures.MaxBy(f => Math.Abs(f.Motion?.AxialMm ?? 0))!.Motion;
}
