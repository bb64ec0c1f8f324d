using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>
/// How the bone ends come to bear on each other as the load grows. The load looked at is the chosen one grown in proportion; without
/// compression in it, compression alone.
/// </summary>
public sealed record BoneContact
{
    /// <summary>Axial load at the first touch; 0 where nothing keeps the ends apart, null when they never touch within the range of the model.</summary>
    public double? FirstTouchN { get; init; }

    /// <summary>The same as a reading on a scale.</summary>
    public double? FirstTouchKg { get; init; }

    /// <summary>Where on the cortical ring they touch first; of several points together, the one pressed hardest later.</summary>
    public double? FirstTouchAzimuthDeg { get; init; }

    /// <summary>
    /// Axial load over axial closing at the fracture before the touch: 0 for a frame that slides, null when the load opens the gap. For
    /// loose clamps with stops, one way or friction that of the last of <see cref="Steps"/>; null when there is no touch and more than one.
    /// </summary>
    public double? AxialBeforeNPerMm { get; init; }

    /// <summary>
    /// Tangent axial stiffness at the fracture at full bearing, the value to which it rises as the load grows: slides with
    /// stops are then held by them, and friction counts for nothing. Null without touch.
    /// </summary>
    public double? AxialAfterNPerMm { get; init; }

    /// <summary>
    /// For loose clamps with stops, one way or friction, the stretches of the growing load over which the frame alone answers in
    /// proportion, up to the first touch of any ends or as far as the model reaches; else empty.
    /// </summary>
    public ImmutableArray<AxialStep> Steps { get; init; } = [];

    /// <summary>Frame and bone under the chosen load; null when withheld.</summary>
    public ContactAtLoad? AtChosenLoad { get; init; }

    /// <summary>Frame and bone in the overload case; null when withheld.</summary>
    public ContactAtLoad? AtOverload { get; init; }

    /// <summary>
    /// The part's limit or end of the range that comes next when the ends have touched and the load grows on; null when a limit came
    /// before, or none comes up to 300 kg.
    /// </summary>
    public FirstLimit? LimitAfterTouch { get; init; }
}

/// <summary>A stretch of a growing load over which the same loose clamps are held.</summary>
/// <param name="FromN">Axial load at which it begins.</param>
/// <param name="AxialNPerMm">Axial load over axial closing at the fracture on it; null when the gap opens.</param>
/// <param name="Held">Loose clamps that do not slide on it: on a stop, at the end of their one way or held by friction.</param>
/// <param name="Message">The same in words.</param>
public sealed record AxialStep(double FromN, double? AxialNPerMm, ImmutableArray<string> Held, string Message);

/// <summary>Who carries an axial load, and how far the ends slide on each other.</summary>
/// <param name="LoadN">Axial load.</param>
/// <param name="FrameShare">Share that passes through the frame at the fracture; null without axial load.</param>
/// <param name="SlidingMm">Motion within the fracture plane since the load was nil.</param>
public sealed record ContactAtLoad(double LoadN, double? FrameShare, double SlidingMm);
