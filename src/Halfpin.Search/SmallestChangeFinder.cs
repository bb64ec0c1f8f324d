using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Search;

/// <summary>The smallest change that makes a frame pass: single changes in the order of their size, then pairs.</summary>
internal sealed class SmallestChangeFinder(Case value, CandidateSet candidates, FrameTrial trial)
{
    // Pairs beyond this many are not tried: a frame that needs more is better replaced by the suggestion.
    private const int MostPairs = 600;

    /// <summary>The smallest change to a frame that misses something.</summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public SmallestChange Of(Frame frame, ImmutableArray<string> misses, CancellationToken stop)
    {
        ImmutableArray<FrameChange> all = ChangeCatalogue.Of(value, frame, candidates);

        // Without pins between its fractures no frame holds, whatever else is changed.
        bool between = all.Any(c => c.Subject == ChangeCatalogue.Middle);
        ImmutableArray<FrameChange> single = between ? [.. all.Where(c => c.Subject == ChangeCatalogue.Middle)] : all;
        foreach (FrameChange change in single)
        {
            if (Passes(change.Apply(frame), stop) is Frame changed)
            {
                return new(frame.Id, $"{Capital(change.Words)}.", changed);
            }
        }

        IEnumerable<(FrameChange A, FrameChange B)> two = between
            ? all.Where(a => a.Subject != ChangeCatalogue.Middle).SelectMany(a => single.Select(b => (a, b)))
            : single.SelectMany((a, i) => single.Skip(i + 1).Where(b => b.Subject != a.Subject).Select(b => (a, b)));
        (FrameChange A, FrameChange B)[] pairs = [.. two.OrderBy(p => p.A.Size + p.B.Size).Take(MostPairs)];
        foreach ((FrameChange a, FrameChange b) in pairs)
        {
            if (Passes(b.Apply(a.Apply(frame)), stop) is Frame changed)
            {
                return new(frame.Id, $"{Capital(a.Words)} and {b.Words}.", changed);
            }
        }

        return new(frame.Id, $"None of {single.Length} single changes and {pairs.Length} pairs of them mends {string.Join(", ", misses)}.", null);
    }

    private Frame? Passes(Frame changed, CancellationToken stop) => trial.Passes(changed, stop) ? changed with { Id = $"{changed.Id}-changed", Name = null } : null;

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
