using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Movement;

/// <summary>A solved frame through a step: each phase by itself, as a load that grows from nil in proportion.</summary>
internal static class GaitAnalysis
{
    public static GaitResult Of(LoadedFrame frame, FrameData data, Gait gait)
    {
        ImmutableArray<GaitPhaseResult> phases = [.. gait.Phases.Select(p => At(frame, data, p))];
        GaitPhaseResult? nearest = phases.Where(p => !p.Utilisation.IsEmpty).MaxBy(p => p.Utilisation[0].Value);
        return new()
        {
            Phases = phases,
            WithheldPhases = phases.Count(p => p.Diagnosis is not null),
            WorstAxial = Worst(phases, m => Math.Abs(m.AxialMm)),
            WorstShear = Worst(phases, m => m.ShearMm),
            NearestLimit = nearest is null ? null : new(nearest.Phase, nearest.Utilisation[0]),
        };
    }

    private static GaitPhaseResult At(LoadedFrame frame, FrameData data, GaitPhase phase)
    {
        SiteState state = frame.Contact.Under(EndLoad.Of(phase));
        return frame.ReasonToWithhold(state) is Diagnosis reason
            ? new() { Phase = phase.Phase, Diagnosis = reason }
            : new()
            {
                Phase = phase.Phase,
                Motions = [.. frame.Motions.Select(m => m.Of(state))],
                Utilisation = DemandWords.Entries(frame.Demand.Under(state.Load), data),
            };
    }

    // MaxBy keeps the first of equals.
    private static GaitWorstMotion? Worst(ImmutableArray<GaitPhaseResult> phases, Func<FractureMotion, double> size) =>
        phases.SelectMany(p => p.Motions.Select((m, f) => new GaitWorstMotion(p.Phase, f + 1, size(m)))).MaxBy(w => w.SizeMm);
}
