using System.Collections.Immutable;
using Halfpin.Domain.Modelling;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Frames;

/// <summary>Every part of a frame.</summary>
public sealed record Parts
{
    [Field("The half-pins.", Min = 1, Max = 60)]
    public required ImmutableArray<Pin> Pins { get; init; }

    [Field("The rods, cross-links among them.", Max = 40)]
    public required ImmutableArray<Rod> Rods { get; init; }

    [Field("The clamps.", Max = 200)]
    public required ImmutableArray<Clamp> Clamps { get; init; }

    /// <summary>Number of a pin; −1 for none of the name.</summary>
    public int PinIndex(string? id)
    {
        for (int i = 0; i < Pins.Length; i++)
        {
            if (Pins[i].Id == id)
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>Number of a rod; −1 for none of the name.</summary>
    public int RodIndex(string? id)
    {
        for (int i = 0; i < Rods.Length; i++)
        {
            if (Rods[i].Id == id)
            {
                return i;
            }
        }

        return -1;
    }
}

/// <summary>A half-pin whose axis crosses the bone's axis.</summary>
public sealed record Pin
{
    [Field("Name of the pin.", IsId = true)]
    public required string Id { get; init; }

    [Field("Level at which it crosses the bone's axis.", Min = 0, Max = 600)]
    public required double LevelMm { get; init; }

    [Field("Direction in which it leaves the bone.", Min = -180, Max = 180)]
    public required double AzimuthDeg { get; init; }

    [Field("Tilt from transverse; positive when its outer end lies more proximal.", Min = -45, Max = 45)]
    public double TiltDeg { get; init; }

    [Field("Shank diameter.", Min = 1.5, Max = 8)]
    public required double DiameterMm { get; init; }

    [Field("Material.", IsId = true)]
    public required string Material { get; init; }

    [Field("Core diameter of the thread; thread bends with its core. Absent: the shank's diameter throughout.", Min = 1, Max = 8)]
    public double? CoreDiameterMm { get; init; }

    [Field("Length of the thread from the tip.", Min = 5, Max = 200)]
    public double? ThreadLengthMm { get; init; }

    [Field("Whole length.", Min = 30, Max = 400)]
    public double? LengthMm { get; init; }

    [Field("How far the tip stands beyond the far surface; negative when it ends within the far cortex.", Min = -10, Max = 40)]
    public double TipBeyondMm { get; init; }

    [Field("Kind of tip.")]
    public PinTip? Tip { get; init; }

    [Field("How this pin is held in the bone, when not as the case's model says.")]
    public PinFixity? Fixity { get; init; }
}

/// <summary>Kind of tip.</summary>
public enum PinTip
{
    SelfDrilling,
    Predrilled,
}

/// <summary>A straight rod.</summary>
public sealed record Rod
{
    [Field("Name of the rod.", IsId = true)]
    public required string Id { get; init; }

    [Field("Outer diameter.", Min = 3, Max = 20)]
    public required double DiameterMm { get; init; }

    [Field("Inner diameter of a hollow rod.", Min = 0, Max = 19)]
    public double InnerDiameterMm { get; init; }

    [Field("Material.", IsId = true)]
    public required string Material { get; init; }

    [Field("One end of its axis.")]
    public required RodPoint From { get; init; }

    [Field("The other end of its axis.")]
    public required RodPoint To { get; init; }

    [Field("How far the rod runs on beyond both given points.", Min = 0, Max = 200)]
    public double OverhangMm { get; init; }

    [Field("Whole length; from the given points and the overhang when left out.", Min = 20, Max = 700)]
    public double? LengthMm { get; init; }
}

/// <summary>A point of a rod's axis, by its distance from the bone's surface or from the bone's axis.</summary>
public sealed record RodPoint
{
    [Field("Level.", Min = -100, Max = 700)]
    public required double LevelMm { get; init; }

    [Field("Azimuth.", Min = -180, Max = 180)]
    public required double AzimuthDeg { get; init; }

    [Field("Distance from the bone's surface at that level and azimuth. Give this or the radius.", Min = 0, Max = 300)]
    public double? StandoffMm { get; init; }

    [Field("Distance from the bone's axis. Give this or the standoff.", Min = 0, Max = 350)]
    public double? RadiusMm { get; init; }
}

/// <summary>A clamp between a pin and a rod, or between two rods, at the nearest points of their axes.</summary>
public sealed record Clamp
{
    [Field("Name of the clamp.", IsId = true)]
    public required string Id { get; init; }

    [Field("The pin it holds. Give this or otherRod.", IsId = true)]
    public string? Pin { get; init; }

    [Field("The rod it holds; a loose clamp slides along this rod and turns about it.", IsId = true)]
    public required string Rod { get; init; }

    [Field("The other rod of a rod-to-rod clamp. Give this or pin.", IsId = true)]
    public string? OtherRod { get; init; }

    [Field("Whether it grips.")]
    public ClampState State { get; init; } = ClampState.Tight;

    [Field("Free travel of a loose clamp along its rod, either way, before it holds. Without it nothing stops it.", Min = 0, Max = 100)]
    public double? SlideStopMm { get; init; }

    [Field("Whether a loose clamp slides only so that its fragment comes nearer to the fracture, never back.")]
    public bool OneWay { get; init; }

    [Field("Constant force that a loose clamp's slide takes. None is published; 0 and 50 N are two bounds (MEMORY lo).", Min = 0, Max = 2000)]
    public double SlideFrictionN { get; init; }

    /// <summary>True for a loose clamp whose slide is limited in any way.</summary>
    public bool IsLimitedSlide() => State == ClampState.Loose && (SlideStopMm is not null || OneWay || SlideFrictionN > 0);

    [Field("Whether it can be put on a rod that is already mounted.")]
    public bool OpenSided { get; init; }

    [Field("Length over which the clamp's body holds the pin rigidly, centred on the rod's axis.", Min = 0, Max = 60)]
    public double BodyLengthMm { get; init; }

    [Field("How this clamp yields, when not as the case's model says.")]
    public ClampModel? Model { get; init; }
}

/// <summary>Whether a clamp grips.</summary>
public enum ClampState
{
    /// <summary>Holds in every direction.</summary>
    Tight,

    /// <summary>Slides along its rod and turns about it.</summary>
    Loose,

    /// <summary>Is not there.</summary>
    Off,
}
