using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Workbench.Answers;

namespace Halfpin.Workbench.Searches;

/// <summary>What a screen says of a search.</summary>
public sealed record SuggestView
{
    /// <summary>True when something in the case has changed on which the whole search depends.</summary>
    public required bool IsStale { get; init; }

    /// <summary>pass when a frame meets all requirements, else fail.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>The answer in a sentence.</summary>
    public required string Headline { get; init; }

    /// <summary>What goes with it.</summary>
    public required string Detail { get; init; }

    /// <summary>The simplest frame that meets all; null when there is none.</summary>
    public required Choice? Simplest { get; init; }

    /// <summary>All frames to choose from, the simplest first, numbered from 1.</summary>
    public required ImmutableArray<Choice> Choices { get; init; }

    /// <summary>The case's own frames beside it.</summary>
    public required ImmutableArray<OwnFrame> Own { get; init; }

    /// <summary>What cannot be met together; empty when something meets all.</summary>
    public required ImmutableArray<Conflict> Conflicts { get; init; }

    /// <summary>How far the search went, in sentences.</summary>
    public required string Searched { get; init; }

    /// <summary>What turned candidates away, the rule that did most first.</summary>
    public required ImmutableArray<FilterLine> Filters { get; init; }
}

/// <summary>A frame that was found.</summary>
/// <param name="Number">Its number in plot and table.</param>
/// <param name="IsSimplest">True for the simplest that meets all.</param>
/// <param name="Name">A short name.</param>
/// <param name="Words">All that makes it.</param>
/// <param name="Numbers">Its numbers.</param>
/// <param name="Found">What was found.</param>
public sealed record Choice(int Number, bool IsSimplest, string Name, string Words, ImmutableArray<NamedText> Numbers, SuggestedFrame Found)
{
    /// <summary>Its parts: pins, rods and clamps.</summary>
    public int Parts => Found.Parts.Pins + Found.Parts.Rods + Found.Parts.Clamps;
}

/// <summary>A frame of the case against what the search asked.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">Its name.</param>
/// <param name="Meets">True when it meets all requirements.</param>
/// <param name="Words">What that says, or why nothing is said.</param>
/// <param name="IsStale">True when the frame was changed, added or removed since.</param>
/// <param name="Change">The smallest change that makes it meet all, or that none was found; null when it meets all.</param>
/// <param name="Changed">The frame after it; null when there is none.</param>
public sealed record OwnFrame(string Id, string Name, bool Meets, string Words, bool IsStale, string? Change, Frame? Changed);

/// <summary>Requirements that cannot be met together.</summary>
/// <param name="Words">Which, in a sentence.</param>
/// <param name="NearestMiss">The frame that misses them most narrowly; null when there is none.</param>
/// <param name="NearestWords">That frame in words.</param>
public sealed record Conflict(string Words, Frame? NearestMiss, string NearestWords);

/// <summary>A rule and how many candidates it turned away.</summary>
/// <param name="Rule">The rule's word.</param>
/// <param name="Words">Its name for people.</param>
/// <param name="Candidates">How many.</param>
/// <param name="Share">Of all candidates, 0 to 1.</param>
public sealed record FilterLine(string Rule, string Words, long Candidates, double Share);
