using System.Collections.Immutable;
using Halfpin.Mechanics.Assembly;

namespace Halfpin.Mechanics.Solution;

/// <summary>
/// The symbolic half of a sparse Cholesky factorisation in 6×6 node blocks: elimination order, block pattern with fill,
/// and the place of every update, worked out once for a topology and shared by all its variants.
/// </summary>
/// <remarks>
/// Minimum-degree order on the node graph (George and Liu, Computer Solution of Large Sparse Positive Definite Systems,
/// 1981, ch. 5); the frames in view are chains and ladders, so hardly any block fills in. Immutable and thread-safe.
/// </remarks>
internal sealed class EliminationPlan
{
    public EliminationPlan(FrameTopology topology)
    {
        Topology = topology;
        int n = topology.NodeCount;
        HashSet<int>[] graph = new HashSet<int>[n];
        for (int i = 0; i < n; i++)
        {
            graph[i] = [];
        }

        foreach (MemberEnds m in topology.Members)
        {
            if (IsActive(m.A) && IsActive(m.B))
            {
                graph[m.A].Add(m.B);
                graph[m.B].Add(m.A);
            }
        }

        int[] order = Order(graph, out List<int[]> rows);
        int[] position = new int[n];
        Array.Fill(position, -1);
        for (int k = 0; k < order.Length; k++)
        {
            position[order[k]] = k;
        }

        // Block k is the diagonal of position k; off-diagonal blocks follow.
        Dictionary<(int Row, int Column), int> block = [];
        List<int> start = [0], column = [], offBlock = [], target = [];
        for (int k = 0; k < order.Length; k++)
        {
            int[] later = [.. rows[k].Select(v => position[v]).Order()];
            foreach (int c in later)
            {
                block.Add((k, c), order.Length + block.Count);
                column.Add(c);
                offBlock.Add(block[(k, c)]);
            }

            start.Add(column.Count);
        }

        for (int k = 0; k < order.Length; k++)
        {
            for (int i = start[k]; i < start[k + 1]; i++)
            {
                for (int j = i; j < start[k + 1]; j++)
                {
                    target.Add(i == j ? column[i] : block[(column[i], column[j])]);
                }
            }
        }

        NodeAt = [.. order];
        Position = [.. position];
        RowStart = [.. start];
        Column = [.. column];
        OffBlock = [.. offBlock];
        UpdateTarget = [.. target];
        BlockCount = order.Length + block.Count;
        Scatter = [.. topology.Members.Select(m => ScatterOf(m, position, block))];
        PartlyHeld = [.. topology.Supports
            .Where(s => IsActive(s.Node) && s.Held != Freedoms.None)
            .Select(s => HeldOf(position[s.Node], s.Held, block))];
    }

    public FrameTopology Topology { get; }

    /// <summary>Node eliminated at each position; fully held nodes have none.</summary>
    public ImmutableArray<int> NodeAt { get; }

    /// <summary>Position of each node, −1 when fully held.</summary>
    public ImmutableArray<int> Position { get; }

    /// <summary>Off-diagonal blocks of position k are RowStart[k] … RowStart[k+1]−1.</summary>
    public ImmutableArray<int> RowStart { get; }

    public ImmutableArray<int> Column { get; }

    public ImmutableArray<int> OffBlock { get; }

    /// <summary>For each position in turn, the block that each pair (i ≤ j) of its row updates.</summary>
    public ImmutableArray<int> UpdateTarget { get; }

    public int BlockCount { get; }

    public ImmutableArray<MemberScatter> Scatter { get; }

    public ImmutableArray<HeldRows> PartlyHeld { get; }

    public int Positions => NodeAt.Length;

    /// <summary>Multiplications and additions (counted as one each) of one factorisation, with 6×6 blocks.</summary>
    public long FactorisationOperations
    {
        get
        {
            long operations = 0;
            for (int k = 0; k < Positions; k++)
            {
                long d = RowStart[k + 1] - RowStart[k];
                operations += 91 + (d * 216) + (d * (d + 1) / 2 * 432);
            }

            return operations;
        }
    }

    private bool IsActive(int node) => node != FrameTopology.Ground && Topology.Held[node] != Freedoms.All;

    private int[] Order(HashSet<int>[] graph, out List<int[]> rows)
    {
        rows = [];
        List<int> order = [];
        List<int> left = [.. Enumerable.Range(0, graph.Length).Where(IsActive)];
        while (left.Count > 0)
        {
            int pivot = left.MinBy(v => (graph[v].Count, v));
            left.Remove(pivot);
            order.Add(pivot);
            int[] neighbours = [.. graph[pivot]];
            rows.Add(neighbours);
            foreach (int v in neighbours)
            {
                graph[v].UnionWith(neighbours);
                graph[v].Remove(v);
                graph[v].Remove(pivot);
            }
        }

        return [.. order];
    }

    private static MemberScatter ScatterOf(MemberEnds m, int[] position, Dictionary<(int, int), int> block)
    {
        int a = m.A == FrameTopology.Ground ? -1 : position[m.A];
        int b = m.B == FrameTopology.Ground ? -1 : position[m.B];
        bool both = a >= 0 && b >= 0;
        int off = !both ? -1 : a < b ? block[(a, b)] : block[(b, a)];
        return new(a, b, off, both && b < a);
    }

    private static HeldRows HeldOf(int position, Freedoms held, Dictionary<(int Row, int Column), int> block) => new(
        position,
        [.. Enumerable.Range(0, 6).Where(i => ((int)held >> i & 1) == 1)],
        [.. block.Where(e => e.Key.Row == position).Select(e => e.Value)],
        [.. block.Where(e => e.Key.Column == position).Select(e => e.Value)]);
}

/// <summary>Where a member's blocks go. A and B are also the numbers of their diagonal blocks; −1 where the end is held.</summary>
/// <param name="A">Position of end a.</param>
/// <param name="B">Position of end b.</param>
/// <param name="Off">The off-diagonal block, −1 when an end is held.</param>
/// <param name="BFirst">True when b is eliminated before a, so that the block's rows belong to b.</param>
internal readonly record struct MemberScatter(int A, int B, int Off, bool BFirst);

/// <summary>Freedoms held at a node that keeps others free, and the blocks whose rows or columns they void.</summary>
internal sealed record HeldRows(int Position, ImmutableArray<int> Freedoms, ImmutableArray<int> RowBlocks, ImmutableArray<int> ColumnBlocks);
