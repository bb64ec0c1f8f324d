using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Search;

/// <summary>What a piece of a search finds, while it is worked on by one thread.</summary>
internal sealed class PieceResult
{
    public Found? Simplest { get; set; }

    public ParetoFront Front { get; } = new();

    /// <summary>For each set of requirements missed, the frame that misses them most narrowly.</summary>
    public Dictionary<int, Found> Misses { get; } = [];

    public Dictionary<string, long> TurnedAway { get; private set; } = [];

    public long Filtered { get; set; }

    public long Solved { get; set; }

    public long Feasible { get; set; }

    /// <summary>Counts candidates as turned away by rules.</summary>
    public void Count(ImmutableArray<string> rules, long candidates)
    {
        foreach (string rule in rules)
        {
            TurnedAway[rule] = TurnedAway.GetValueOrDefault(rule) + candidates;
        }
    }

    /// <summary>Takes the counts of the whole piece, of which only the candidates that count were solved again.</summary>
    public void TakeCounts(SearchPiece kept)
    {
        (Filtered, Solved, Feasible) = (kept.Filtered, kept.Solved, kept.Feasible);
        TurnedAway = kept.TurnedAway.ToDictionary(c => c.Rule, c => c.Candidates);
    }

    /// <summary>What is kept of it.</summary>
    public SearchPiece Kept(int number) => new(
        number, Filtered, Solved, Feasible,
        [.. TurnedAway.OrderBy(c => c.Key, StringComparer.Ordinal).Select(c => new FilterCount(c.Key, c.Value))],
        [.. Front.Frames.Concat(Misses.Values).Concat(Simplest is null ? [] : [Simplest]).Select(f => f.Order).Distinct().Order()]);
}
