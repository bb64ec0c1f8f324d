using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Dynamisation;

/// <summary>
/// Tries every set of a frame's pin clamps and finds those whose loosening frees the fracture along the axis and in nothing else that a
/// stiffness is reported for, or, when a travel is asked for, those that give it under the chosen load and free nothing else; keeping most
/// in the worst kept of bending and torsion. Of several fractures the one that keeps least counts, and the one that closes most.
/// </summary>
/// <param name="analyser">An analyser for the case.</param>
/// <param name="load">The chosen load.</param>
/// <param name="freeMm">The axial travel asked for, or null.</param>
/// <param name="watch">Who follows the search.</param>
internal sealed class LooseningSearch(FrameAnalyser analyser, EndLoad load, double? freeMm, SearchWatch watch)
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
    /// <param name="stiffness">Its stiffness as mounted, at each fracture.</param>
    /// <returns>The best sets, and what was looked at.</returns>
    public (LooseningSearched Searched, ImmutableArray<LooseningProposal> Best) Of(string frame, Parts mounted, ImmutableArray<FourStiffnesses> stiffness)
    {
        string[] clamps = [.. mounted.Clamps.Where(c => c is { Pin: not null, State: ClampState.Tight }).Select(c => c.Id)];
        if (clamps.Length > MostClamps)
        {
            return (new(frame, clamps.Length, 0, $"No search: {clamps.Length} pin clamps are more than the {MostClamps} whose sets are all tried."), []);
        }

        if (freeMm is not null && load.Fz >= 0)
        {
            return (new(frame, clamps.Length, 0, "No search: a travel is asked for, but the case chooses no axial load to give it. Set loading.allowedKg or grade."), []);
        }

        List<LooseningProposal> found = [];
        int withheld = 0, tried = (1 << clamps.Length) - 1;
        for (int set = 1; set <= tried; set++)
        {
            watch.Tell((double)set / tried);
            string[] loose = [.. clamps.Where((_, i) => (set >> i & 1) != 0)];
            Parts parts = mounted with { Clamps = [.. mounted.Clamps.Select(c => loose.Contains(c.Id) ? c with { State = ClampState.Loose } : c)] };
            if (analyser.Analyse(parts) != AnalysisStatus.Ok || FreesMoreThanTheAxis() || (freeMm is null && !analyser.Freedoms.WorksOn(Axial)))
            {
                continue;
            }

            double? closing = freeMm is null ? null : ClosingMm(parts);
            withheld += closing is double.NaN ? 1 : 0;
            if (!(closing < freeMm) && closing is not double.NaN)
            {
                KeptStiffness kept = stiffness.Select((s, f) => DynamisationAssessor.Kept(s, StiffnessReadout.AtFracture(analyser, f))).MinBy(k => k.LeastShare())!;
                found.Add(new(frame, [.. loose], kept, closing));
            }
        }

        return (new(frame, clamps.Length, tried, Outcome(found.Count, tried, withheld)),
            [.. found.OrderByDescending(p => Math.Round(p.Kept.LeastShare() / Alike)).ThenBy(p => p.Clamps.Length).ThenBy(p => string.Join(' ', p.Clamps), StringComparer.Ordinal).Take(Proposals)]);
    }

    private string Outcome(int found, int tried, int withheld)
    {
        string does = freeMm is double mm
            ? string.Create(CultureInfo.InvariantCulture, $"close the gap by {mm:0.##} mm or more under the chosen load and free nothing but the axis")
            : "free the axis alone";
        string without = withheld == 0 ? "" : $" {withheld} more run beyond what the model describes under it: nothing stops them, or a part turns too far.";
        return found == 0
            ? $"None of the {tried} sets of its pin clamps {(freeMm is null ? "frees the axis alone" : does.Replace("close ", "closes ", StringComparison.Ordinal).Replace("and free ", "and frees ", StringComparison.Ordinal))}.{without}"
            : $"{found} of the {tried} sets of its pin clamps {does}{(without.Length == 0 ? "; " : "." + without + " ")}{(without.Length == 0 ? "those" : "Those")} that keep most first:";
    }

    private bool FreesMoreThanTheAxis() => Enumerable.Range(Axial + 1, 3).Any(analyser.Freedoms.WorksOn);

    // Not a number where the model gives no answer.
    private double ClosingMm(Parts parts)
    {
        if (LoadedFrame.Of(analyser, parts) is not LoadedFrame frame)
        {
            return double.NaN;
        }

        SiteState state = frame.Contact.Under(load);
        return frame.ReasonToWithhold(state) is null
            ? Enumerable.Range(0, frame.Motions.Length).Max(f => -state.FacesAt(f).TranslationMm.Z)
            : double.NaN;
    }
}
