using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>How the assessment of a frame ended.</summary>
public enum FrameStatus
{
    /// <summary>All results are there.</summary>
    Ok,

    /// <summary>Something moves freely: no stiffness, motion or utilisation.</summary>
    Mechanism,

    /// <summary>The load takes the frame beyond what the model describes: stiffness only.</summary>
    OutOfRange,

    /// <summary>The frame cannot be analysed for another reason.</summary>
    Invalid,
}

/// <summary>What the program found for one frame.</summary>
public sealed record FrameAssessment
{
    public required string Id { get; init; }

    public required string Name { get; init; }

    public required FrameStatus Status { get; init; }

    /// <summary>Why results are missing; null when none are.</summary>
    public Diagnosis? Diagnosis { get; init; }

    /// <summary>Directions in which loose clamps let the fragments move as intended.</summary>
    public ImmutableArray<string> Freedoms { get; init; } = [];

    /// <summary>Stiffness at the fracture, the first of several, and at the load.</summary>
    public FrameStiffness? Stiffness { get; init; }

    /// <summary>How far the least certain inputs move the results; null when the case sets them all itself.</summary>
    public ResultBand? Band { get; init; }

    public SiteStiffness? SiteStiffness { get; init; }

    public BendingRose? BendingRose { get; init; }

    /// <summary>Motion at the fracture, the first of several, under the chosen load.</summary>
    public FractureMotion? Motion { get; init; }

    /// <summary>Motion under the chosen load plus the published overshoot.</summary>
    public FractureMotion? OverloadMotion { get; init; }

    /// <summary>How the bone ends come to bear on each other.</summary>
    public BoneContact? Contact { get; init; }

    /// <summary>Each fracture by itself, from proximal, when there are several; empty for one. The members above speak of the first.</summary>
    public ImmutableArray<FractureResult> Fractures { get; init; } = [];

    /// <summary>The frame through a step; null when no table of gait was given.</summary>
    public GaitResult? Gait { get; init; }

    /// <summary>How near each part is to its limits under the chosen load.</summary>
    public ImmutableArray<UtilisationEntry> Utilisation { get; init; } = [];

    /// <summary>
    /// What reaches its limit first as an axial load grows from nil over an open gap; null where it slides as intended or loose clamps have
    /// stops or friction.
    /// </summary>
    public FirstLimit? FirstLimit { get; init; }

    /// <summary>
    /// Axial load from which steps repeated ten million times pass a pin's fatigue limit over the thread factor; null when no pin's material has one.
    /// </summary>
    public FirstLimit? FatigueFrom { get; init; }

    /// <summary>Life of the pins under the chosen load; null when none is chosen or it is withheld.</summary>
    public FatigueLife? Fatigue { get; init; }

    /// <summary>Internal forces along every part under the chosen load.</summary>
    public ImmutableArray<PartForces> InternalForces { get; init; } = [];

    public ImmutableArray<Check> Checks { get; init; } = [];

    public required Kit Kit { get; init; }
}

/// <summary>Why results are missing.</summary>
/// <param name="Message">A plain sentence or more.</param>
/// <param name="Parts">Ids of the parts concerned.</param>
/// <param name="Try">What to try.</param>
public sealed record Diagnosis(string Message, ImmutableArray<string> Parts, string Try);

/// <summary>Counts of parts; rods and clamps include cross-links and theirs. Clamps that are off do not count.</summary>
public sealed record Kit(int Pins, int Rods, int Clamps);
