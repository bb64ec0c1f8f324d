using System.Collections.Immutable;
using Halfpin.Domain.Cases;

namespace Halfpin.Domain.Assessments;

/// <summary>
/// A deformity read off two views: its true size and plane, what is published about it, and what to turn. Angulation, rotation and
/// shift are those of the distal fragment against the proximal one; azimuths are 0 anterior, +90 medial on either side of the body.
/// </summary>
public sealed record AlignmentReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-alignment";

    /// <summary>The version of the format.</summary>
    public const int CurrentFormatVersion = 1;

    public string Format { get; init; } = FormatName;

    public int FormatVersion { get; init; } = CurrentFormatVersion;

    public required ProgramStamp Program { get; init; }

    /// <summary>SHA-256 of the case file's bytes, lower-case hexadecimal; null without a case.</summary>
    public string? CaseSha256 { get; init; }

    /// <summary>Title of the case; null without one.</summary>
    public string? CaseTitle { get; init; }

    /// <summary>What must be said wherever advice is shown.</summary>
    public required string SafetyNote { get; init; }

    /// <summary>Side of the body; null when not told. It changes words of turning only.</summary>
    public required Side? Side { get; init; }

    /// <summary>What was measured, with its error.</summary>
    public required AlignmentMeasurement Measured { get; init; }

    /// <summary>The answer in a few short lines.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>Angle between the fragments' axes in their own plane, by the exact formula.</summary>
    public required double TrueAngleDeg { get; init; }

    /// <summary>Between which values it lies when both readings are within their error.</summary>
    public required MeasuredRange TrueAngleRange { get; init; }

    /// <summary>Azimuth toward which the deformity's apex points; null when the error leaves it open.</summary>
    public required double? PlaneAzimuthDeg { get; init; }

    /// <summary>The sector in which it lies; null when the error leaves it open.</summary>
    public required DirectionRange? PlaneAzimuthRange { get; init; }

    /// <summary>The plane's angle from the frontal (AP) plane, with the signs of the two readings; null as above.</summary>
    public required double? PlaneFromFrontalDeg { get; init; }

    /// <summary>The plane in words, or why there is none.</summary>
    public required string PlaneWords { get; init; }

    /// <summary>The rule of small angles, for comparison.</summary>
    public required SmallAngleRule SmallAngleRule { get; init; }

    /// <summary>Shift of the distal fragment; null when not measured.</summary>
    public required AlignmentShift? Shift { get; init; }

    /// <summary>Published limits of acceptable alignment, each with its verdict. They contradict each other in places.</summary>
    public required ImmutableArray<AlignmentLimit> Limits { get; init; }

    /// <summary>Published bounds from which correction is indicated.</summary>
    public required ImmutableArray<AlignmentLimit> CorrectionIndicated { get; init; }

    /// <summary>What would bring the distal fragment into line, as a movement, and at which clamps of each frame.</summary>
    public required ImmutableArray<AlignmentCorrection> Corrections { get; init; }

    /// <summary>How error was carried through.</summary>
    public required string Method { get; init; }

    /// <summary>What is assumed.</summary>
    public required ImmutableArray<Assumption> Assumptions { get; init; }

    /// <summary>Cautions that hold whatever the numbers say.</summary>
    public required ImmutableArray<string> Cautions { get; init; }
}

/// <summary>What was measured on two views at right angles.</summary>
public sealed record AlignmentMeasurement
{
    /// <summary>Usual error of an angle. ASSUMED.</summary>
    public const double UsualErrorDeg = 2;

    /// <summary>Usual error of a length. ASSUMED.</summary>
    public const double UsualErrorMm = 2;

    /// <summary>Angulation on the AP view: varus positive (apex lateral), valgus negative.</summary>
    public required double ApDeg { get; init; }

    /// <summary>Angulation on the lateral view: procurvatum positive (apex anterior), recurvatum negative.</summary>
    public required double LateralDeg { get; init; }

    /// <summary>Rotation of the distal fragment about its own axis: external positive; null when not measured.</summary>
    public double? RotationDeg { get; init; }

    /// <summary>Where the distal fragment's end lies on the AP view: medial positive; null when not measured.</summary>
    public double? ApShiftMm { get; init; }

    /// <summary>Where it lies on the lateral view: anterior positive; null when not measured.</summary>
    public double? LateralShiftMm { get; init; }

    /// <summary>Length along the proximal axis at the fracture: distraction positive, shortening negative; null when not measured.</summary>
    public double? LengthMm { get; init; }

    /// <summary>Each angle is taken to be right within this.</summary>
    public double ErrorDeg { get; init; } = UsualErrorDeg;

    /// <summary>Each length is taken to be right within this.</summary>
    public double ErrorMm { get; init; } = UsualErrorMm;
}

/// <summary>Between which values a quantity lies, in its owner's unit.</summary>
public sealed record MeasuredRange(double Low, double High);

/// <summary>A sector of azimuth that runs from its first value with rising azimuth to its second.</summary>
public sealed record DirectionRange(double FromDeg, double ToDeg);

/// <summary>The rule of small angles and how far it lies from the exact formula.</summary>
/// <param name="AngleDeg">Root of the sum of squares.</param>
/// <param name="PlaneDeg">From the frontal plane; null when error leaves the plane open.</param>
/// <param name="AngleDifferenceDeg">The rule's angle less the exact one.</param>
/// <param name="PlaneDifferenceDeg">The rule's plane less the exact one; null as above.</param>
public sealed record SmallAngleRule(double AngleDeg, double? PlaneDeg, double AngleDifferenceDeg, double? PlaneDifferenceDeg);

/// <summary>The true shift of the distal fragment across the proximal one's axis.</summary>
/// <param name="SizeMm">Its size.</param>
/// <param name="SizeRange">Between which values it lies.</param>
/// <param name="AzimuthDeg">Toward which the distal fragment lies; null when error leaves it open.</param>
/// <param name="AzimuthRange">The sector in which it lies; null as above.</param>
public sealed record AlignmentShift(double SizeMm, MeasuredRange SizeRange, double? AzimuthDeg, DirectionRange? AzimuthRange);

/// <summary>A published limit held against a measurement.</summary>
/// <param name="Name">What is limited.</param>
/// <param name="Unit">° , mm or %.</param>
/// <param name="Limit">The limit; where a range is published, its lower end.</param>
/// <param name="LimitTo">Upper end of a published range; else null.</param>
/// <param name="Value">What was measured; null when it was not.</param>
/// <param name="Range">Between which values it lies; null when not measured.</param>
/// <param name="Verdict">Pass within the limit with all its error, caution when error reaches it (or within a published range), fail beyond; null when not judged.</param>
/// <param name="Message">What was found.</param>
/// <param name="Source">Where the limit comes from.</param>
/// <param name="Tag">READ, MEMORY, DERIVED or ASSUMED.</param>
public sealed record AlignmentLimit(
    string Name, string Unit, double Limit, double? LimitTo, double? Value, MeasuredRange? Range, Verdict? Verdict, string Message, string Source, string Tag);
