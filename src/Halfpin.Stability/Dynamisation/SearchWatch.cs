namespace Halfpin.Stability.Dynamisation;

/// <summary>Who follows a search for clamps to loosen, and may stop it.</summary>
/// <param name="Progress">Told the share of a frame's sets that were looked at; null when nobody asks.</param>
/// <param name="Stop">Stops the search.</param>
public sealed record SearchWatch(IProgress<double>? Progress, CancellationToken Stop)
{
    /// <summary>Nobody.</summary>
    public static SearchWatch None { get; } = new(null, CancellationToken.None);

    /// <summary>Tells how far the search is.</summary>
    /// <exception cref="OperationCanceledException">The search is to stop.</exception>
    internal void Tell(double share)
    {
        Stop.ThrowIfCancellationRequested();
        Progress?.Report(share);
    }
}
