using Halfpin.Domain.Assessments;

namespace Halfpin.Placement.Checks;

/// <summary>A rule of good practice in two parts, so that many frames can be judged without words: the words follow the verdict.</summary>
/// <param name="Id">Stable word of the rule.</param>
/// <param name="Judge">The verdict on a frame; null where the rule does not apply.</param>
/// <param name="Tell">What it says of a frame with that verdict.</param>
internal sealed record PlacementRule(string Id, Func<PlacedFrame, Verdict?> Judge, Func<PlacedFrame, Verdict, Telling> Tell)
{
    /// <summary>The rule applied to a frame; null where it does not apply.</summary>
    public Check? Of(PlacedFrame frame)
    {
        if (Judge(frame) is not Verdict verdict)
        {
            return null;
        }

        Telling told = Tell(frame, verdict);
        return new(Id, verdict, told.Message, told.Cure, told.Source, told.Tag);
    }
}

/// <summary>The words of a check.</summary>
internal readonly record struct Telling(string Message, string Cure, string Source, string Tag);
