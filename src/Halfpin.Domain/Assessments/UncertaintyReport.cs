using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>How sure the results of a frame are, given what is not known about its inputs.</summary>
public sealed record UncertaintyReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-uncertainty";

    /// <summary>The version of the format.</summary>
    public const int CurrentFormatVersion = 1;

    public string Format { get; init; } = FormatName;

    public int FormatVersion { get; init; } = CurrentFormatVersion;

    public required ProgramStamp Program { get; init; }

    /// <summary>SHA-256 of the case file's bytes, lower-case hexadecimal.</summary>
    public required string CaseSha256 { get; init; }

    public required string CaseTitle { get; init; }

    /// <summary>What must be said wherever numbers are shown.</summary>
    public required string SafetyNote { get; init; }

    /// <summary>Id of the frame.</summary>
    public required string Frame { get; init; }

    public required string Name { get; init; }

    public required ulong Seed { get; init; }

    /// <summary>Evaluations made and how they ended.</summary>
    public required SampleCounts Samples { get; init; }

    /// <summary>The answer in a few short lines.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>Each result: median and the band that holds the middle 90 %.</summary>
    public required ImmutableArray<UncertainResult> Results { get; init; }

    /// <summary>How likely each rule passes.</summary>
    public required ImmutableArray<PassProbability> PassProbability { get; init; }

    /// <summary>How much of each result's variance each input accounts for, the most important first within a result.</summary>
    public required ImmutableArray<SensitivityIndex> Indices { get; init; }

    /// <summary>The other frame under the same inputs; null when none was asked for.</summary>
    public RankingReport? Ranking { get; init; }

    /// <summary>Whether the bands are as tight as asked; null when nothing was asked.</summary>
    public Convergence? Convergence { get; init; }

    /// <summary>The inputs and their spreads.</summary>
    public required ImmutableArray<InputSpread> Inputs { get; init; }

    /// <summary>What these figures rest on and leave out.</summary>
    public required ImmutableArray<string> Assumptions { get; init; }

    public required ImmutableArray<string> Warnings { get; init; }
}

/// <summary>Evaluations of a study.</summary>
/// <param name="Asked">The most that were asked for.</param>
/// <param name="Evaluations">All that were made: the case as it is, and every sample of every frame.</param>
/// <param name="BasePoints">Base points; each is evaluated twice and once more for each input.</param>
/// <param name="Independent">Evaluations behind bands and shares: two of each base point.</param>
/// <param name="Failed">Evaluations of this frame without any result: it cannot be built or holds nothing.</param>
/// <param name="Withheld">Evaluations of this frame with its stiffness only: the load takes it beyond what the model describes.</param>
/// <param name="Reasons">The first reason of each kind.</param>
public sealed record SampleCounts(
    long Asked, long Evaluations, long BasePoints, long Independent, long Failed, long Withheld, ImmutableArray<FailureReason> Reasons);

/// <summary>Why evaluations gave no or not all results.</summary>
/// <param name="Status">How they ended.</param>
/// <param name="Count">How many.</param>
/// <param name="Example">The reason of the first.</param>
public sealed record FailureReason(FrameStatus Status, long Count, string Example);

/// <summary>A result under uncertain inputs.</summary>
/// <param name="Name">Which; its unit ends the name, with several fractures followed by @ and the number of one, from proximal; a utilisation is a share of a limit.</param>
/// <param name="Nominal">Its value in the case as it is; null when withheld.</param>
/// <param name="Median">Half of the values lie below; null when there are none.</param>
/// <param name="P5">One in twenty lies below.</param>
/// <param name="P95">One in twenty lies above.</param>
/// <param name="Values">How many values it rests on.</param>
/// <param name="Missing">How many samples have none.</param>
public sealed record UncertainResult(string Name, double? Nominal, double? Median, double? P5, double? P95, long Values, long Missing);

/// <summary>How likely a rule passes.</summary>
/// <param name="Check">The rule's word.</param>
/// <param name="Pass">Share of samples that pass it, of those to which it applies.</param>
/// <param name="Low">Lower end of its 95 % interval.</param>
/// <param name="High">Upper end.</param>
/// <param name="Caution">Share with a caution.</param>
/// <param name="Fail">Share that fail.</param>
/// <param name="Applies">Samples to which it applies.</param>
/// <param name="Nominal">Its verdict in the case as it is, without bands; null when it does not apply there.</param>
public sealed record PassProbability(string Check, double Pass, double Low, double High, double Caution, double Fail, long Applies, Verdict? Nominal);

/// <summary>Sobol' indices of an input for a result.</summary>
/// <param name="Input">The input.</param>
/// <param name="Output">The result, by its name.</param>
/// <param name="First">Share of variance by the input alone.</param>
/// <param name="Total">With its exchanges with others.</param>
/// <param name="Low">Lower end of the 95 % bootstrap interval of the total.</param>
/// <param name="High">Upper end.</param>
/// <param name="FirstLow">Lower end of that of the first.</param>
/// <param name="FirstHigh">Upper end.</param>
public sealed record SensitivityIndex(string Input, string Output, double First, double Total, double Low, double High, double FirstLow, double FirstHigh);

/// <summary>An input's spread.</summary>
/// <param name="Input">Its name.</param>
/// <param name="Spread">In words.</param>
/// <param name="Nominal">Its value in the case.</param>
/// <param name="Source">Where the spread comes from.</param>
/// <param name="Tag">ASSUMED, MEMORY … or GIVEN.</param>
public sealed record InputSpread(string Input, string Spread, double Nominal, string Source, string Tag);

/// <summary>Two frames under the same inputs.</summary>
/// <param name="Against">Id of the other frame.</param>
/// <param name="Name">Its name.</param>
/// <param name="Stiffer">For each stiffness, how likely the frame is stiffer than the other.</param>
/// <param name="Failed">Evaluations of the other frame without any result.</param>
/// <param name="Reasons">The first reason of each kind why the other frame has no result.</param>
/// <param name="Lost">Which samples could not be compared and why, in a sentence; null when all could.</param>
public sealed record RankingReport(string Against, string Name, ImmutableArray<StifferProbability> Stiffer, long Failed, ImmutableArray<FailureReason> Reasons, string? Lost);

/// <summary>How likely one frame is stiffer than another.</summary>
/// <param name="Output">Which stiffness; of several fractures each frame's at the one where it is least.</param>
/// <param name="Probability">Share of samples in which it is, of those with both; null when none has both.</param>
/// <param name="Low">Lower end of its 95 % interval; null with it.</param>
/// <param name="High">Upper end; null with it.</param>
/// <param name="Pairs">Samples with both.</param>
public sealed record StifferProbability(string Output, double? Probability, double? Low, double? High, long Pairs);

/// <summary>Whether the bands became as tight as asked.</summary>
/// <param name="AskedPercent">The greatest half-width asked for, of the 95 % intervals of both band ends, as a share of the median.</param>
/// <param name="Reached">True when every result is as tight.</param>
/// <param name="WidestPercent">The widest half-width at the end; null when no result could be judged.</param>
/// <param name="Widest">The result that has it.</param>
/// <param name="Message">In a sentence.</param>
public sealed record Convergence(double AskedPercent, bool Reached, double? WidestPercent, string? Widest, string Message);
