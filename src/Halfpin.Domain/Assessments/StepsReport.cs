using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>The order in which a frame is built.</summary>
public sealed record StepsReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-steps";

    /// <summary>The version of the format.</summary>
    public const int CurrentFormatVersion = 1;

    /// <summary>What stands at the head of every list of steps.</summary>
    public const string OneWay = "One way to build it; the surgeon decides each step.";

    public string Format { get; init; } = FormatName;

    public int FormatVersion { get; init; } = CurrentFormatVersion;

    public required ProgramStamp Program { get; init; }

    /// <summary>SHA-256 of the case file's bytes, lower-case hexadecimal.</summary>
    public required string CaseSha256 { get; init; }

    public required string CaseTitle { get; init; }

    /// <summary>What must be said wherever advice is shown.</summary>
    public required string SafetyNote { get; init; }

    /// <summary>That the list is one way among others.</summary>
    public string Statement { get; init; } = OneWay;

    /// <summary>Id of the frame.</summary>
    public required string Frame { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>How its assessment ended.</summary>
    public required FrameStatus Status { get; init; }

    /// <summary>Why it cannot be assessed in full; null when it can.</summary>
    public Diagnosis? Diagnosis { get; init; }

    /// <summary>
    /// The warning that comes before all steps, one line each: why the frame does not hold, and every check that it fails, those of
    /// placing first; null when there is none.
    /// </summary>
    public string? Warning { get; init; }

    /// <summary>What the case records of the limb that argues against building now or changes the order; empty when nothing.</summary>
    public required ImmutableArray<SourcedCaution> Recorded { get; init; }

    /// <summary>Number of the step that sets the last pin; 0 when none is set.</summary>
    public required int StepsToLastPin { get; init; }

    /// <summary>The steps in their order.</summary>
    public required ImmutableArray<Step> Steps { get; init; }
}

/// <summary>A step.</summary>
public sealed record Step
{
    /// <summary>Its number, from 1.</summary>
    public required int N { get; init; }

    /// <summary>The part of the work it belongs to.</summary>
    public required StepPhase Phase { get; init; }

    /// <summary>What to do, in plain sentences with this frame's numbers.</summary>
    public required string Text { get; init; }

    /// <summary>Ids of the parts that this step puts in place.</summary>
    public ImmutableArray<string> Places { get; init; } = [];

    /// <summary>What to watch.</summary>
    public required ImmutableArray<SourcedCaution> Cautions { get; init; }
}

/// <summary>A part of the work.</summary>
public enum StepPhase
{
    Before,
    Build,
    Align,
    Finish,
    After,
}
