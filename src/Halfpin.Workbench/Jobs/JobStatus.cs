namespace Halfpin.Workbench.Jobs;

/// <summary>Where long work stands at a moment.</summary>
/// <param name="State">Its state.</param>
/// <param name="Done">Pieces done.</param>
/// <param name="Total">Pieces there are.</param>
/// <param name="SecondsLeft">About how long it still takes; null when nothing can be said.</param>
/// <param name="Reason">Why it stopped or failed; null otherwise.</param>
public sealed record JobStatus(JobState State, long Done, long Total, double? SecondsLeft, string? Reason)
{
    /// <summary>True when nothing more will happen.</summary>
    public bool IsEnded => State is JobState.Done or JobState.Stopped or JobState.Failed;
}
