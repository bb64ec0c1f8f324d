using System.Collections.Immutable;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>The load on a limb through a step, phase by phase: a table that the surgeon or teacher brings. Halfpin has none of its own.</summary>
/// <param name="Phases">The phases in their order, each with a name of its own.</param>
public sealed record Gait(ImmutableArray<GaitPhase> Phases);

/// <summary>
/// The load at a phase of gait: the wrench on the proximal end in limb axes, about the point where the bone's axis meets the proximal
/// joint line. A side is not told apart: y points medially on either leg.
/// </summary>
public sealed record GaitPhase
{
    [Field("Name of the phase, or percent of the step; each once.", Max = 60)]
    public required string Phase { get; init; }

    [Field("Force, anterior.", Min = -20_000, Max = 20_000)]
    public required double FxN { get; init; }

    [Field("Force, medial.", Min = -20_000, Max = 20_000)]
    public required double FyN { get; init; }

    [Field("Force, proximal: compression is negative.", Min = -20_000, Max = 20_000)]
    public required double FzN { get; init; }

    [Field("Moment about x: bends in the frontal plane.", Min = -2000, Max = 2000)]
    public required double MxNm { get; init; }

    [Field("Moment about y: bends in the sagittal plane.", Min = -2000, Max = 2000)]
    public required double MyNm { get; init; }

    [Field("Moment about z: torsion, positive from anterior to medial.", Min = -2000, Max = 2000)]
    public required double MzNm { get; init; }
}
