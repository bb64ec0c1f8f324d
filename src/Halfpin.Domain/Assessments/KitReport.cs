using System.Collections.Immutable;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;

namespace Halfpin.Domain.Assessments;

/// <summary>What it takes to build a frame.</summary>
public sealed record KitReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-kit";

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

    /// <summary>Id of the frame.</summary>
    public required string Frame { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>How its assessment ended.</summary>
    public required FrameStatus Status { get; init; }

    /// <summary>Why it cannot be assessed in full; null when it can.</summary>
    public Diagnosis? Diagnosis { get; init; }

    /// <summary>
    /// The warning that comes before all items, one line each: why the frame does not hold, and every check that it fails, those of
    /// placing first; null when there is none.
    /// </summary>
    public string? Warning { get; init; }

    /// <summary>Title of the stock the kit was taken from; null without one.</summary>
    public string? Stock { get; init; }

    /// <summary>SHA-256 of the stock file's bytes; null without one.</summary>
    public string? StockSha256 { get; init; }

    /// <summary>What to lay out, pins first.</summary>
    public required ImmutableArray<KitItem> Items { get; init; }

    /// <summary>How each pin's length comes about.</summary>
    public required ImmutableArray<PinLength> PinLengths { get; init; }

    /// <summary>What the stock does not have; empty without a stock.</summary>
    public required ImmutableArray<Shortage> Shortages { get; init; }

    /// <summary>The nearest frame that the stock can build; null when nothing is short.</summary>
    public KitProposal? Proposal { get; init; }

    public required ImmutableArray<SourcedCaution> Cautions { get; init; }

    /// <summary>The allowances in force, each with its source.</summary>
    public required ImmutableArray<Assumption> Assumptions { get; init; }
}

/// <summary>A line of the kit.</summary>
public sealed record KitItem
{
    /// <summary>Kind of item.</summary>
    public required KitKind Kind { get; init; }

    /// <summary>What it is, in words with its sizes.</summary>
    public required string Description { get; init; }

    /// <summary>The user's own name of the item in the stock; null without one.</summary>
    public string? StockName { get; init; }

    /// <summary>Its length; null where it has none.</summary>
    public double? LengthMm { get; init; }

    /// <summary>How many are needed.</summary>
    public required int Quantity { get; init; }

    /// <summary>How many of these the stock has; null without a stock, and for tools where the stock lists none.</summary>
    public int? InStock { get; init; }

    /// <summary>Diameter of the pin or rod, or of the pin or second rod of a clamp.</summary>
    public double? DiameterMm { get; init; }

    /// <summary>Thread length of a pin.</summary>
    public double? ThreadLengthMm { get; init; }

    /// <summary>Tip of a pin.</summary>
    public PinTip? Tip { get; init; }

    /// <summary>Material of a pin or rod.</summary>
    public string? Material { get; init; }

    /// <summary>Whether a clamp must be one that can be put on a mounted rod; null for other items.</summary>
    public bool? OpenSided { get; init; }

    /// <summary>Which tool it is; null for parts.</summary>
    public ToolKind? Tool { get; init; }

    /// <summary>Ids of the parts it becomes.</summary>
    public ImmutableArray<string> Parts { get; init; } = [];

    /// <summary>Why it is as it is; empty when plain.</summary>
    public string Reason { get; init; } = "";

    /// <summary>Where its size comes from.</summary>
    public required string Source { get; init; }

    /// <summary>READ, MEMORY, DERIVED, ASSUMED or GIVEN.</summary>
    public required string Tag { get; init; }
}

/// <summary>Kind of a line of the kit.</summary>
public enum KitKind
{
    Pin,
    Rod,
    Clamp,
    Tool,
}

/// <summary>How a pin's length comes about: the members from tip to wanted add up to the length needed.</summary>
public sealed record PinLength
{
    /// <summary>Id of the pin.</summary>
    public required string Pin { get; init; }

    /// <summary>Tip, as the case says or as assumed.</summary>
    public required PinTip Tip { get; init; }

    /// <summary>How far the tip may stand past the far cortex.</summary>
    public required double TipMm { get; init; }

    /// <summary>Bone along the pin.</summary>
    public required double ChordMm { get; init; }

