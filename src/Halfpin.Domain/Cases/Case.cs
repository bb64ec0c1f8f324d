using System.Collections.Immutable;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Materials;
using Halfpin.Domain.Modelling;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>A limb with its injury and the frames considered for it: the content of a case file.</summary>
public sealed record Case
{
    /// <summary>The word that marks a case file.</summary>
    public const string FormatName = "halfpin-case";

    /// <summary>The version of the format this program writes and the newest it reads.</summary>
    public const int CurrentFormatVersion = 1;

    /// <summary>Most fractures of one bone.</summary>
    public const int MaxFractures = 4;

    [Field("Marks the file as a Halfpin case; always halfpin-case.")]
    public required string Format { get; init; }

    [Field("Version of the case format.", Min = 1, Max = CurrentFormatVersion)]
    public required int FormatVersion { get; init; }

    [Field("A title for lists and reports. No patient's name.", Max = 200)]
    public required string Title { get; init; }

    [Field("The injured limb.")]
    public required Limb Limb { get; init; }

    [Field("The fractures, from proximal, each with a gap of its own; bone between two of them is a fragment.", Min = 1, Max = MaxFractures)]
    public required ImmutableArray<Fracture> Fractures { get; init; }

    [Field("Areas of open or endangered skin.", Max = 20)]
    public ImmutableArray<Wound> Wounds { get; init; } = [];

    [Field("Incisions that later surgery will need.", Max = 20)]
    public ImmutableArray<PlannedIncision> PlannedIncisions { get; init; } = [];

    [Field("What the frame is for.")]
    public Purpose Purpose { get; init; } = Purpose.Temporary;

    [Field("The load the surgeon chooses to look at. Halfpin never issues an allowed load.")]
    public Loading Loading { get; init; } = new();

    [Field("The frames to assess and compare.", Min = 1, Max = 200)]
    public required ImmutableArray<Frame> Frames { get; init; }

    [Field("Changes to mounted frames, in their order.", Max = 100)]
    public ImmutableArray<Stage> Stages { get; init; } = [];

    [Field("What was seen of the fracture and the pins so far.")]
    public Progress Progress { get; init; } = new();

    [Field("Materials beyond the built-in ones, or in their place.", Max = 50)]
    public ImmutableArray<Material> Materials { get; init; } = [];

    [Field("What a suggested frame must meet, where it is not what the purpose asks for.")]
    public Requirements Requirements { get; init; } = new();

    [Field("Where a frame is looked for that is to be suggested.")]
    public SearchSpace Search { get; init; } = new();

    [Field("Modelling assumptions that differ from the defaults.")]
    public ModelOptions Model { get; init; } = new();

    [Field("The course of healing to look at.")]
    public HealingPlan Healing { get; init; } = new();

    [Field("Why a frame is used now: the indication.")]
    public Indication? Indication { get; init; }

    [Field("Uncertain inputs that differ from the defaults.", Max = 100)]
    public ImmutableArray<UncertainInput> Uncertainty { get; init; } = [];

    /// <summary>The case's free notes as lines of text; no member of the format, which lets notes be anything.</summary>
    public ImmutableArray<string> Notes { get; init; } = [];
}

/// <summary>What a frame is for.</summary>
public enum Purpose
{
    /// <summary>Holds the limb until definitive fixation.</summary>
    Temporary,

    /// <summary>Stays until the fracture has healed.</summary>
    Definitive,
}
