using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>A fracture between two fragments.</summary>
public sealed record Fracture
{
    [Field("Middle of the gap, from the proximal joint line along the axis.", Min = 0, Max = 600)]
    public required double LevelMm { get; init; }

    [Field("Gap between the faces along the axis.", Min = 0, Max = 150)]
    public required double GapMm { get; init; }

    [Field("Pattern of the fracture.")]
    public required FracturePattern Pattern { get; init; }

    [Field("Tilt of the fracture plane from transverse.", Min = 0, Max = 80)]
    public double TiltDeg { get; init; }

    [Field("Azimuth toward which the fracture plane slopes down (distally).", Min = -180, Max = 180)]
    public double TiltAzimuthDeg { get; init; }

    [Field("Whether the ends can come to bear on each other; false when they never touch.")]
    public bool Contact { get; init; } = true;
}

/// <summary>Pattern of a fracture.</summary>
public enum FracturePattern
{
    Transverse,
    Oblique,
    Spiral,
    Comminuted,
}