    /// <summary>Bone surface to the axis of the outermost rod, along the pin; soft tissue lies within. 0 when no clamp holds the pin.</summary>
    public required double StandoffMm { get; init; }

    /// <summary>Half the outermost clamp.</summary>
    public required double HalfClampMm { get; init; }

    /// <summary>What is left beyond the clamp.</summary>
    public required double TailMm { get; init; }

    /// <summary>Sum of the above.</summary>
    public required double NeededMm { get; init; }

    /// <summary>The length taken: the case's own, one of the stock's, or rounded up; null when the stock has none.</summary>
    public double? LengthMm { get; init; }

    /// <summary>The thread taken; null when neither case nor stock gives one.</summary>
    public double? ThreadLengthMm { get; init; }

    /// <summary>Least thread wanted.</summary>
    public required double ThreadFromMm { get; init; }

    /// <summary>Most thread wanted.</summary>
    public required double ThreadToMm { get; init; }

    /// <summary>
    /// Thread outside the near cortex with the tip where the case puts it; 0 when none, null when the thread is not known.
    /// </summary>
    public double? ExposedThreadMm { get; init; }

    /// <summary>Bone surface to skin along the pin, swelling left out; null on a synthetic bone, which has no skin.</summary>
    public double? SoftTissueMm { get; init; }

    /// <summary>True when thread comes through the skin.</summary>
    public bool ThreadThroughSkin => ExposedThreadMm > SoftTissueMm;
}

/// <summary>Something the stock does not have enough of.</summary>
public sealed record Shortage
{
    public required KitKind Kind { get; init; }

    /// <summary>What is missing, in words with its sizes.</summary>
    public required string Description { get; init; }

    /// <summary>How many are needed.</summary>
    public required int Needed { get; init; }

    /// <summary>How many the stock can give.</summary>
    public required int InStock { get; init; }

    /// <summary>How many are missing.</summary>
    public required int Missing { get; init; }

    /// <summary>The length needed; null where length does not matter.</summary>
    public double? NeededMm { get; init; }

    /// <summary>By how much the longest in stock is too short; null when length is not what is missing.</summary>
    public double? TooShortByMm { get; init; }

    /// <summary>Ids of the parts that go without.</summary>
    public required ImmutableArray<string> Parts { get; init; }

    /// <summary>All of this in a sentence.</summary>
    public required string Message { get; init; }
}

/// <summary>The nearest frame that a stock can build, and what it costs in stability.</summary>
public sealed record KitProposal
{
    /// <summary>What changes, each in a sentence; empty when nothing can be built.</summary>
    public required ImmutableArray<string> Changes { get; init; }

    /// <summary>The changed frame, as a case file takes it; null when nothing can be built.</summary>
    public Frame? Frame { get; init; }

    /// <summary>What it costs, by result; empty when either frame cannot be assessed.</summary>
    public ImmutableArray<StiffnessCost> Costs { get; init; } = [];

    /// <summary>The proposal, or what blocks one, in a sentence.</summary>
    public required string Message { get; init; }

    /// <summary>Ids of parts that no frame tried can replace; empty when one is proposed.</summary>
    public ImmutableArray<string> BlockedBy { get; init; } = [];

    /// <summary>How many changed frames were tried.</summary>
    public required int Tried { get; init; }
}

/// <summary>A stiffness at the fracture before and after a change.</summary>
/// <param name="Name">Axial, AP bending, ML bending or torsion.</param>
/// <param name="Before">Of the frame of the case, in <paramref name="Unit"/>.</param>
/// <param name="After">Of the changed frame, in the same unit.</param>
/// <param name="Unit">N/mm or N·m/deg.</param>
/// <param name="ChangePercent">The change; null where the first frame is free.</param>
public sealed record StiffnessCost(string Name, double Before, double After, string Unit, double? ChangePercent);

/// <summary>A caution with where it comes from.</summary>
/// <param name="Text">A plain sentence.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Tag">READ, MEMORY, DERIVED, ASSUMED, ESTIMATE, GIVEN, or "common practice".</param>
public sealed record SourcedCaution(string Text, string Source, string Tag);
