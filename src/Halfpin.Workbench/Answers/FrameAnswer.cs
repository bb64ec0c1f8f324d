using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Workbench.Answers;

/// <summary>What a screen says of a frame: a sentence first, then the numbers, each already put into text.</summary>
public sealed record FrameAnswer
{
    /// <summary>The assessment it was made from.</summary>
    public required FrameAssessment Assessment { get; init; }

    /// <summary>The worst there is to say.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>The answer in a sentence.</summary>
    public required string Headline { get; init; }

    /// <summary>What goes with it in one or two more.</summary>
    public required string Detail { get; init; }

    /// <summary>Stiffness at the fracture; empty when there is none to show.</summary>
    public required ImmutableArray<StiffnessBar> Bars { get; init; }

    /// <summary>Movement at the fracture under the chosen load; empty when it is withheld.</summary>
    public required ImmutableArray<NamedText> Motion { get; init; }

    /// <summary>What is nearest its limit.</summary>
    public required ImmutableArray<NamedText> Limits { get; init; }
}

/// <summary>A number with its name, already put into text.</summary>
/// <param name="Key">Its name for programs.</param>
/// <param name="Label">Its name for people.</param>
/// <param name="Text">The number with its unit, or why there is none.</param>
public sealed record NamedText(string Key, string Label, string Text);

/// <summary>A stiffness as a bar. Shares are of the bar's length, 0 to 1.</summary>
/// <param name="Key">axial, ap, ml or torsion.</param>
/// <param name="Label">Its name.</param>
/// <param name="Text">Its value.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Share">Length of the bar.</param>
/// <param name="LowShare">Where the band of parts and placement begins; null without one.</param>
/// <param name="HighShare">Where it ends.</param>
/// <param name="BandText">The band in words.</param>
/// <param name="FromShare">Where the wanted window begins; null when nothing is wanted.</param>
/// <param name="ToShare">Where it ends.</param>
/// <param name="IsOutside">True when the value lies outside the wanted window.</param>
public sealed record StiffnessBar(
    string Key, string Label, string Text, string Unit, double Share, double? LowShare, double? HighShare, string BandText, double? FromShare, double? ToShare, bool IsOutside);
