using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Search;

/// <summary>Moves a found frame by millimetres and degrees between the steps of the search to where it meets its requirements least narrowly.</summary>
/// <remarks>Pattern search: each distance in turn by a step either way, then by half the step; only feasible frames with no less room are taken.</remarks>
internal sealed class Refinement(Case value, FrameTrial trial)
{
    private static readonly double[] _stepsMm = [4, 2, 1];

    // A better margin than this is worth a move; below it numbers only differ by their errors.
    private const double Worthwhile = 0.002;

    /// <summary>The refined frame; the same when nothing near it is better.</summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public Found Of(Found start, CancellationToken stop)
    {
        Found best = start;
        foreach (double step in _stepsMm)
        {
            bool moved = true;
            while (moved)
            {
                moved = false;
                foreach (Layout near in Around(best.Layout!, step))
                {
                    if (trial.Of(near, best.Order, stop) is { Misses.IsEmpty: true, Found: Found found }
                        && found.LeastMargin > best.LeastMargin + Worthwhile && found.RoomMm >= start.RoomMm - 1e-9 && found.Parts == start.Parts && found.CostPoints <= start.CostPoints)
                    {
                        (best, moved) = (found, true);
                    }
                }
            }
        }

        return best;
    }

    // Never beyond the ends of what the search was given: those may stand for what the surgeon wants.
    private IEnumerable<Layout> Around(Layout layout, double step)
    {
        foreach (double d in new[] { -step, step })
        {
            foreach (Construct moved in Around(layout.Construct, d))
            {
                yield return layout with { Construct = moved };
            }

            foreach (MiddlePins moved in layout.Middle is MiddlePins middle ? Around(middle, d) : [])
            {
                yield return layout with { Middle = moved };
            }
        }
    }

    private IEnumerable<MiddlePins> Around(MiddlePins middle, double d)
    {
        foreach (MiddlePins moved in new[]
        {
            middle with { ProximalEdgeMm = Within(value.Search.MiddleEdgeMm, middle.ProximalEdgeMm + d) },
            middle with { DistalEdgeMm = Within(value.Search.MiddleEdgeMm, middle.DistalEdgeMm + d) },
        })
        {
            if (SegmentalBuilder.Fits(moved, value.Fractures))
            {
                yield return moved;
            }
        }
    }

    private IEnumerable<Construct> Around(Construct c, double d)
    {
        yield return c with { StandoffMm = Within(value.Search.StandoffMm, c.StandoffMm + d) };
        yield return c with { FarMm = Within(value.Search.FarMm, c.FarMm + d) };
        yield return c with { AzimuthDeg = Within(value.Search.AzimuthDeg, c.AzimuthDeg + d) };
        if (c.NearMm is double near && Within(value.Search.NearMm, near + d) < c.FarMm)
        {
            yield return c with { NearMm = Within(value.Search.NearMm, near + d) };
        }
    }

    private static double Within(ImmutableArray<double> choices, double wanted) => Math.Clamp(wanted, choices.Min(), choices.Max());
}
