namespace Halfpin.Mechanics.Path;

/// <summary>How far a path runs straight on, and what ends it there.</summary>
/// <param name="Length">In load factor, or in the mechanism's own unit on a plateau; infinite when nothing ends it.</param>
/// <param name="Component">The component that reaches its capacity or a stop, or −1.</param>
/// <param name="Contact">The contact that closes or opens, or −1.</param>
/// <param name="AtStop">True when it is a stop that the component reaches.</param>
internal readonly record struct PathStep(double Length, int Component, int Contact, bool AtStop = false)
{
    // What rounding leaves of a force or an opening, as a share of what it is the difference of.
    private const double Rounding = 1e-12;

    /// <summary>No step: nothing has arrived anywhere.</summary>
    public static readonly PathStep None = new(0, -1, -1);

    // On a plateau, faces approach each other and slides run when they do so by more than this share of the motion of any, and more than
    // the share of stress that the motion is not free of: where the mechanism leaves them alone there is nothing but rounding.
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
            if (sets.MayYield(i))
            {
                step = ToStop(step, i, problem, state, rate);
            }
            else if (!staysAtBound && speed != 0 && !sets.IsStopped(i, speed))
            {
                double length = ((Math.Sign(speed) * problem.Capacity[i]) - state.Force[i]) / speed;
                step = length < step.Length && !IsAtEnd(most - length, speed, state.ForceSize[i]) ? new(Math.Max(length, 0), i, -1) : step;
            }
        }

        for (int k = 0; k < problem.Contacts; k++)
        {
            double speed = rate.OpeningMm[k];
            if (!sets.Weak[k] && (sets.Closed[k] ? speed > 0 : speed < 0))
            {
                double length = -state.OpeningMm[k] / speed;
                step = length < step.Length && !IsAtEnd(most - length, speed, state.OpeningSize[k]) ? new(Math.Max(length, 0), -1, k) : step;
            }
        }

        return most - step.Length > rounding ? step : new(most, -1, -1);
    }

    /// <summary>The contact or stop that ends a plateau: its motion is free of stress, so nothing else changes.</summary>
    public static PathStep OnPlateau(PathProblem problem, PathSets sets, PathState state, PathState rate)
    {
        PathStep step = new(double.PositiveInfinity, -1, -1);
        double most = 0, doubt = ApproachShare;
        for (int i = 0; i < problem.Components; i++)
        {
            most = Math.Max(most, problem.RootOwn[i] * Math.Abs(rate.Dislocation[i]));
            doubt = Math.Max(doubt, Math.Abs(rate.Force[i]) / rate.ForceSize[i]);
        }

        for (int i = 0; i < problem.Components; i++)
        {
            if (sets.MayYield(i) && problem.RootOwn[i] * Math.Abs(rate.Dislocation[i]) > doubt * most)
            {
                step = ToStop(step, i, problem, state, rate);
            }
        }

        double least = doubt * rate.LargestOpeningSize;
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

    // True where no more happens up to the end than rounding: bone that is freed of the last of the load is not freed before it.
    private static bool IsAtEnd(double rest, double speed, double size) => Math.Abs(rest * speed) <= Rounding * size;

    private static PathStep ToStop(PathStep step, int component, PathProblem problem, PathState state, PathState rate)
    {
        double speed = rate.Dislocation[component];
        double length = speed == 0 ? double.PositiveInfinity : ((speed > 0 ? problem.Most[component] : problem.Least[component]) - state.Dislocation[component]) / speed;
        return length < step.Length ? new(Math.Max(length, 0), component, -1, AtStop: true) : step;
    }
}
