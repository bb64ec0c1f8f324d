using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Workbench.Plots;

namespace Halfpin.Workbench.Comparing;

/// <summary>Frames of a case side by side.</summary>
public sealed record ComparisonView
{
    /// <summary>The answer first, warnings last.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>What the numbers mean, in sentences.</summary>
    public required ImmutableArray<string> Sentences { get; init; }

    /// <summary>The frames, in the order of the case.</summary>
    public required ImmutableArray<ComparedFrame> Frames { get; init; }

    /// <summary>What they do, by groups of rows.</summary>
    public required ImmutableArray<ComparedGroup> Results { get; init; }

    /// <summary>How they are made; rows that all share come last.</summary>
    public required ImmutableArray<ComparedRow> Construction { get; init; }

    /// <summary>The four stiffnesses.</summary>
    public required ImmutableArray<StiffnessPanel> Panels { get; init; }

    /// <summary>What the bands are of and what they rest on; empty when there are none.</summary>
    public required string BandWords { get; init; }

    /// <summary>True when the bands are of the uncertainty study, with medians; false when they are of inputs at their worst together.</summary>
    public required bool HasStudyBands { get; init; }
}

/// <summary>A frame of a comparison.</summary>
/// <param name="Frame">The frame.</param>
/// <param name="Verdict">The worst there is to say.</param>
/// <param name="Headline">The answer in a sentence.</param>
/// <param name="Assessment">Its assessment.</param>
public sealed record ComparedFrame(Frame Frame, Verdict Verdict, string Headline, FrameAssessment Assessment);

/// <summary>Rows that belong together.</summary>
/// <param name="Name">What they are about.</param>
/// <param name="Rows">The rows.</param>
public sealed record ComparedGroup(string Name, ImmutableArray<ComparedRow> Rows);

/// <summary>A value of every frame.</summary>
/// <param name="Key">Its name for programs.</param>
/// <param name="Label">Its name for people.</param>
/// <param name="Unit">Its unit; empty for a count or words.</param>
/// <param name="Cells">A cell for each frame.</param>
public sealed record ComparedRow(string Key, string Label, string Unit, ImmutableArray<ComparedCell> Cells)
{
    /// <summary>True when some frame differs from the first.</summary>
    public bool Differs => Cells.Any(c => c.Differs);
}

/// <summary>A value of a frame.</summary>
/// <param name="Text">The value, or why there is none.</param>
/// <param name="Band">Its band, with the median where there is one; empty without a band.</param>
/// <param name="Mark">What stands out: highest, least …; empty when nothing does.</param>
/// <param name="Against">How it differs from the first frame; empty for the first and where it does not.</param>
/// <param name="Differs">True when it differs from the first frame.</param>
public sealed record ComparedCell(string Text, string Band, string Mark, string Against, bool Differs);

/// <summary>One stiffness of all frames on a common scale.</summary>
/// <param name="Key">axial, ap, ml or torsion.</param>
/// <param name="Label">Its name.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Scale">The scale, from 0.</param>
/// <param name="Bars">A bar for each frame.</param>
public sealed record StiffnessPanel(string Key, string Label, string Unit, PlotScale Scale, ImmutableArray<StiffnessPanelBar> Bars);

/// <summary>A bar of a panel; lengths are shares of the scale.</summary>
/// <param name="Name">The frame.</param>
/// <param name="Text">Its value, or why there is none.</param>
/// <param name="Share">Length; null without a value.</param>
/// <param name="LowShare">Where its band begins; null without one.</param>
/// <param name="HighShare">Where it ends.</param>
/// <param name="MedianShare">Where its median lies; null without one.</param>
/// <param name="Band">The band in words; empty without one.</param>
public sealed record StiffnessPanelBar(string Name, string Text, double? Share, double? LowShare, double? HighShare, double? MedianShare, string Band);
