using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Search;

/// <summary>The smallest change that makes a frame pass: single changes in the order of their size, then pairs; with a free fragment, pins there first, then one change more.</summary>
internal sealed class SmallestChangeFinder(Case value, CandidateSet candidates, FrameTrial trial)
{
    // Pairs beyond this many are not tried: a frame that needs more is better replaced by the suggestion.
    private const int MostPairs = 600;

    /// <summary>The smallest change to a frame that misses something.</summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public SmallestChange Of(Frame frame, ImmutableArray<string> misses, CancellationToken stop)
    {
        // A frame with a free fragment does not hold, whatever else is changed.
        bool free = !PinsBetween.Free(value, frame).IsEmpty;
        ImmutableArray<FrameChange> other = ChangeCatalogue.Of(value, frame, candidates), single = free ? PinsBetween.Ways(value, frame, candidates) : other;
        if (free && single.IsEmpty)
        {
            return new(frame.Id, PinsBetween.WhyNone(value, frame), null);
        }

        foreach (FrameChange change in single)
        {
            if (Passes(change.Apply(frame), stop) is Frame changed)
            {
                return new(frame.Id, $"{Capital(change.Words)}.", changed);
            }
        }

        (FrameChange A, FrameChange B)[] pairs = [.. (free
            ? other.SelectMany(a => single.Select(b => (A: a, B: b)))
            : single.SelectMany((a, i) => single.Skip(i + 1).Where(b => b.Subject != a.Subject).Select(b => (A: a, B: b)))).OrderBy(p => p.A.Size + p.B.Size)];
        foreach ((FrameChange a, FrameChange b) in pairs.Take(MostPairs))
        {
            Frame first = a.Apply(frame);
            if (Passes(b.Apply(first), stop) is Frame changed)
            {
                return new(frame.Id, $"{Capital(a.Words)} and {b.WordsOn?.Invoke(first) ?? b.Words}.", changed);
            }
        }

        return new(frame.Id, Tried(free, single.Length, other.Length, pairs.Length, string.Join(", ", misses)), null);
    }

    private static string Tried(bool free, int single, int other, int pairs, string misses)
    {
        string all = pairs > MostPairs ? $"the {MostPairs} smallest of {pairs} pairs tried" : pairs == 1 ? "1 pair" : $"{pairs} pairs, all tried";
        return free
            ? $"{(single == 1 ? "The one way" : $"None of the {single} ways")} to set pins where nothing holds the bone {(single == 1 ? "does not mend" : "mends")} {misses}, {(single == 1 ? "even" : "alone or")} with one of {other} other changes ({all})."
            : $"None of {single} single changes mends {misses}, nor do two of them together ({all}).";
    }

    private Frame? Passes(Frame changed, CancellationToken stop) => trial.Passes(changed, stop) ? changed with { Id = $"{changed.Id}-changed", Name = null } : null;

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
