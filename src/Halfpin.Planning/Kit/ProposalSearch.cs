using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Stability;

namespace Halfpin.Planning.Kit;

/// <summary>
/// Looks for the nearest frame that a stock can build: with the fewest kinds of change; of those one that fails no more checks, that
/// loses least of any stiffness, to about a tenth, and whose stiffnesses then stay nearest to the first frame's.
/// </summary>
internal sealed class ProposalSearch(Case value, Frame frame, FrameAssessment before, Stock stock, ImmutableArray<Shortage> shortages)
{
    // Bounds on the work: kinds of change at once, frames tried, and frames assessed.
    private const int MostChanges = 3;
    private const int MostTried = 6000;
    private const int MostAssessed = 10;

    private static readonly ProgramStamp _nobody = new("", "");

    private readonly List<Candidate> _buildable = [];
    private readonly HashSet<int> _cured = [];
    private (ImmutableArray<FrameChange> Changes, ImmutableArray<Shortage> Lacks)? _nearMiss;
    private int _tried;
    private bool _toolsAside;

    /// <summary>The proposal, or what blocks one.</summary>
    public KitProposal Find()
    {
        Search();
        if (_buildable.Count == 0 && shortages.Any(s => s.Kind == KitKind.Tool) && !shortages.All(s => s.Kind == KitKind.Tool))
        {
            // Parts can be got round though tools cannot: what tools are missing still has to be fetched.
            (_toolsAside, _tried) = (true, 0);
            Search();
        }

        return _buildable.Count == 0 ? Blocked() : Nearest();
    }

    private void Search()
    {
        ImmutableArray<ImmutableArray<FrameChange>> kinds = FrameChanges.For(value, frame, stock);
        for (int changes = 1; changes <= MostChanges && _buildable.Count == 0; changes++)
        {
            Try([], kinds.AsSpan(), changes);
        }
    }

    // Changes of different kinds, each kind at most once; in each kind the smallest that serves is enough.
    private bool Try(ImmutableArray<FrameChange> chosen, ReadOnlySpan<ImmutableArray<FrameChange>> kinds, int more)
    {
        if (more == 0)
        {
            return Build(chosen);
        }

        bool any = false;
        for (int k = 0; k + more <= kinds.Length; k++)
        {
            foreach (FrameChange change in kinds[k])
            {
                bool built = Try(chosen.Add(change), kinds[(k + 1)..], more - 1);
                any |= built;
                if (built && change.IsAmount)
                {
                    break;
                }
            }
        }

        return any;
    }

    private bool Build(ImmutableArray<FrameChange> changes)
    {
        if (_tried >= MostTried)
        {
            return false;
        }

        _tried++;
        Draft? draft = FrameChanges.Apply(value, frame, changes);
        if (draft is null || !IsValid(draft.Parts))
        {
            return false;
        }

        FrameKit kit = FrameKit.Of(value, draft.Parts, stock, draft.TailMm);
        for (int i = 0; i < shortages.Length; i++)
        {
            if (!kit.Shortages.Any(s => Same(s, shortages[i])))
            {
                _cured.Add(i);
            }
        }

        if (kit.Shortages.Any(s => !_toolsAside || s.Kind != KitKind.Tool || !shortages.Any(o => Same(o, s))))
        {
            bool cures = !kit.Shortages.Any(s => shortages.Any(o => Same(s, o)));
            if (cures && (_nearMiss is null || kit.Shortages.Length < _nearMiss.Value.Lacks.Length))
            {
                _nearMiss = (changes, kit.Shortages);
            }

            return false;
        }

        Parts built = AsTaken(draft.Parts, kit);
        if (!IsValid(built))
        {
            return false;
        }

        _buildable.Add(new(changes, built));
        return true;
    }

    private static bool Same(Shortage a, Shortage b) => a.Kind == b.Kind && (a.Parts.IsEmpty ? a.Description == b.Description : a.Parts.Any(p => b.Parts.Contains(p)));

    private bool IsValid(Parts parts)
    {
        Case changed = value with { Frames = [new() { Id = frame.Id, Parts = parts }], Stages = [] };
        return parts.Pins.Length > 0 && !CaseValidity.Rules.SelectMany(rule => rule(changed)).Any();
    }

    // The frame as the stock's own parts make it: their thread, core, tip and length.
    private static Parts AsTaken(Parts parts, FrameKit kit) => parts with
    {
        Pins = [.. parts.Pins.Select(p => kit.Pins[p.Id] is var item ? p with
        {
            LengthMm = item.LengthMm,
            Tip = item.Tip,
            CoreDiameterMm = item.CoreDiameterMm,
            ThreadLengthMm = item.CoreDiameterMm is null ? null : item.ThreadLengthMm,
        } : p)],
        Rods = [.. parts.Rods.Select(r => r with { LengthMm = kit.Rods[r.Id].LengthMm })],
    };

