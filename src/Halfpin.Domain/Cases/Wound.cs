using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>An area of skin by level and azimuth.</summary>
public record Wound
{
    [Field("Proximal edge.", Min = 0, Max = 600)]
    public required double FromLevelMm { get; init; }

    [Field("Distal edge.", Min = 0, Max = 600)]
    public required double ToLevelMm { get; init; }

    [Field("First edge round the limb; the area runs from here with rising azimuth.", Min = -180, Max = 180)]
    public required double FromAzimuthDeg { get; init; }

    [Field("Second edge round the limb.", Min = -180, Max = 180)]
    public required double ToAzimuthDeg { get; init; }
}

/// <summary>The area of an incision that later surgery will need.</summary>
public sealed record PlannedIncision : Wound
{
    [Field("What the incision is for.")]
    public required IncisionPurpose For { get; init; }
}

/// <summary>What a later incision is for.</summary>
public enum IncisionPurpose
{
    Fasciotomy,
    Flap,
    Plate,
    Nail,
}
