namespace Halfpin.Mechanics.Path;

/// <summary>How far a path runs straight on, and what ends it there.</summary>
/// <param name="Length">In load factor, or in the mechanism's own unit on a plateau; infinite when nothing ends it.</param>
/// <param name="Component">The component that reaches its capacity, or −1.</param>
/// <param name="Contact">The contact that closes or opens, or −1.</param>
internal readonly record struct PathStep(double Length, int Component, int Contact)
{
    // On a plateau, faces approach each other when they do so by more than this share of the motion of any: at a site that the mechanism
    // leaves alone there is nothing but rounding.
    private const double ApproachShare = 1e-9;

    /// <summary>The next event under a changing load.</summary>
    /// <param name="most">What is left of the load.</param>
    /// <param name="rounding">Events no further than this from the end are left to it.</param>
    /// <param name="problem">The problem.</param>
    /// <param name="sets">What yields and bears on the way.</param>
    /// <param name="state">Where it starts.</param>
    /// <param name="rate">The rates along the load.</param>
    public static PathStep UnderLoad(double most, double rounding, PathProblem problem, PathSets sets, PathState state, PathState rate)
    {
        PathStep step = new(most, -1, -1);
        for (int i = 0; i < problem.Components; i++)
        {
            double speed = rate.Force[i];

            // One at its capacity that holds moves away from it, or stays there: only the other bound can end the step.
            bool staysAtBound = sets.Bound[i] != 0 && sets.Bound[i] * speed >= 0;
            if (!sets.MayYield(i) && !staysAtBound && speed != 0)
            {
                double length = ((Math.Sign(speed) * problem.Capacity[i]) - state.Force[i]) / speed;
                step = length < step.Length ? new(Math.Max(length, 0), i, -1) : step;
            }
        }

        for (int k = 0; k < problem.Contacts; k++)
        {
            double speed = rate.OpeningMm[k];
            if (!sets.Weak[k] && (sets.Closed[k] ? speed > 0 : speed < 0))
            {
                double length = -state.OpeningMm[k] / speed;
                step = length < step.Length ? new(Math.Max(length, 0), -1, k) : step;
            }
        }

        return most - step.Length > rounding ? step : new(most, -1, -1);
    }

    /// <summary>The contact that ends a plateau: its motion is free of stress, so nothing else changes.</summary>
    public static PathStep OnPlateau(PathSets sets, PathState state, PathState rate)
    {
        PathStep step = new(double.PositiveInfinity, -1, -1);
        double least = ApproachShare * rate.LargestOpeningSize;
        for (int k = 0; k < state.OpeningMm.Length; k++)
        {
            double speed = rate.OpeningMm[k];
            if (!sets.Weak[k] && !sets.Closed[k] && speed < -least)
            {
                double length = -state.OpeningMm[k] / speed;
                step = length < step.Length ? new(length, -1, k) : step;
            }
        }

        return step;
    }
}
