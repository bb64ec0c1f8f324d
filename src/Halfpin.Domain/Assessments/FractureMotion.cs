namespace Halfpin.Domain.Assessments;

/// <summary>Motion of the proximal against the distal face at the middle of the gap.</summary>
public sealed record FractureMotion
{
    /// <summary>Axial load.</summary>
    public required double LoadN { get; init; }

    /// <summary>Along the axis; negative when the gap closes.</summary>
    public required double AxialMm { get; init; }

    /// <summary>Size of the motion within the fracture plane.</summary>
    public required double ShearMm { get; init; }

    /// <summary>Size of the rotation about axes across the bone.</summary>
    public required double TiltDeg { get; init; }

    /// <summary>Rotation about the bone's axis; positive when the proximal face turns from anterior to medial.</summary>
    public required double TwistDeg { get; init; }

    /// <summary>Closing of the gap at the cortex toward the rods.</summary>
    public required double ClosingNearMm { get; init; }

    /// <summary>Closing at the opposite cortex.</summary>
    public required double ClosingFarMm { get; init; }

    /// <summary>Largest closing or opening on the cortical ring as a share of the gap; null at gap 0.</summary>
    public required double? StrainPercent { get; init; }

    /// <summary>True when the ends bear on each other somewhere on the cortical ring.</summary>
    public required bool EndsTouch { get; init; }

    /// <summary>
    /// Share of the axial load that passes through the frame at the fracture; 1 over an open gap, below 0 where the frame pulls the
    /// ends together. Null without axial load.
    /// </summary>
    public double? FrameShare { get; init; }

    /// <summary>How much of the cortical ring bears.</summary>
    public RingBearing Bearing { get; init; }

    /// <summary>Where the shortest arc that holds all bearing points begins, with rising azimuth; null unless part of the ring bears. Both ends
    /// are the same where a single point does.</summary>
    public double? BearingFromDeg { get; init; }

    /// <summary>Where that arc ends.</summary>
    public double? BearingToDeg { get; init; }
}

/// <summary>How much of the cortical ring bears on the other fragment.</summary>
public enum RingBearing
{
    None,
    Part,
    All,
}
