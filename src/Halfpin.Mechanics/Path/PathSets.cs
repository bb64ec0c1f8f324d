namespace Halfpin.Mechanics.Path;

/// <summary>Which components are at their capacity or on a stop and which yield, and which contacts bear.</summary>
/// <remarks>
/// A slide on a stop has no capacity against it, however hard it is pressed, and its usual one away from it: pressed with less than
/// nothing it is at that bound, and may yield away. So a stop needs no variable of its own: it is a bound of one sense only.
/// </remarks>
internal sealed class PathSets(PathProblem problem)
{
    private const double AtCapacity = 1e-9;
    private const double Touching = 1e-12;

    /// <summary>Components of capacity 0 off their stops: they yield either way, always.</summary>
    public bool[] Free { get; } = new bool[problem.Components];

    /// <summary>+1 or −1 for a component at its capacity, by the sign of its force; 0 below it and for free ones.</summary>
    public int[] Bound { get; } = new int[problem.Components];

    /// <summary>Components at their capacity that yield.</summary>
    public bool[] Slipping { get; } = new bool[problem.Components];

    /// <summary>Slides on the stop in front.</summary>
    public bool[] AtMost { get; } = new bool[problem.Components];

    /// <summary>Slides on the stop behind.</summary>
    public bool[] AtLeast { get; } = new bool[problem.Components];

    /// <summary>Contacts that bear.</summary>
    public bool[] Closed { get; } = new bool[problem.Contacts];

    /// <summary>Contacts that just touch: they may go either way.</summary>
    public bool[] Weak { get; } = new bool[problem.Contacts];

    public bool MayYield(int component) => Free[component] || Slipping[component];

    /// <summary>True when a stop takes any force of that sign.</summary>
    public bool IsStopped(int component, double sign) => sign > 0 ? AtMost[component] : AtLeast[component];

    public void Reset()
    {
        Array.Clear(Free);
        Array.Clear(Bound);
        Array.Clear(Slipping);
        Array.Clear(AtMost);
        Array.Clear(AtLeast);
        Array.Clear(Closed);
        Array.Clear(Weak);
    }

    /// <summary>
    /// Finds what is at its limit after a step, and what is expected of it: a component just arrived at its capacity yields, one just
    /// arrived at a stop holds, a contact just arrived changes over.
    /// </summary>
    public void Classify(PathState state, PathStep step)
    {
        for (int i = 0; i < problem.Components; i++)
        {
            // A slide that arrives is put on its stop to the last digit, and one that is held there does not move.
            bool most = state.Dislocation[i] == problem.Most[i], least = state.Dislocation[i] == problem.Least[i], yielded = MayYield(i);
            bool arrives = (most && !AtMost[i]) || (least && !AtLeast[i]);
            (AtMost[i], AtLeast[i]) = (most, least);
            Free[i] = problem.Capacity[i] == 0 && !most && !least;
            if (Free[i] || arrives)
            {
                (Slipping[i], Bound[i]) = (false, 0);
            }

            if (!Free[i] && !Slipping[i])
            {
                int bound = BoundOf(i, state, i == step.Component && !step.AtStop, arrives && yielded);
                Slipping[i] = bound != 0 && bound != Bound[i] && !arrives;
                Bound[i] = bound;
            }
        }

        for (int k = 0; k < problem.Contacts; k++)
        {
            bool was = Weak[k];
            Weak[k] = k == step.Contact || Math.Abs(state.OpeningMm[k]) <= Touching * state.OpeningSize[k];
            Closed[k] ^= Weak[k] && !was;
        }
    }

    private int BoundOf(int i, PathState state, bool reached, bool slidThere)
    {
        double force = state.Force[i], capacity = problem.Capacity[i];
        if (!AtMost[i] && !AtLeast[i])
        {
            return reached || Math.Abs(force) >= capacity - (AtCapacity * capacity) ? Math.Sign(force) : 0;
        }

        // Only away from the stop is there a bound. What slid there without resistance is still free of force.
        int away = AtMost[i] ? -1 : 1;
        double within = capacity > 0 ? AtCapacity * capacity : Touching * state.ForceSize[i];
        bool at = reached || (capacity == 0 && slidThere) || away * force >= capacity - within;
        return at && !(AtMost[i] && AtLeast[i]) ? away : 0;
    }
}
