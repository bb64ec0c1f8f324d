using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>How fit a direction is for a half-pin, best first.</summary>
public enum CorridorGrade
{
    Preferred,
    Safe,

    /// <summary>Dissect, and know why.</summary>
    Caution,
    Avoid,
}

/// <summary>A range of directions at a level.</summary>
/// <param name="FromDeg">First azimuth; the sector runs from here with rising azimuth.</param>
/// <param name="ToDeg">Last azimuth, above the first; both within −180 to 180.</param>
/// <param name="Grade">How fit it is.</param>
/// <param name="Structures">What is at risk there.</param>
/// <param name="Source">Where the edges come from.</param>
/// <param name="Tag">READ, MEASURED, MEMORY, ESTIMATE or ASSUMED, the weakest of its edges.</param>
public sealed record CorridorSector(double FromDeg, double ToDeg, CorridorGrade Grade, ImmutableArray<string> Structures, string Source, string Tag);

/// <summary>A vessel, nerve or bone in a cross-section.</summary>
/// <param name="Name">Its name.</param>
/// <param name="AzimuthDeg">Direction from the bone's axis.</param>
/// <param name="DistanceMm">Distance from the bone's axis.</param>
/// <param name="RadiusMm">Its radius, for the drawing.</param>
/// <param name="Tag">READ, MEASURED, MEMORY or ESTIMATE.</param>
public sealed record SectionStructure(string Name, double AzimuthDeg, double DistanceMm, double RadiusMm, string Tag);

/// <summary>Bone, canal and skin in a direction.</summary>
/// <param name="AzimuthDeg">Direction.</param>
/// <param name="CanalMm">Distance from the bone's axis to the canal's surface.</param>
/// <param name="OuterMm">Distance to the bone's surface.</param>
/// <param name="SkinMm">Distance to the skin, not swollen.</param>
/// <param name="LeastStandoffMm">Bone surface to the axis of an 11 mm rod that leaves room for swelling and for skin.</param>
public sealed record SectionDirection(double AzimuthDeg, double CanalMm, double OuterMm, double SkinMm, double LeastStandoffMm);

/// <summary>A pin of a frame near the level.</summary>
/// <param name="Frame">Id of the frame.</param>
/// <param name="Pin">Id of the pin.</param>
/// <param name="LevelMm">Its level.</param>
/// <param name="AzimuthDeg">Its azimuth.</param>
/// <param name="DiameterMm">Its diameter.</param>
/// <param name="Grade">Its grade, at its own level and with its volume.</param>
/// <param name="Behind">What lies behind the far surface along its axis.</param>
public sealed record SectionPin(string Frame, string Pin, double LevelMm, double AzimuthDeg, double DiameterMm, CorridorGrade Grade, ImmutableArray<string> Behind);

/// <summary>Where a half-pin may go at a level.</summary>
public sealed record CorridorReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-corridors";

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

    /// <summary>Level from the proximal joint line.</summary>
    public required double LevelMm { get; init; }

    /// <summary>The same as a share of the bone's length.</summary>
    public required double LevelPercent { get; init; }

    /// <summary>The part of the bone at this level.</summary>
    public required string Zone { get; init; }

    /// <summary>All directions, from −180° on.</summary>
    public required ImmutableArray<CorridorSector> Sectors { get; init; }

    /// <summary>What lies round the bone.</summary>
    public required ImmutableArray<SectionStructure> Structures { get; init; }

    /// <summary>Bone, canal and skin every 5° from −180° on.</summary>
    public required ImmutableArray<SectionDirection> Outline { get; init; }

    /// <summary>Room for swelling that is counted in.</summary>
    public required double SwellingMm { get; init; }

    /// <summary>Where soft tissue and its allowance come from.</summary>
    public required string TissueSource { get; init; }

    /// <summary>Pins of the case's frames within 15 mm of the level.</summary>
    public required ImmutableArray<SectionPin> Pins { get; init; }

    /// <summary>Usual cautions.</summary>
    public required ImmutableArray<string> Cautions { get; init; }
}
