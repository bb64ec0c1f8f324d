namespace Halfpin.Mechanics.Path;

/// <summary>The motion in which a frame gives way, and the components that take part in it.</summary>
internal sealed class PathMechanism(PathProblem problem)
{
    // A component takes part when it moves by more than this share of the one that moves most.
    private const double TakesPart = 1e-9;

    private readonly int[] _components = new int[problem.Components];
    private readonly double[] _dislocations = new double[problem.Components];
    private int _count;

    /// <summary>The components that take part.</summary>
    public ReadOnlySpan<int> Components => _components.AsSpan(0, _count);

    /// <summary>Dislocation of every component; 0 for those that do not take part.</summary>
    public ReadOnlySpan<double> Dislocations => _dislocations;

    /// <summary>Forgets it.</summary>
    public void Clear()
    {
        _count = 0;
        Array.Clear(_dislocations);
    }

    /// <summary>Takes over a motion; returns the component that moves most.</summary>
    public int Take(ReadOnlySpan<double> rate)
    {
        Clear();
        int leader = 0;
        double most = 0;
        for (int i = 0; i < rate.Length; i++)
        {
            double size = problem.RootOwn[i] * Math.Abs(rate[i]);
            (leader, most) = size > most ? (i, size) : (leader, most);
        }

        for (int i = 0; i < rate.Length; i++)
        {
            if (problem.RootOwn[i] * Math.Abs(rate[i]) > TakesPart * most)
            {
                _dislocations[i] = rate[i];
                _components[_count++] = i;
            }
        }

        return leader;
    }
}
