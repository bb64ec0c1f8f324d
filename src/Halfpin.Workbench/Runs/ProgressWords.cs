using System.Globalization;

namespace Halfpin.Workbench.Runs;

/// <summary>Progress in words.</summary>
public static class ProgressWords
{
    /// <summary>How many pieces are done of how many, how fast, and about how long it will still take.</summary>
    /// <param name="progress">The progress.</param>
    /// <param name="pieces">What the pieces are called: "candidates".</param>
    /// <param name="after">What is still done when all pieces are: "The smallest changes are being worked out."</param>
    public static string Of(RunProgress progress, string pieces, string after) =>
        progress.Done == 0 ? "Getting ready."
        : progress.Done >= progress.Of ? Text($"All {progress.Of:#,0} {pieces} done. {after}")
        : Text($"{progress.Done:#,0} of {progress.Of:#,0} {pieces}, {progress.PerSecond:#,0} a second, {Left(progress.Left)}.");

    /// <summary>A time left, rounded up: "about 20 s left".</summary>
    public static string Left(TimeSpan? left) => left is not TimeSpan t ? "time left unknown"
        : t.TotalSeconds < 1 ? "less than a second left"
        : t.TotalSeconds < 90 ? Text($"about {Math.Ceiling(t.TotalSeconds):0} s left")
        : Text($"about {Math.Ceiling(t.TotalMinutes):0} min left");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
