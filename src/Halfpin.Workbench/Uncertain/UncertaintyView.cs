using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Workbench.Plots;

namespace Halfpin.Workbench.Uncertain;

/// <summary>What a screen says of a study of uncertainty.</summary>
public sealed record UncertaintyView
{
    /// <summary>True when the case has changed since in something that it depends on.</summary>
    public required bool IsStale { get; init; }

    /// <summary>The answer in a sentence.</summary>
    public required string Headline { get; init; }

    /// <summary>How many evaluations, and how they ended.</summary>
    public required string Samples { get; init; }

    /// <summary>Each result with its band.</summary>
    public required ImmutableArray<BandLine> Bands { get; init; }

    /// <summary>Checks that neither always pass nor always fail, the least sure first.</summary>
    public required ImmutableArray<PassLine> Unsure { get; init; }

    /// <summary>Checks that end alike in every sample, in sentences.</summary>
    public required ImmutableArray<string> Sure { get; init; }

    /// <summary>What each result's spread comes from.</summary>
    public required ImmutableArray<InfluenceGroup> Influences { get; init; }

    /// <summary>The two frames ranked; empty without another.</summary>
    public required ImmutableArray<RankLine> Ranking { get; init; }

    /// <summary>Which samples could not be compared and why; empty when all could.</summary>
    public required string RankingLost { get; init; }
}

/// <summary>A result with its band.</summary>
/// <param name="Name">The result's word.</param>
/// <param name="Label">Its name, with the unit.</param>
/// <param name="Nominal">As in the case.</param>
/// <param name="Median">Its median.</param>
/// <param name="P5">One in twenty lies below.</param>
/// <param name="P95">One in twenty lies above.</param>
/// <param name="Missing">Samples without it, in words; empty when none are.</param>
/// <param name="Scale">A scale from 0; null without values.</param>
/// <param name="MedianShare">Where the median lies on it.</param>
/// <param name="LowShare">Where the band begins.</param>
/// <param name="HighShare">Where it ends.</param>
/// <param name="NominalShare">Where the value of the case lies.</param>
public sealed record BandLine(
    string Name, string Label, string Nominal, string Median, string P5, string P95, string Missing, PlotScale? Scale, double? MedianShare, double? LowShare, double? HighShare, double? NominalShare);

/// <summary>How likely a check passes.</summary>
/// <param name="Check">The rule's word.</param>
/// <param name="Words">Its name.</param>
/// <param name="Pass">Share that pass, in words with its interval.</param>
/// <param name="PassShare">Share that pass, 0 to 1.</param>
/// <param name="CautionShare">Share with a caution.</param>
/// <param name="FailShare">Share that fail.</param>
/// <param name="Caution">That share in words.</param>
/// <param name="Fail">That share in words.</param>
/// <param name="Nominal">Its verdict in the case as it is; null where it does not apply.</param>
public sealed record PassLine(string Check, string Words, string Pass, double PassShare, double CautionShare, double FailShare, string Caution, string Fail, Verdict? Nominal);

/// <summary>What a result's spread comes from.</summary>
/// <param name="Output">The result's word.</param>
/// <param name="Label">Its name.</param>
/// <param name="Sentence">Which input matters most, in a sentence.</param>
/// <param name="Inputs">The inputs that matter, the most first.</param>
public sealed record InfluenceGroup(string Output, string Label, string Sentence, ImmutableArray<InfluenceLine> Inputs);

/// <summary>How much of a spread an input accounts for; shares are 0 to 1.</summary>
/// <param name="Input">The input's word.</param>
/// <param name="Words">Its name.</param>
/// <param name="First">By itself, in words with its interval.</param>
/// <param name="Total">With exchanges with others, in words with its interval.</param>
/// <param name="FirstShare">By itself.</param>
/// <param name="TotalShare">With exchanges.</param>
/// <param name="LowShare">Lower end of the total's interval.</param>
/// <param name="HighShare">Upper end.</param>
public sealed record InfluenceLine(string Input, string Words, string First, string Total, double FirstShare, double TotalShare, double LowShare, double HighShare);

/// <summary>How likely one frame is stiffer than the other.</summary>
/// <param name="Label">In what.</param>
/// <param name="Words">The share with its interval, or that there is none.</param>
/// <param name="Share">0 to 1; null when no sample has both.</param>
public sealed record RankLine(string Label, string Words, double? Share);
