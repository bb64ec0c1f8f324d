using System.Collections.Immutable;

namespace Halfpin.Mechanics.Assembly;

/// <summary>The two nodes that a member joins. <see cref="FrameTopology.Ground"/> stands for fixed ground.</summary>
public readonly record struct MemberEnds(int A, int B);

/// <summary>The six freedoms of a node, as flags.</summary>
[Flags]
public enum Freedoms
{
    None = 0,
    Ux = 1,
    Uy = 2,
    Uz = 4,
    Rx = 8,
    Ry = 16,
    Rz = 32,
    Translations = Ux | Uy | Uz,
    Rotations = Rx | Ry | Rz,
    All = Translations | Rotations,
}

/// <summary>Freedoms of a node that are held at zero.</summary>
public readonly record struct Support(int Node, Freedoms Held);

/// <summary>
/// Which nodes a frame has, which members join them and which freedoms are held: all that decides the pattern of the
/// stiffness matrix, and nothing that changes between variants of one construct.
/// </summary>
public sealed class FrameTopology
{
    /// <summary>The node number of fixed ground.</summary>
    public const int Ground = -1;

    /// <summary>A topology.</summary>
    /// <param name="nodeCount">Number of nodes, numbered from 0.</param>
    /// <param name="members">Ends of each member; the two must differ.</param>
    /// <param name="supports">Held freedoms; at most one entry a node.</param>
    /// <exception cref="ArgumentException">A node number is out of range, a member joins a node to itself, or a node has two supports.</exception>
    public FrameTopology(int nodeCount, IEnumerable<MemberEnds> members, IEnumerable<Support> supports)
    {
        NodeCount = nodeCount;
        Members = [.. members];
        Supports = [.. supports];
        foreach (MemberEnds m in Members)
        {
            if (m.A == m.B || m.A < Ground || m.B < Ground || m.A >= nodeCount || m.B >= nodeCount)
            {
                throw new ArgumentException($"A member joins {m.A} and {m.B}; nodes run from 0 to {nodeCount - 1} and the ends must differ.", nameof(members));
            }
        }

        Freedoms[] held = new Freedoms[nodeCount];
        foreach (Support s in Supports)
        {
            if (s.Node < 0 || s.Node >= nodeCount || held[s.Node] != Freedoms.None)
            {
                throw new ArgumentException($"Support at node {s.Node}: nodes run from 0 to {nodeCount - 1}, one support each.", nameof(supports));
            }

            held[s.Node] = s.Held;
        }

        Held = [.. held];
    }

    /// <summary>Number of nodes.</summary>
    public int NodeCount { get; }

    /// <summary>Ends of each member.</summary>
    public ImmutableArray<MemberEnds> Members { get; }

    /// <summary>The supports.</summary>
    public ImmutableArray<Support> Supports { get; }

    /// <summary>Held freedoms of each node.</summary>
    public ImmutableArray<Freedoms> Held { get; }
}
