using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Variants;

namespace Halfpin.Studies.Engine;

/// <summary>A result that studies follow.</summary>
/// <param name="Name">Its name, which ends in its unit, or in its unit and its fracture; a utilisation is a share of a limit.</param>
/// <param name="Read">Reads it; null when the variant has none.</param>
/// <param name="IsStiffness">True for a stiffness, by which frames are ranked.</param>
public sealed record StudyOutput(string Name, Func<VariantResult, double?> Read, bool IsStiffness = false)
{
    private static readonly ImmutableArray<(string Name, Func<FourStiffnesses, double> Of)> _stiffness =
    [
        ("axialNPerMm", s => s.AxialNPerMm),
        ("apBendingNmPerDeg", s => s.ApBendingNmPerDeg),
        ("mlBendingNmPerDeg", s => s.MlBendingNmPerDeg),
        ("torsionNmPerDeg", s => s.TorsionNmPerDeg),
    ];

    private static readonly ImmutableArray<(string Name, Func<FractureMotion, double> Of)> _motion =
    [
        ("axialMm", m => Math.Abs(m.AxialMm)),
        ("shearMm", m => m.ShearMm),
        ("tiltDeg", m => m.TiltDeg),
    ];

    private static readonly StudyOutput _used = new("worstUtilisation", r => r.WorstUtilisation);
    private static readonly StudyOutput _first = new("firstLimitKg", r => r.FirstLimitKg);

    /// <summary>
    /// What is followed in a case: stiffness always; motion, tilt and utilisation when it chooses a load. At each of several fractures, and then of the whole frame.
    /// </summary>
    public static ImmutableArray<StudyOutput> Of(Case value)
    {
        bool loaded = value.Loading.IsChosen;
        IEnumerable<StudyOutput> at = value.Fractures.Length == 1
            ? At(n => n, r => r.Stiffness, r => r.Motion, loaded)
            : Enumerable.Range(0, value.Fractures.Length).SelectMany(i => At(n => ResultNames.Of(n, i + 1), r => In(r, i)?.Stiffness, r => In(r, i)?.Motion, loaded));
        return [.. at, .. loaded ? [_used] : Array.Empty<StudyOutput>(), _first];
    }

    private static IEnumerable<StudyOutput> At(Func<string, string> name, Func<VariantResult, FourStiffnesses?> stiffness, Func<VariantResult, FractureMotion?> motion, bool loaded) =>
    [
        .. _stiffness.Select(s => new StudyOutput(name(s.Name), r => stiffness(r) is FourStiffnesses four ? s.Of(four) : null, true)),
        .. loaded ? _motion.Select(m => new StudyOutput(name(m.Name), r => motion(r) is FractureMotion moved ? m.Of(moved) : null)) : [],
    ];

    private static VariantFracture? In(VariantResult result, int fracture) => result.Fractures.IsEmpty ? null : result.Fractures[fracture];
}
