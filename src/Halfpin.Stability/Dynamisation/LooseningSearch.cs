using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Analysis;

namespace Halfpin.Stability.Dynamisation;

/// <summary>
/// Tries every set of a frame's pin clamps and finds those whose loosening frees the fracture along the axis and in nothing else that a
/// stiffness is reported for, keeping most in the worst kept of bending and torsion.
/// </summary>
internal sealed class LooseningSearch(FrameAnalyser analyser)
{
    /// <summary>Most clamps whose sets are all tried: a second's work.</summary>
    public const int MostClamps = 10;

    private const int Proposals = 3;
    private const int Axial = 2;

    // Sets that keep as much as each other but for rounding; of these the fewer clamps come first.
    private const double Alike = 1e-6;

    /// <summary>Searches a frame.</summary>
    /// <param name="frame">Id of the frame.</param>
    /// <param name="mounted">Its parts.</param>
    /// <param name="stiffness">Its stiffness as mounted.</param>
    /// <returns>The best sets, and what was looked at.</returns>
    public (LooseningSearched Searched, ImmutableArray<LooseningProposal> Best) Of(string frame, Parts mounted, FourStiffnesses stiffness)
    {
        string[] clamps = [.. mounted.Clamps.Where(c => c is { Pin: not null, State: ClampState.Tight }).Select(c => c.Id)];
        if (clamps.Length > MostClamps)
        {
            return (new(frame, clamps.Length, 0, $"No search: {clamps.Length} pin clamps are more than the {MostClamps} whose sets are all tried."), []);
        }

        List<LooseningProposal> found = [];
        for (int set = 1; set < 1 << clamps.Length; set++)
        {
            string[] loose = [.. clamps.Where((_, i) => (set >> i & 1) != 0)];
            Parts parts = mounted with { Clamps = [.. mounted.Clamps.Select(c => loose.Contains(c.Id) ? c with { State = ClampState.Loose } : c)] };
            if (analyser.Analyse(parts) == AnalysisStatus.Ok && FreesTheAxisAlone())
            {
                found.Add(new(frame, [.. loose], DynamisationAssessor.Kept(stiffness, StiffnessReadout.AtFracture(analyser))));
            }
        }

        int tried = (1 << clamps.Length) - 1;
        string message = found.Count == 0
            ? $"None of the {tried} sets of its pin clamps frees the axis alone."
            : $"{found.Count} of the {tried} sets of its pin clamps free the axis alone; those that keep most first:";
        return (new(frame, clamps.Length, tried, message),
            [.. found.OrderByDescending(p => Math.Round(Least(p.Kept) / Alike)).ThenBy(p => p.Clamps.Length).ThenBy(p => string.Join(' ', p.Clamps), StringComparer.Ordinal).Take(Proposals)]);
    }

    private static double Least(KeptStiffness k) => Math.Min(k.Ap, Math.Min(k.Ml, k.Torsion));

    private bool FreesTheAxisAlone() =>
        analyser.Freedoms.WorksOn(Axial) && !Enumerable.Range(Axial + 1, 3).Any(analyser.Freedoms.WorksOn);
}
