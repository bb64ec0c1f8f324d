using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>A frame through a step, phase by phase, with contact in force; which phase is the worst of those that have an answer.</summary>
public sealed record GaitResult
{
    /// <summary>The phases in the order of the table.</summary>
    public required ImmutableArray<GaitPhaseResult> Phases { get; init; }

    /// <summary>Phases whose answer is withheld: any of them may be worse than those named below.</summary>
    public required int WithheldPhases { get; init; }

    /// <summary>The phase with most motion along the axis; null when all are withheld.</summary>
    public GaitWorstMotion? WorstAxial { get; init; }

    /// <summary>The phase with most motion within the fracture plane.</summary>
    public GaitWorstMotion? WorstShear { get; init; }

    /// <summary>The phase that brings a part nearest to a limit, or farthest past it.</summary>
    public GaitNearestLimit? NearestLimit { get; init; }
}

/// <summary>A frame at a phase of gait.</summary>
public sealed record GaitPhaseResult
{
    /// <summary>The phase as the table names it.</summary>
    public required string Phase { get; init; }

    /// <summary>Why the answer is withheld; null when it is not.</summary>
    public Diagnosis? Diagnosis { get; init; }

    /// <summary>Motion at each fracture, from proximal; empty when withheld.</summary>
    public ImmutableArray<FractureMotion> Motions { get; init; } = [];

    /// <summary>How near each part is to its limits, the nearest first; empty when withheld.</summary>
    public ImmutableArray<UtilisationEntry> Utilisation { get; init; } = [];
}

/// <summary>Where and when a motion is largest.</summary>
/// <param name="Phase">The phase; of equals the first.</param>
/// <param name="Fracture">Number of the fracture, from 1.</param>
/// <param name="SizeMm">Size of the motion, without sign.</param>
public sealed record GaitWorstMotion(string Phase, int Fracture, double SizeMm);

/// <summary>When a part is nearest to a limit.</summary>
/// <param name="Phase">The phase; of equals the first.</param>
/// <param name="Limit">The part and its limit.</param>
public sealed record GaitNearestLimit(string Phase, UtilisationEntry Limit);
