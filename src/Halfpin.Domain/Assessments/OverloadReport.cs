using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>One frame under an axial load that grows from nothing and is taken off again, event by event.</summary>
public sealed record OverloadReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-overload";

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

    public required FrameStatus Status { get; init; }

    /// <summary>Why there is no path at all; null when there is one.</summary>
    public Diagnosis? Diagnosis { get; init; }

    /// <summary>The greatest axial load asked for.</summary>
    public required double ToN { get; init; }

    /// <summary>What happens, in its order: on the way up, then on the way down.</summary>
    public ImmutableArray<OverloadEvent> Events { get; init; } = [];

    /// <summary>The path's corners in their order, at the first fracture; between two of them everything is straight.</summary>
    public ImmutableArray<OverloadPoint> Path { get; init; } = [];

    /// <summary>True when the whole load was applied and taken off again.</summary>
    public bool Complete { get; init; }

    /// <summary>Each fracture from proximal when there are several; else empty.</summary>
    public ImmutableArray<OverloadFracture> Fractures { get; init; } = [];

    /// <summary>Why the path ends early; null when it is complete.</summary>
    public string? Ended { get; init; }

    /// <summary>
    /// Size of the displacement between the fracture faces that is left without load, by slip of clamps, at the fracture where it is
    /// greatest; null when the path is not complete.
    /// </summary>
    public double? SetMm { get; init; }

    /// <summary>What the load would leave if it came off just before the model ends; null when the path is complete or that cannot be told.</summary>
    public OverloadSet? SetBefore { get; init; }

    /// <summary>What this path rests on beside the assumptions of the case.</summary>
    public required ImmutableArray<string> Assumptions { get; init; }
}

/// <summary>One of several fractures along an overload path.</summary>
/// <param name="LevelMm">Its level.</param>
/// <param name="Path">The path's corners at this fracture.</param>
/// <param name="SetMm">Size of the displacement between its faces that is left without load; null when the path is not complete.</param>
public sealed record OverloadFracture(double LevelMm, ImmutableArray<OverloadPoint> Path, double? SetMm);

/// <summary>What a lesser load leaves, taken off before the path passes what the model can carry.</summary>
/// <param name="LoadN">The axial load from which it is taken off.</param>
/// <param name="SetMm">Size of the displacement between the fracture faces that is left, by slip of clamps, where it is greatest.</param>
/// <param name="Message">The same in a sentence.</param>
public sealed record OverloadSet(double LoadN, double SetMm, string Message);

/// <summary>What happens at an event of an overload path.</summary>
public enum OverloadEventKind
{
    /// <summary>The bone ends touch, or come apart again.</summary>
    Contact,

    /// <summary>A clamp begins to slip, or a loose one runs free.</summary>
    Slip,

    /// <summary>A pin or rod reaches its limit stress.</summary>
    Yield,

    /// <summary>A pin's pressure on a cortex reaches the bone's strength.</summary>
    Bearing,

    /// <summary>A loose clamp reaches a stop of its slide, or leaves it again.</summary>
    Stop,
}

/// <summary>An event of an overload path.</summary>
/// <param name="LoadN">The axial load at which it happens.</param>
/// <param name="Kind">What kind it is of.</param>
/// <param name="Part">Id of the clamp, pin or rod; fracture for the bone ends, with its number from proximal when there are several.</param>
/// <param name="Message">What happens, in a sentence.</param>
/// <param name="OnWayBack">True when it happens as the load comes off.</param>
public sealed record OverloadEvent(double LoadN, OverloadEventKind Kind, string Part, string Message, bool OnWayBack);

/// <summary>The fracture at a corner of an overload path: proximal face less distal face at the middle of the gap.</summary>
/// <param name="LoadN">Axial load.</param>
/// <param name="AxialMm">Along the bone's axis; closing is negative.</param>
/// <param name="ShearMm">Size of the motion within the fracture plane.</param>
/// <param name="TiltDeg">Size of the rotation about axes across the bone.</param>
/// <param name="TwistDeg">Rotation about the bone's axis.</param>
/// <param name="FrameShare">Share of the load that passes through the frame at the fracture; null without load.</param>
public sealed record OverloadPoint(double LoadN, double AxialMm, double ShearMm, double TiltDeg, double TwistDeg, double? FrameShare);
