using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Stability.Variants;

/// <summary>One of many frames to assess: a case with its numbers, the parts that stand in it, and what no member of a case tells.</summary>
/// <param name="Case">The case; of its frames only the parts beside it count.</param>
/// <param name="Parts">The parts, within the ranges of their members.</param>
public sealed record FrameVariant(Case Case, Parts Parts)
{
    /// <summary>Both moduli of the bone's wall as a multiple of the model's.</summary>
    public double BoneModuliShare { get; init; } = 1;

    /// <summary>Thickness of an anatomical bone's wall as a multiple of the model's, within the bounds of <see cref="AnatomicalBone"/>.</summary>
    public double BoneWallShare { get; init; } = 1;
}

/// <summary>What is found at one of several fractures.</summary>
/// <param name="LevelMm">Middle of its gap.</param>
/// <param name="Stiffness">Stiffness at it.</param>
/// <param name="Motion">Motion at it under the chosen load; null when none is chosen or it is withheld.</param>
public sealed record VariantFracture(double LevelMm, FourStiffnesses Stiffness, FractureMotion? Motion);

/// <summary>What an assessment finds for one variant, without the words that only a reader of one frame needs.</summary>
public sealed record VariantResult
{
    /// <summary>How the assessment ended.</summary>
    public required FrameStatus Status { get; init; }

    /// <summary>Why results are missing; null when none are.</summary>
    public string? Reason { get; init; }

    /// <summary>Stiffness at the fracture, the first of several; null when the frame cannot be analysed.</summary>
    public FourStiffnesses? Stiffness { get; init; }

    /// <summary>Motion at the fracture under the chosen load, the first of several; null when none is chosen or it is withheld.</summary>
    public FractureMotion? Motion { get; init; }

    /// <summary>What is found at each of several fractures, from proximal; empty with one, and when the frame cannot be analysed.</summary>
    public ImmutableArray<VariantFracture> Fractures { get; init; } = [];

    /// <summary>The greatest demand on a pin, rod, clamp or cortex under the chosen load, 1 at the limit; fatigue is left out. Null like the motion.</summary>
    public double? WorstUtilisation { get; init; }

    /// <summary>Axial load at which the first limit is met; null along a freedom.</summary>
    public double? FirstLimitKg { get; init; }

    /// <summary>The worst verdict of each rule that applies.</summary>
    public ImmutableArray<CheckVerdict> Verdicts { get; init; } = [];
}
