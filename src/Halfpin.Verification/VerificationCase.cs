using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Halfpin.Verification.Models;

namespace Halfpin.Verification;

/// <summary>What a check is held against. Kinds are never mixed.</summary>
public enum CheckKind
{
    /// <summary>A formula, recomputed in code from the stated inputs.</summary>
    ClosedForm,

    /// <summary>A worked example of a textbook or an openly documented manual.</summary>
    WorkedExample,

    /// <summary>The answer of another program.</summary>
    OtherProgram,

    /// <summary>A published experiment.</summary>
    PublishedExperiment,

    /// <summary>A published simulation.</summary>
    PublishedSimulation,
}

/// <summary>How a reference value came to us.</summary>
public enum ReadTag
{
    /// <summary>Seen in the source, or in a test suite or manual that cites it; the case says which.</summary>
    Read,

    /// <summary>Known, not seen. Does not count as sourced.</summary>
    Memory,

    /// <summary>Computed from stated inputs by something independent of this program.</summary>
    Derived,
}

/// <summary>One published check: the claim, its source and the model that reproduces it.</summary>
public sealed record VerificationCase
{
    /// <summary>Stable; never reused.</summary>
    public required string Id { get; init; }

    /// <summary>"The … shall …".</summary>
    public required string Requirement { get; init; }

    public required CheckKind Kind { get; init; }

    /// <summary>Author, title, edition, year; or program and version.</summary>
    public required string Source { get; init; }

    /// <summary>Page, table, equation, example.</summary>
    public required string Locator { get; init; }

    /// <summary>Where the figures were read, when not in the source itself.</summary>
    public string? ReadAt { get; init; }

    public required ReadTag Tag { get; init; }

    /// <summary>What the source left open and what was chosen.</summary>
    public string? Assumptions { get; init; }

    /// <summary>A frame of members in any consistent units.</summary>
    public RawFrame? Frame { get; init; }

    /// <summary>A cross-section given by outlines.</summary>
    public RawSection? Section { get; init; }

    /// <summary>A case file of the product.</summary>
    public JsonObject? Case { get; init; }

    public required ImmutableArray<VerificationCheck> Checks { get; init; }
}

/// <summary>One number of a case.</summary>
public sealed record VerificationCheck
{
    /// <summary>What is compared: see the reader of the case's model for its words.</summary>
    public required string Quantity { get; init; }

    public required string Unit { get; init; }

    /// <summary>The model's number times this is in the check's unit and sense: −1 among it where the source counts the other way round.</summary>
    public double Scale { get; init; } = 1;

    /// <summary>The number exactly as printed; null for a closed form that has none.</summary>
    public string? Printed { get; init; }

    /// <summary>The formula that gives the number.</summary>
    public FormulaCall? Formula { get; init; }

    /// <summary>Allowed share of the reference.</summary>
    public double? RelativeTolerance { get; init; }

    /// <summary>Allowed difference, in the check's unit.</summary>
    public double? AbsoluteTolerance { get; init; }

    /// <summary>Why that much: print rounding, model difference, numerical error.</summary>
    public required string ToleranceReason { get; init; }

    /// <summary>Set when the difference is understood and stays: what it is.</summary>
    public string? KnownGap { get; init; }
}

/// <summary>A named formula with its inputs.</summary>
public sealed record FormulaCall(string Name, ImmutableDictionary<string, double> Inputs);