    private KitProposal Nearest()
    {
        (Candidate Candidate, Frame Frame, FrameAssessment After)[] assessed = [.. _buildable.Take(MostAssessed).Select(c =>
        {
            Frame changed = new() { Id = frame.Id, Name = $"{frame.DisplayName}, as the stock allows", Parts = c.Parts };
            return (c, changed, new Assessor(value with { Frames = [changed], Stages = [] }).Assess(changed.Id, _nobody, "").Frames[0]);
        })];
        (Candidate best, Frame proposed, FrameAssessment after) = assessed.OrderBy(a => Math.Max(0, Failures(a.After) - Failures(before))).ThenBy(a => Math.Round(Loss(a.After), 1)).ThenBy(a => Distance(a.After)).First();
        ImmutableArray<StiffnessCost> costs = Costs(after);
        string stability = costs.IsEmpty
            ? "What it costs in stability cannot be said, since a frame has no stiffness to compare."
            : $"Stiffness at the fracture: {string.Join(", ", costs.Select(c => $"{c.Name} {Signed(c)}"))}, with threads and cores of the stock's pins.";
        return new()
        {
            Changes = [.. best.Changes.Select(c => c.Sentence)],
            Frame = proposed,
            Costs = costs,
            Message = $"Nearest frame that this stock can build: {string.Join(" ", best.Changes.Select(c => c.Sentence))} {stability}"
                + (_toolsAside ? $" Tools are still to be fetched: {string.Join("; ", shortages.Where(s => s.Kind == KitKind.Tool).Select(s => s.Description))}." : ""),
            Tried = _tried,
        };
    }

    private static int Failures(FrameAssessment frame) => frame.Checks.Count(c => c.Verdict == Verdict.Fail);

    // Greatest ratio of any stiffness, as its logarithm; frames without stiffness come last.
    private double Distance(FrameAssessment after)
    {
        ImmutableArray<StiffnessCost> costs = Costs(after);
        return costs.IsEmpty ? double.MaxValue : costs.Max(c => c.Before > 0 && c.After > 0 ? Math.Abs(Math.Log(c.After / c.Before)) : c.Before == c.After ? 0 : 1e6);
    }

    // Greatest share of any stiffness lost, as a logarithm.
    private double Loss(FrameAssessment after) => Costs(after).Select(c => c.Before > 0 && c.After > 0 ? Math.Max(0, Math.Log(c.Before / c.After)) : 0).DefaultIfEmpty(0).Max();

    private ImmutableArray<StiffnessCost> Costs(FrameAssessment after)
    {
        if (before.Stiffness?.AtFracture is not FourStiffnesses a || after.Stiffness?.AtFracture is not FourStiffnesses b)
        {
            return [];
        }

        StiffnessCost Of(string name, double from, double to, string unit) => new(name, from, to, unit, from > 0 ? 100 * ((to / from) - 1) : null);
        return
        [
            Of("axial", a.AxialNPerMm, b.AxialNPerMm, "N/mm"), Of("AP bending", a.ApBendingNmPerDeg, b.ApBendingNmPerDeg, "N·m/deg"),
            Of("ML bending", a.MlBendingNmPerDeg, b.MlBendingNmPerDeg, "N·m/deg"), Of("torsion", a.TorsionNmPerDeg, b.TorsionNmPerDeg, "N·m/deg"),
        ];
    }

    private static string Signed(StiffnessCost cost) => cost.ChangePercent is double change
        ? string.Create(CultureInfo.InvariantCulture, $"{change:+0;−0;±0} %")
        : "free before";

    private KitProposal Blocked()
    {
        Shortage[] never = [.. shortages.Where((_, i) => !_cured.Contains(i))], blocking = never.Length > 0 ? never : [.. shortages];
        string what = string.Join("; ", blocking.Select(s => s.Parts.IsEmpty ? s.Description : $"{s.Description} ({string.Join(", ", s.Parts)})"));
        string miss = _nearMiss is (var changes, var lacks)
            ? $" Nearest to it: {string.Join(" ", changes.Select(c => c.Sentence))} There the stock lacks: {string.Join("; ", lacks.Select(l => l.Description))}."
            : "";
        return new()
        {
            Changes = [],
            Message = never.Length > 0
                ? $"Nothing near this frame can be built from this stock. It is blocked by: {what}.{miss}"
                : $"Nothing near this frame can be built from this stock. What is missing could be got round, but something else is missing then: {what}.{miss}",
            BlockedBy = [.. blocking.SelectMany(s => s.Parts.IsEmpty ? [s.Description] : s.Parts)],
            Tried = _tried,
        };
    }

    private sealed record Candidate(ImmutableArray<FrameChange> Changes, Parts Parts);
}
