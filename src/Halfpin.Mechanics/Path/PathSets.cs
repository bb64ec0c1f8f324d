namespace Halfpin.Mechanics.Path;

/// <summary>Which components are at their capacity and yield, and which contacts bear.</summary>
internal sealed class PathSets(int components, int contacts)
{
    /// <summary>Components of capacity 0: they yield either way, always.</summary>
    public bool[] Free { get; } = new bool[components];

    /// <summary>+1 or −1 for a component at its capacity, by the sign of its force; 0 below it and for free ones.</summary>
    public int[] Bound { get; } = new int[components];

    /// <summary>Components at their capacity that yield.</summary>
    public bool[] Slipping { get; } = new bool[components];

    /// <summary>Contacts that bear.</summary>
    public bool[] Closed { get; } = new bool[contacts];

    /// <summary>Contacts that just touch: they may go either way.</summary>
    public bool[] Weak { get; } = new bool[contacts];

    public bool MayYield(int component) => Free[component] || Slipping[component];

    public void Reset(ReadOnlySpan<double> capacity)
    {
        for (int i = 0; i < capacity.Length; i++)
        {
            Free[i] = capacity[i] == 0;
        }

        Array.Clear(Bound);
        Array.Clear(Slipping);
        Array.Clear(Closed);
        Array.Clear(Weak);
    }
}
