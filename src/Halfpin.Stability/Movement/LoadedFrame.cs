using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;

namespace Halfpin.Stability.Movement;

/// <summary>A solved frame under loads, with the bounds within which its linear open-gap answer holds.</summary>
internal sealed class LoadedFrame(FrameAnalyser analyser, MotionReadout motion, DemandAnalysis demand)
{
    private const int Axial = 2;

    public MotionReadout Motion { get; } = motion;

    public DemandAnalysis Demand { get; } = demand;

    /// <summary>Why motion and demand must not be shown for a load; null when they may.</summary>
    public Diagnosis? ReasonToWithhold(EndLoad load)
    {
        if (Enumerable.Range(0, 6).Any(i => load[i] != 0 && analyser.Freedoms.WorksOn(i)))
        {
            ImmutableArray<string> clamps = [.. analyser.Freedoms.HeldClamps.Select(c => analyser.Data.ClampParts[c].Id)];
            return new(
                $"The load acts along an intended freedom ({string.Join(", ", analyser.Freedoms.Names)}): the fragments slide until the bone ends bear, which an open-gap model does not describe.",
                clamps, "Look at the stiffness only, or assess the frame with its clamps tight.");
        }

        double rotation = Motion.LargestRotationDeg(load);
        if (rotation >= MotionReadout.MaxRotationDeg)
        {
            return new(
                $"Under this load a part would rotate {Text(rotation)}°; beyond {Text(MotionReadout.MaxRotationDeg)}° small-displacement results do not hold.",
                [], "Lower the load or stiffen the frame.");
        }

        double closed = Motion.ClosedShare(load);
        return closed < 1 ? null : new(
            double.IsInfinity(closed)
                ? "The bone ends touch at once: there is no gap. An open-gap model does not describe what follows."
                : $"The bone ends touch at {Text(100 / closed)} % of this load. From there bone shares the load, which an open-gap model does not describe.",
            [], "Lower the load, or set contact to false for a fracture whose ends cannot bear.");
    }

    /// <summary>
    /// What comes first as an axial load grows: a part's limit, the touch of the bone ends, or the end of the range of small
    /// displacements. Null when the load acts along an intended freedom.
    /// </summary>
    public FirstLimit? FirstLimit()
    {
        if (analyser.Freedoms.WorksOn(Axial))
        {
            return null;
        }

        EndLoad unit = EndLoad.Compression(1);
        DemandItem first = Demand.FirstUnder(unit);
        double limitN = 1 / first.Value, touchN = 1 / Motion.ClosedShare(unit);
        double rangeN = MotionReadout.MaxRotationDeg / Motion.LargestRotationDeg(unit);
        double least = Math.Min(limitN, Math.Min(touchN, rangeN));
        return least == touchN
            ? new("fracture", FirstLimits.Touch, "bone ends", touchN, touchN / Loading.NewtonPerKg)
            : least == rangeN
                ? new("frame", FirstLimits.Range, $"a part turns {Text(MotionReadout.MaxRotationDeg)}°", rangeN, rangeN / Loading.NewtonPerKg)
                : new(DemandWords.Part(first, analyser.Data), DemandWords.Check(first.Limit), DemandWords.Place(first, analyser.Data), limitN, limitN / Loading.NewtonPerKg);
    }

    /// <summary>The greatest demand but fatigue while the gap stays open; null when the load acts along an intended freedom.</summary>
    public DemandItem? FirstUnderOpenGap(EndLoad load) => analyser.Freedoms.WorksOn(Axial) ? null : Demand.FirstUnder(load);

    /// <summary>Axial load from which repeated steps over an open gap pass a pin's fatigue limit; null when none has one or the load runs along a freedom.</summary>
    public FirstLimit? FatigueFrom()
    {
        if (analyser.Freedoms.WorksOn(Axial))
        {
            return null;
        }

        DemandItem worst = default;
        foreach (DemandItem item in Demand.Under(EndLoad.Compression(1)))
        {
            worst = item.Limit == Limit.PinFatigue && item.Value > worst.Value ? item : worst;
        }

        return worst.Value > 0
            ? new(DemandWords.Part(worst, analyser.Data), DemandWords.Check(worst.Limit), DemandWords.Place(worst, analyser.Data), 1 / worst.Value, 1 / worst.Value / Loading.NewtonPerKg)
            : null;
    }

    private static string Text(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);
}
