using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>What a case records of why a frame is used, what is missing and what is published about it. It decides nothing.</summary>
public sealed record IndicationReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-indication";

    /// <summary>The version of the format.</summary>
    public const int CurrentFormatVersion = 1;

    /// <summary>What stands at the top of every such report.</summary>
    public const string RecordsOnly = "This note records and reminds; it does not decide.";

    public string Format { get; init; } = FormatName;

    public int FormatVersion { get; init; } = CurrentFormatVersion;

    public required ProgramStamp Program { get; init; }

    /// <summary>SHA-256 of the case file's bytes, lower-case hexadecimal.</summary>
    public required string CaseSha256 { get; init; }

    public required string CaseTitle { get; init; }

    /// <summary>That it decides nothing.</summary>
    public string Statement { get; init; } = RecordsOnly;

    /// <summary>What must be said wherever advice is shown.</summary>
    public required string SafetyNote { get; init; }

    /// <summary>What argues against a frame, what is recorded first.</summary>
    public required ImmutableArray<AgainstItem> Against { get; init; }

    /// <summary>Where the record contradicts itself, its case or the meaning of a grade.</summary>
    public required ImmutableArray<IndicationNote> Contradictions { get; init; }

    /// <summary>Where what is recorded or planned differs from a usual or published rule; that may be right.</summary>
    public required ImmutableArray<IndicationNote> Deviations { get; init; }

    /// <summary>What is recorded.</summary>
    public required ImmutableArray<RecordedItem> Recorded { get; init; }

    /// <summary>What is not recorded, and where it is entered.</summary>
    public required ImmutableArray<MissingItem> Missing { get; init; }

    /// <summary>Recorded figures of physiology beside the published damage-control grades.</summary>
    public required ImmutableArray<PhysiologyItem> Physiology { get; init; }

    /// <summary>Published facts that bear on what is recorded.</summary>
    public required ImmutableArray<IndicationNote> Facts { get; init; }

    /// <summary>Reminders for every such limb.</summary>
    public required ImmutableArray<IndicationNote> Reminders { get; init; }
}

/// <summary>A recorded item.</summary>
public sealed record RecordedItem(string Item, string Value);

/// <summary>An item that is not recorded.</summary>
/// <param name="Item">What.</param>
/// <param name="Pointer">Where it is entered in the case, as a JSON Pointer.</param>
public sealed record MissingItem(string Item, string Pointer);

/// <summary>A fact, reminder, contradiction or deviation.</summary>
/// <param name="Topic">What it is about.</param>
/// <param name="Text">A plain sentence.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Tag">READ, MEMORY, DERIVED or ASSUMED.</param>
public sealed record IndicationNote(string Topic, string Text, string Source, string Tag);

/// <summary>A figure of physiology beside the published grades.</summary>
/// <param name="Figure">What was measured.</param>
/// <param name="Value">Its value.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Grades">The published grades whose range holds it; both neighbours when it falls between two.</param>
public sealed record PhysiologyItem(string Figure, double Value, string Unit, ImmutableArray<string> Grades);

/// <summary>Something that argues against a frame.</summary>
/// <param name="Item">What.</param>
/// <param name="Recorded">True when the case records it.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Tag">READ, MEMORY, DERIVED or ASSUMED.</param>
public sealed record AgainstItem(string Item, bool Recorded, string Source, string Tag);
