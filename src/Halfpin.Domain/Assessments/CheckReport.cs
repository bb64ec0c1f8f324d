using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>Every rule on every frame of a valid case.</summary>
public sealed record CheckReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-check";

    /// <summary>The version of the format.</summary>
    public const int CurrentFormatVersion = 1;

    public string Format { get; init; } = FormatName;

    public int FormatVersion { get; init; } = CurrentFormatVersion;

    /// <summary>Always true: what is no valid case is answered with its faults.</summary>
    public bool Valid { get; init; } = true;

    /// <summary>The frames in the case's order.</summary>
    public required ImmutableArray<CheckedFrame> Frames { get; init; }

    /// <summary>What must be said wherever advice is shown.</summary>
    public required string SafetyNote { get; init; }

    /// <summary>What to mind whatever the checks say.</summary>
    public required ImmutableArray<string> Cautions { get; init; }

    /// <summary>The report that an assessment holds.</summary>
    public static CheckReport Of(Assessment assessment) => new()
    {
        Frames = [.. assessment.Frames.Select(f => new CheckedFrame(f.Id, f.Name, f.Status, f.Diagnosis, f.Kit, f.Checks))],
        SafetyNote = Safety.Note,
        Cautions = Safety.Cautions,
    };
}

/// <summary>A frame held against every rule.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">Its name.</param>
/// <param name="Status">How its assessment ended.</param>
/// <param name="Diagnosis">Why it cannot be assessed in full; null when it can.</param>
/// <param name="Kit">Its parts by count.</param>
/// <param name="Checks">The checks, worst first.</param>
public sealed record CheckedFrame(string Id, string Name, FrameStatus Status, Diagnosis? Diagnosis, Kit Kit, ImmutableArray<Check> Checks);
