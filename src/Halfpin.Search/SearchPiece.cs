using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Search;

/// <summary>A finished piece of a search, small enough to be kept: its counts, and the candidates that its result rests on, which are solved again.</summary>
/// <param name="Number">Its number in the search's fixed order.</param>
/// <param name="Filtered">Candidates turned away before solving.</param>
/// <param name="Solved">Candidates solved.</param>
/// <param name="Feasible">Of these, feasible.</param>
/// <param name="TurnedAway">How many candidates each rule turned away.</param>
/// <param name="Candidates">Numbers of the candidates that count, rising.</param>
public sealed record SearchPiece(int Number, long Filtered, long Solved, long Feasible, ImmutableArray<FilterCount> TurnedAway, ImmutableArray<long> Candidates);
