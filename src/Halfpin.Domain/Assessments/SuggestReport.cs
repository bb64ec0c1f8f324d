using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Domain.Assessments;

/// <summary>What a frame was asked to meet.</summary>
/// <param name="Id">Stable word for programs.</param>
/// <param name="Words">The requirement with its number.</param>
/// <param name="Limit">The number.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Tag">READ, MEMORY, DERIVED, ASSUMED or GIVEN by the case.</param>
public sealed record RequirementNote(string Id, string Words, double Limit, string Source, string Tag);

/// <summary>A frame that was found.</summary>
public sealed record SuggestedFrame
{
    /// <summary>The frame, ready for a case file.</summary>
    public required Frame Frame { get; init; }

    /// <summary>Counts of its parts.</summary>
    public required Kit Parts { get; init; }

    /// <summary>Relative cost of its parts; see the report's assumptions.</summary>
    public required double CostPoints { get; init; }

    /// <summary>Least room between its rods and the skin, not swollen; null on a synthetic bone.</summary>
    public double? SkinRoomMm { get; init; }

    /// <summary>Distance of its rods from the way to the wounds; null when none passes one.</summary>
    public double? WoundRoomMm { get; init; }

    /// <summary>What is left to the requirement that it meets most narrowly, of that limit.</summary>
    public required double LeastMarginPercent { get; init; }

    /// <summary>That requirement.</summary>
    public required string NarrowestRequirement { get; init; }

    /// <summary>True when it meets all requirements at the soft end of the uncertain inputs too; null when the model leaves none uncertain.</summary>
    public bool? HoldsWhenSoft { get; init; }

    public required double AxialNPerMm { get; init; }

    public required double WeakBendingNmPerDeg { get; init; }

    public required double TorsionNmPerDeg { get; init; }

    /// <summary>
    /// How firmly fragments between fractures are held: the weakest bending that opposite moments on the two faces of a fracture meet, at the fracture
    /// where it is least, all other gaps open; null with one fracture. The stiffnesses above are against loads on the end of the bone, which run
    /// past such a fragment.
    /// </summary>
    public double? BetweenBendingNmPerDeg { get; init; }

    public required double AxialMm { get; init; }

    public required double OverloadAxialMm { get; init; }

    /// <summary>Rules on it, worst first; only for the simplest frame.</summary>
    public ImmutableArray<Check> Checks { get; init; } = [];
}

/// <summary>A frame of the case against the same requirements.</summary>
/// <param name="Frame">Its id.</param>
/// <param name="Parts">Its parts.</param>
/// <param name="CostPoints">Their relative cost.</param>
/// <param name="Violates">Requirements that it does not meet, by their ids, rules of placement among them; empty when it meets all.</param>
/// <param name="Verdict">What that says beside the suggestion.</param>
public sealed record CaseFrameStanding(string Frame, int Parts, double CostPoints, ImmutableArray<string> Violates, string Verdict);

/// <summary>The smallest change that makes a frame of the case pass.</summary>
/// <param name="Frame">Its id.</param>
/// <param name="Text">The change in words, or why there is none.</param>
/// <param name="Changed">The frame after the change; null when none of the tried changes helps.</param>
public sealed record SmallestChange(string Frame, string Text, Frame? Changed);

/// <summary>Requirements that no tried frame meets together.</summary>
/// <param name="Requirements">Their ids: giving way on all of them, and on no fewer, lets a frame pass.</param>
/// <param name="Words">The conflict in a sentence.</param>
/// <param name="NearestMiss">The frame that misses them most narrowly; null when no frame passes the rules of placement.</param>
public sealed record RequirementConflict(ImmutableArray<string> Requirements, string Words, Frame? NearestMiss);

/// <summary>How many candidates a rule of placement turned away; a candidate may fall to several.</summary>
public sealed record FilterCount(string Rule, long Candidates);

/// <summary>How far the search went.</summary>
/// <param name="Candidates">All combinations.</param>
/// <param name="Filtered">Turned away before any solution.</param>
/// <param name="Solved">Solved.</param>
/// <param name="Feasible">Of these, met every requirement.</param>
/// <param name="Seconds">Time taken.</param>
/// <param name="Rules">What turned candidates away.</param>
public sealed record SearchCount(long Candidates, long Filtered, long Solved, long Feasible, double Seconds, ImmutableArray<FilterCount> Rules);

/// <summary>The simplest frame that is stable enough, and what else there is.</summary>
public sealed record SuggestReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-suggest";

    /// <summary>The version of the format.</summary>
    public const int CurrentFormatVersion = 1;

    public string Format { get; init; } = FormatName;

    public int FormatVersion { get; init; } = CurrentFormatVersion;

    public required ProgramStamp Program { get; init; }

    /// <summary>SHA-256 of the case file's bytes, lower-case hexadecimal.</summary>
    public required string CaseSha256 { get; init; }

    public required string CaseTitle { get; init; }

    /// <summary>What must be said wherever advice is shown.</summary>
    public required string SafetyNote { get; init; }

    public required Purpose Purpose { get; init; }

    public required ImmutableArray<RequirementNote> Requirements { get; init; }

    /// <summary>Fewest parts, then least cost, then most room about the wound and skin; null when nothing meets all requirements.</summary>
    public SuggestedFrame? Simplest { get; init; }

    /// <summary>Frames none of which another beats in everything: parts, cost, stiffness, room and margin.</summary>
    public required ImmutableArray<SuggestedFrame> Pareto { get; init; }

    public required ImmutableArray<CaseFrameStanding> CaseFrames { get; init; }

    public required ImmutableArray<SmallestChange> SmallestChanges { get; init; }

    public required SearchCount Searched { get; init; }

    /// <summary>Empty when something is feasible.</summary>
    public required ImmutableArray<RequirementConflict> Conflicts { get; init; }

    /// <summary>What the search takes for granted.</summary>
    public required ImmutableArray<Assumption> Assumptions { get; init; }
}
