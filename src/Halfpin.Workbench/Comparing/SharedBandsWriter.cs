using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Studies.Uncertainty;
using Halfpin.Workbench.Runs;
using Halfpin.Workbench.Uncertain;

namespace Halfpin.Workbench.Comparing;

/// <summary>Puts bands that were worked out with the same draws into what a comparison says.</summary>
public static class SharedBandsWriter
{
    /// <summary>The view of a result.</summary>
    /// <param name="result">The result with the case it was about.</param>
    /// <param name="now">The case as it is now.</param>
    /// <param name="frames">The frames that are shown.</param>
    /// <param name="against">Id of the frame to rank the others against; the first shown when it is none of them.</param>
    public static SharedBandsView Of(RunResult<SharedReport> result, Case now, ImmutableArray<Frame> frames, string? against)
    {
        SharedReport report = result.Report;
        bool all = CoversAll(report, frames);
        Frame[] known = [.. frames.Where(f => report.Of(f.Id) is not null)];
        Frame? other = known.FirstOrDefault(f => f.Id == against) ?? known.FirstOrDefault();
        return new()
        {
            IsStale = IsStale(result, now),
            IsOfAllFrames = all,
            Words = Text($"Bands of the uncertainty study: median, and the band that holds nine in ten of {report.Samples:#,0} samples. Every frame was worked out with the same parts, bone and slips of the hand in each sample (seed {report.Seed}); one in twenty lies below, one in twenty above.{(now.Fractures.Length > 1 ? $" How likely one is stiffer goes by the fracture where each frame is least stiff. {SpreadWords.LoadedAtTheEnd}" : "")}"),
            Missing = [.. known.SelectMany(f => Missing(f, report.Of(f.Id)!, report.Samples))],
            Frames = [.. known.Select(f => (f.Id, f.DisplayName))],
            Against = other?.Id ?? "",
            Directions = ComparedValue.Ranked,
            Chances = [.. known.Where(f => f != other).Select(f => new ChanceRow(f.Id, f.DisplayName, [.. ComparedValue.Ranked.Select(v => Chance(report, f.Id, other!.Id, v.Key))]))],
        };
    }

    /// <summary>The report of a result that is about the case as it is; null when it is old or there is none.</summary>
    /// <param name="result">The result; null when there is none.</param>
    /// <param name="now">The case as it is now.</param>
    public static SharedReport? InForce(RunResult<SharedReport>? result, Case now) => result is null || IsStale(result, now) ? null : result.Report;

    /// <summary>True when a result is about every frame.</summary>
    internal static bool CoversAll(SharedReport report, ImmutableArray<Frame> frames) => frames.All(f => report.Of(f.Id) is not null);

    // A frame that was not studied, or is gone, takes nothing away from what was found of the others.
    private static bool IsStale(RunResult<SharedReport> result, Case now) =>
        !CaseSameness.Around(result.Case, now) || result.Report.Frames.Any(f => now.Frames.Any(n => n.Id == f.Frame) && !CaseSameness.Frames(result.Case, now, f.Frame));

    private static IEnumerable<string> Missing(Frame frame, FrameBands bands, int samples)
    {
        if (bands.Failed > 0)
        {
            yield return Text($"{frame.DisplayName}: {bands.Failed:#,0} of {samples:#,0} samples cannot be built or hold nothing.");
        }

        if (bands.Withheld > 0)
        {
            yield return Text($"{frame.DisplayName}: {bands.Withheld:#,0} of {samples:#,0} samples give stiffness only.");
        }
    }

    private static ChanceCell Chance(SharedReport report, string frame, string against, string key) =>
        report.Pairs.First(p => p.Frame == frame && p.Against == against).Stiffer.First(s => s.Output == key) is { Probability: double share, Low: double low, High: double high }
            ? new(ShareWords.Percent(share), Interval(share, low, high), share)
            : new("no sample has both", "", null);

    private static string Interval(double share, double low, double high) => share switch
    {
        0 => $"at most {ShareWords.Percent(high)}",
        1 => $"at least {ShareWords.Percent(low)}",
        _ => $"{ShareWords.Percent(low)} to {ShareWords.Percent(high)}",
    };

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
