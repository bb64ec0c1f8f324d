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

    /// <summary>True when the ends come to touch somewhere on the cortical ring.</summary>
    public required bool EndsTouch { get; init; }
}
