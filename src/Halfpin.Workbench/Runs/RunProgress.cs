namespace Halfpin.Workbench.Runs;

/// <summary>How far a run has come.</summary>
/// <param name="Done">Pieces done.</param>
/// <param name="Of">All pieces.</param>
/// <param name="Elapsed">Time since its start.</param>
public sealed record RunProgress(long Done, long Of, TimeSpan Elapsed)
{
    /// <summary>Nothing done of nothing.</summary>
    public static RunProgress None { get; } = new(0, 0, TimeSpan.Zero);

    /// <summary>Share of the pieces done, 0 to 1.</summary>
    public double Share => Of <= 0 ? 0 : Math.Clamp((double)Done / Of, 0, 1);

    /// <summary>Pieces a second so far; null while nothing can be said.</summary>
    public double? PerSecond => Done > 0 && Elapsed > TimeSpan.Zero ? Done / Elapsed.TotalSeconds : null;

    /// <summary>Time left at the pace so far; null while nothing can be said.</summary>
    public TimeSpan? Left => PerSecond is double pace ? TimeSpan.FromSeconds(Math.Max(0, Of - Done) / pace) : null;
}
