using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>What the program found for the frames of a case.</summary>
public sealed record Assessment
{
    /// <summary>The word that marks an assessment.</summary>
    public const string FormatName = "halfpin-assessment";

    /// <summary>The version of the format.</summary>
    public const int CurrentFormatVersion = 1;

    public string Format { get; init; } = FormatName;

    public int FormatVersion { get; init; } = CurrentFormatVersion;

    public required ProgramStamp Program { get; init; }

    /// <summary>SHA-256 of the case file's bytes, lower-case hexadecimal.</summary>
    public required string CaseSha256 { get; init; }

    /// <summary>SHA-256 of the bytes of the table of gait; null when none was given.</summary>
    public string? GaitSha256 { get; init; }

    public required string CaseTitle { get; init; }

    /// <summary>The case's free notes as lines of text, as the case has them.</summary>
    public ImmutableArray<string> CaseNotes { get; init; } = [];

    /// <summary>What must be said wherever advice is shown.</summary>
    public required string SafetyNote { get; init; }

    public required ImmutableArray<FrameAssessment> Frames { get; init; }

    /// <summary>The answer in a few short lines, for a reader with five seconds.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>What the numbers mean side by side, in plain sentences; the most important first.</summary>
    public required ImmutableArray<string> Comparison { get; init; }

    /// <summary>Every modelling assumption in force, with its value and source.</summary>
    public required ImmutableArray<Assumption> Assumptions { get; init; }

    public required ImmutableArray<string> Warnings { get; init; }
}

/// <summary>A short line of the answer.</summary>
/// <param name="Label">What it is about.</param>
/// <param name="Text">What was found.</param>
/// <param name="Verdict">Whether it is a warning; null for a description, which judges nothing.</param>
public sealed record Finding(string Label, string Text, Verdict? Verdict);

/// <summary>The program that made a result.</summary>
public sealed record ProgramStamp(string Name, string Version);

/// <summary>A modelling assumption: what it is, its value here, whether the case set it, and where the default comes from.</summary>
public sealed record Assumption(string Name, string Value, bool FromCase, string Source, string Tag);
