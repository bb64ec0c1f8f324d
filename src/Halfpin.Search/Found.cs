using Halfpin.Stability.Variants;

namespace Halfpin.Search;

/// <summary>A rated candidate.</summary>
/// <param name="Order">Its number in the search's fixed order: ties go to the first.</param>
/// <param name="Layout">What makes it; null for a frame of the case that is given by its parts.</param>
/// <param name="Parts">How many parts it has.</param>
/// <param name="CostPoints">Their relative cost.</param>
/// <param name="RoomMm">Room of its rods beside the way to the wounds, as far as more is better.</param>
/// <param name="Rating">Its numbers.</param>
/// <param name="LeastMargin">What is left to the requirement that it meets most narrowly.</param>
internal sealed record Found(long Order, Layout? Layout, int Parts, double CostPoints, double RoomMm, FrameRating Rating, double LeastMargin)
{
    // Finer differences of hold, in N·m/deg, mean nothing beside those of clamps.
    private const double BetweenStep = 0.1;

    /// <summary>True when this is to be preferred: fewer parts, then less cost, then more room, then a firmer hold of what is between fractures, then more margin, then earlier.</summary>
    public bool IsSimplerThan(Found? other) => other is null || Compare(other) < 0;

    private int Compare(Found other)
    {
        int c = Parts.CompareTo(other.Parts);
        c = c != 0 ? c : CostPoints.CompareTo(other.CostPoints);
        c = c != 0 ? c : other.RoomMm.CompareTo(RoomMm);
        c = c != 0 ? c : Step(other.Between, BetweenStep).CompareTo(Step(Between, BetweenStep));
        c = c != 0 ? c : other.LeastMargin.CompareTo(LeastMargin);
        return c != 0 ? c : Order.CompareTo(other.Order);
    }

    /// <summary>True when the other is no better in anything and worse in something, as finely as the numbers mean something.</summary>
    public bool Dominates(Found other)
    {
        bool better = false;
        foreach ((double mine, double its) in new[]
        {
            (-Parts, -(double)other.Parts), (-CostPoints, -other.CostPoints), (Step(Rating.AxialNPerMm, 5), Step(other.Rating.AxialNPerMm, 5)),
            (Step(Rating.WeakBendingNmPerDeg, 0.25), Step(other.Rating.WeakBendingNmPerDeg, 0.25)), (Step(RoomMm, 5), Step(other.RoomMm, 5)), (Step(LeastMargin, 0.1), Step(other.LeastMargin, 0.1)),
            (Step(Between, BetweenStep), Step(other.Between, BetweenStep)),
        })
        {
            if (mine < its)
            {
                return false;
            }

            better |= mine > its;
        }

        return better || Order < other.Order;
    }

    // With one fracture nothing stands between.
    private double Between => double.IsNaN(Rating.BetweenBendingNmPerDeg) ? 0 : Rating.BetweenBendingNmPerDeg;

    private static double Step(double value, double step) => Math.Floor(value / step);
}
