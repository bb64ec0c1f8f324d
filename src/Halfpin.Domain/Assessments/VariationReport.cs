using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>One frame while one or two of its numbers run through a range.</summary>
public sealed record VariationReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-variation";

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

    /// <summary>The numbers that vary, the last one fastest.</summary>
    public required ImmutableArray<VariedNumber> Over { get; init; }

    public required ImmutableArray<VariationRow> Rows { get; init; }

    /// <summary>Where verdicts change along the last number.</summary>
    public required ImmutableArray<VerdictChange> Changes { get; init; }

    /// <summary>What these figures leave out.</summary>
    public required ImmutableArray<string> Assumptions { get; init; }
}

/// <summary>A number that varies.</summary>
/// <param name="Name">As it was asked for; its unit ends the name.</param>
/// <param name="Pointer">JSON Pointer from the case.</param>
/// <param name="From">First value.</param>
/// <param name="To">Last value.</param>
/// <param name="Nominal">Its value in the case.</param>
public sealed record VariedNumber(string Name, string Pointer, double From, double To, double Nominal);

/// <summary>A frame with the numbers at given values.</summary>
public sealed record VariationRow
{
    /// <summary>Each number's value, by its name.</summary>
    public required ImmutableSortedDictionary<string, double> Values { get; init; }

    public required FrameStatus Status { get; init; }

    /// <summary>Why results are missing; null when none are.</summary>
    public string? Reason { get; init; }

    /// <summary>Stiffness at the fracture, the first of several.</summary>
    public FourStiffnesses? Stiffness { get; init; }

    /// <summary>Motion at the fracture under the chosen load, the first of several.</summary>
    public FractureMotion? Motion { get; init; }

    /// <summary>Each of several fractures, from proximal; empty with one and where nothing is told.</summary>
    public ImmutableArray<VariedFracture> Fractures { get; init; } = [];

    /// <summary>The greatest demand under the chosen load, 1 at the limit; fatigue is left out.</summary>
    public double? WorstUtilisation { get; init; }

    /// <summary>Axial load at which the first limit is met.</summary>
    public double? FirstLimitKg { get; init; }

    /// <summary>The verdict of each rule that applies, by its word.</summary>
    public required ImmutableSortedDictionary<string, Verdict> Verdicts { get; init; }

    /// <summary>Rules whose verdict differs from the last row before it with verdicts, along the last number.</summary>
    public required ImmutableArray<string> Changed { get; init; }
}

/// <summary>One of several fractures with the numbers at given values.</summary>
/// <param name="LevelMm">Middle of its gap.</param>
/// <param name="Stiffness">Stiffness at it.</param>
/// <param name="Motion">Motion at it under the chosen load; null when none is chosen or it is withheld.</param>
/// <param name="WorstIn">In what it fares worst of all: names of stiffnesses that are least here, and of motions that are most.</param>
public sealed record VariedFracture(double LevelMm, FourStiffnesses Stiffness, FractureMotion? Motion, ImmutableArray<string> WorstIn);

/// <summary>A verdict that changes between two rows with verdicts, neighbours but for rows that could not be assessed.</summary>
/// <param name="Check">The rule's word.</param>
/// <param name="Row">Number of the row with the new verdict, from 0.</param>
/// <param name="After">Value of the last number in the last row before it with verdicts.</param>
/// <param name="By">Its value in the row with the new verdict.</param>
/// <param name="From">The verdict before; null when the rule did not apply.</param>
/// <param name="To">The verdict then; null when the rule applies no more.</param>
/// <param name="Unassessed">Rows between the two that could not be assessed.</param>
public sealed record VerdictChange(string Check, int Row, double After, double By, Verdict? From, Verdict? To, int Unassessed);
