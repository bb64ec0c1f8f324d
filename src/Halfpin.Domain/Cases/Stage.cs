using System.Collections.Immutable;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>A change to a mounted frame on the way to its removal. Stages of a frame follow each other: each changes what the one before left.</summary>
public sealed record Stage
{
    [Field("Name for commands and references.", IsId = true)]
    public required string Id { get; init; }

    [Field("Name for people; the id when left out.", Max = 120)]
    public string? Name { get; init; }

    [Field("The frame it changes.", IsId = true)]
    public required string Frame { get; init; }

    [Field("Clamps that are loosened on their rod.", Max = 200)]
    public ImmutableArray<string> Loosen { get; init; } = [];

    [Field("What limits the slide of clamps that are loose, in place of what they had.", Max = 200)]
    public ImmutableArray<ClampSlide> Slides { get; init; } = [];

    [Field("Clamps that are tightened again.", Max = 200)]
    public ImmutableArray<string> Tighten { get; init; } = [];

    [Field("Pins, rods or clamps that are taken away; the clamps of a pin or rod go with it.", Max = 200)]
    public ImmutableArray<string> Remove { get; init; } = [];

    [Field("Rods that are set at another distance.", Max = 40)]
    public ImmutableArray<RodMove> Move { get; init; } = [];

    /// <summary>Name for people.</summary>
    public string DisplayName => Name ?? Id;
}

/// <summary>A rod that is moved.</summary>
public sealed record RodMove
{
    [Field("The rod.", IsId = true)]
    public required string Rod { get; init; }

    [Field("Its new distance from the bone's surface at both given points.", Min = 5, Max = 250)]
    public required double StandoffMm { get; init; }
}

/// <summary>What limits the slide of a loose clamp.</summary>
public sealed record ClampSlide
{
    [Field("The clamp.", IsId = true)]
    public required string Clamp { get; init; }

    [Field("Free travel along its rod, either way, before it holds. Without it nothing stops it.", Min = 0, Max = 100)]
    public double? SlideStopMm { get; init; }

    [Field("Whether it slides only so that its fragment comes nearer to the fracture.")]
    public bool OneWay { get; init; }

    [Field("Constant force that its slide takes.", Min = 0, Max = 2000)]
    public double SlideFrictionN { get; init; }
}

/// <summary>What was seen of the fracture and the pins; what is left out counts as not recorded.</summary>
public sealed record Progress
{
    [Field("The fracture is axially stable, its ends in contact.")]
    public bool? EndsInContact { get; init; }

    [Field("Bone is missing.")]
    public bool? BoneLoss { get; init; }

    [Field("Callus is seen.")]
    public bool? CallusSeen { get; init; }

    [Field("The pin sites.")]
    public PinSiteState? PinSites { get; init; }
}

/// <summary>How pin sites look.</summary>
public enum PinSiteState
{
    Calm,
    Irritated,
    Infected,
}
