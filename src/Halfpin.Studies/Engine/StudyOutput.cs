using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Variants;

namespace Halfpin.Studies.Engine;

/// <summary>A result that studies follow.</summary>
/// <param name="Name">Its name, which ends in its unit; a utilisation is a share of a limit.</param>
/// <param name="Read">Reads it; null when the variant has none.</param>
/// <param name="IsStiffness">True for a stiffness, by which frames are ranked.</param>
public sealed record StudyOutput(string Name, Func<VariantResult, double?> Read, bool IsStiffness = false)
{
    /// <summary>What is followed in a case: stiffness always; motion, tilt and utilisation when it chooses a load. At the first fracture of several.</summary>
    public static ImmutableArray<StudyOutput> Of(Case value) => value.Loading.IsChosen ? [.. _stiffness, .. _loaded, _first] : [.. _stiffness, _first];

    private static readonly ImmutableArray<StudyOutput> _stiffness =
    [
        new("axialNPerMm", r => r.Stiffness?.AxialNPerMm, true),
        new("apBendingNmPerDeg", r => r.Stiffness?.ApBendingNmPerDeg, true),
        new("mlBendingNmPerDeg", r => r.Stiffness?.MlBendingNmPerDeg, true),
        new("torsionNmPerDeg", r => r.Stiffness?.TorsionNmPerDeg, true),
    ];

    private static readonly ImmutableArray<StudyOutput> _loaded =
    [
        new("axialMm", r => r.Motion is { } m ? Math.Abs(m.AxialMm) : null),
        new("shearMm", r => r.Motion?.ShearMm),
        new("tiltDeg", r => r.Motion?.TiltDeg),
        new("worstUtilisation", r => r.WorstUtilisation),
    ];

    private static readonly StudyOutput _first = new("firstLimitKg", r => r.FirstLimitKg);
}
