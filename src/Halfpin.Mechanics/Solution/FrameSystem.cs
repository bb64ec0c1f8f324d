using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;

namespace Halfpin.Mechanics.Solution;

/// <summary>A force and a moment, in global axes, about a stated point.</summary>
/// <param name="ForceN">Force, N.</param>
/// <param name="MomentNmm">Moment, N·mm.</param>
public readonly record struct Wrench(Vec3 ForceN, Vec3 MomentNmm)
{
    public static Wrench operator +(in Wrench a, in Wrench b) => new(a.ForceN + b.ForceN, a.MomentNmm + b.MomentNmm);

    public static Wrench operator *(double s, in Wrench a) => new(s * a.ForceN, s * a.MomentNmm);

    /// <summary>The same wrench about another point. <paramref name="fromOldToNewMm"/> runs from the present point to the new one.</summary>
    public Wrench About(Vec3 fromOldToNewMm) => this with { MomentNmm = MomentNmm - fromOldToNewMm.Cross(ForceN) };
}

/// <summary>A small motion of a rigid body: translation of a point and rotation vector, in global axes.</summary>
/// <param name="TranslationMm">Translation of the reference point, mm.</param>
/// <param name="RotationRad">Rotation vector, rad.</param>
public readonly record struct Motion(Vec3 TranslationMm, Vec3 RotationRad)
{
    public static Motion operator +(in Motion a, in Motion b) =>
        new(a.TranslationMm + b.TranslationMm, a.RotationRad + b.RotationRad);

    public static Motion operator -(in Motion a, in Motion b) =>
        new(a.TranslationMm - b.TranslationMm, a.RotationRad - b.RotationRad);

    public static Motion operator *(double s, in Motion a) => new(s * a.TranslationMm, s * a.RotationRad);

    /// <summary>Motion of the same body at another point. <paramref name="offsetMm"/> runs from the present point to the new one.</summary>
    public Motion At(Vec3 offsetMm) => this with { TranslationMm = TranslationMm + RotationRad.Cross(offsetMm) };
}

/// <summary>Outcome of a factorisation.</summary>
/// <param name="Node">Node at which a pivot was lost, −1 when none was.</param>
/// <param name="Freedom">Freedom of that node, 0–5.</param>
public readonly record struct FactorOutcome(int Node, int Freedom)
{
    /// <summary>True when the frame is held in every freedom.</summary>
    public bool IsStable => Node < 0;
}

/// <summary>
/// One frame in numbers: node positions, member stiffnesses, the assembled and factorised matrix, right-hand sides and
/// solutions. Made once for a topology and filled again for each variant; nothing is allocated after construction.
/// </summary>
/// <remarks>
/// Small displacements, linear elastic members. Not thread-safe: one system for each thread; the plan behind them is
/// shared (<see cref="ForAnotherThread"/>). Units N, mm, rad.
/// </remarks>
public sealed class FrameSystem
{
    /// <summary>Right-hand sides come in panels of this many columns.</summary>
    public const int ColumnsPerPanel = BlockKernels.Stride;

    // Legitimate frames lose up to 1e-9 of a diagonal by elimination (soft members on stiff ones); a free motion leaves
    // rounding only, as a rule 1e-14 and less. What slips through is far out of balance (see Recover).
    private const double LostPivotShare = 1e-11;

    private readonly EliminationPlan _plan;
    private readonly Vec3[] _position;
    private readonly MemberStiffness[] _member;
    private readonly VectorBuffer _blocks;
    private readonly double[] _diagonal;
    private readonly VectorBuffer _solution;
    private readonly VectorBuffer _load;
    private readonly VectorBuffer _wrench;

    /// <summary>A system for a topology.</summary>
    /// <param name="topology">Nodes, members, supports.</param>
    /// <param name="columns">Number of load cases, rounded up to whole panels.</param>
    public FrameSystem(FrameTopology topology, int columns)
        : this(new EliminationPlan(topology), columns)
    {
    }

    private FrameSystem(EliminationPlan plan, int columns)
    {
        _plan = plan;
        Panels = (columns + ColumnsPerPanel - 1) / ColumnsPerPanel;
        _position = new Vec3[plan.Topology.NodeCount];
        _member = new MemberStiffness[plan.Topology.Members.Length];
        _blocks = new(plan.BlockCount * BlockKernels.BlockSize);
        _diagonal = new double[plan.Positions * BlockKernels.Freedoms];
        int size = Panels * plan.Positions * BlockKernels.BlockSize;
        _solution = new(size);
        _load = new(size);
        _wrench = new(Panels * _member.Length * BlockKernels.BlockSize);
    }

    /// <summary>The topology this system serves.</summary>
    public FrameTopology Topology => _plan.Topology;

    /// <summary>Number of panels of eight load cases.</summary>
    public int Panels { get; }

    /// <summary>Floating-point operations of one factorisation.</summary>
    public long FactorisationOperations => _plan.FactorisationOperations;

    /// <summary>Unknowns after supports: six for each node that is not fully held.</summary>
    public int Unknowns => _plan.Positions * BlockKernels.Freedoms;

    /// <summary>A second workspace that shares the symbolic plan.</summary>
    public FrameSystem ForAnotherThread() => new(_plan, Panels * ColumnsPerPanel);

    /// <summary>The same frame, as set, with room for another number of load cases.</summary>
    internal FrameSystem WithColumns(int columns)
    {
        FrameSystem copy = new(_plan, columns);
        _position.CopyTo(copy._position, 0);
        _member.CopyTo(copy._member, 0);
        return copy;
    }

    /// <summary>Sets a node's position, mm.</summary>
    public void SetNode(int node, Vec3 positionMm) => _position[node] = positionMm;

    /// <summary>A node's position, mm.</summary>
    public Vec3 Node(int node) => _position[node];

    /// <summary>Sets a member's stiffness.</summary>
    public void SetMember(int member, in MemberStiffness stiffness) => _member[member] = stiffness;

    /// <summary>A member's stiffness.</summary>
    public MemberStiffness Member(int member) => _member[member];

    /// <summary>Assembles and factorises the stiffness matrix.</summary>
    /// <returns>Where the first pivot was lost, when the frame is not held.</returns>
    public FactorOutcome Factorise() => Factorise(0);

    /// <summary>As <see cref="Factorise()"/>, with every diagonal raised by a share of itself: only for finding free motions.</summary>
    internal FactorOutcome Factorise(double diagonalShift)
    {
        Assemble();
        ref double blocks = ref _blocks.Origin;
        ref double diagonal = ref MemoryMarshal.GetArrayDataReference(_diagonal);
        int positions = _plan.Positions;
        for (int k = 0; k < positions; k++)
        {
            for (int i = 0; i < BlockKernels.Freedoms; i++)
            {
                ref double d = ref Unsafe.Add(ref blocks, (k * BlockKernels.BlockSize) + (i * (BlockKernels.Stride + 1)));
                if (diagonalShift > 0)
                {
                    // A freedom that no member touches has no diagonal of its own to take a share of: it gets a unit one.
                    Unsafe.Add(ref diagonal, (k * BlockKernels.Freedoms) + i) = d > 0 ? d : 1;
                    d += diagonalShift * (d > 0 ? d : 1);
                }
                else
                {
                    Unsafe.Add(ref diagonal, (k * BlockKernels.Freedoms) + i) = d;
                }
            }
        }

        ReadOnlySpan<int> start = _plan.RowStart.AsSpan(), column = _plan.Column.AsSpan(), off = _plan.OffBlock.AsSpan();
        ReadOnlySpan<int> target = _plan.UpdateTarget.AsSpan();
        int next = 0;
        double lostBelow = diagonalShift > 0 ? diagonalShift * 1e-3 : LostPivotShare;
        for (int k = 0; k < positions; k++)
        {
            ref double d = ref Block(ref blocks, k);
            int lost = BlockKernels.Factorise(ref d, ref Unsafe.Add(ref diagonal, k * BlockKernels.Freedoms), lostBelow);
            if (lost >= 0)
            {
                return new(_plan.NodeAt[k], lost);
            }

            int from = start[k], to = start[k + 1];
            for (int i = from; i < to; i++)
            {
                BlockKernels.SolveTransposed(ref d, ref Block(ref blocks, off[i]));
            }

            for (int i = from; i < to; i++)
            {
                ref double w = ref Block(ref blocks, off[i]);
                for (int j = i; j < to; j++)
                {
                    BlockKernels.SubtractTransposedProduct(ref Block(ref blocks, target[next++]), ref w, ref Block(ref blocks, off[j]));
                }
            }
        }

        return new(-1, -1);
    }

    /// <summary>Removes all loads.</summary>
    public void ClearLoads() => _load.Span.Clear();

    /// <summary>Adds a wrench on a node's rigid surroundings to one load case.</summary>
    /// <param name="column">Load case.</param>
    /// <param name="node">Node that carries it.</param>
    /// <param name="atMm">Point at which it acts, rigidly joined to the node.</param>
    /// <param name="wrench">Force and moment.</param>
    public void AddLoad(int column, int node, Vec3 atMm, in Wrench wrench)
    {
        int position = _plan.Position[node];
        if (position < 0)
        {
            return; // Goes straight into the support.
        }

        Wrench w = wrench.About(_position[node] - atMm);
        Freedoms held = Topology.Held[node];
        int at = Index(column, position);
        for (int i = 0; i < BlockKernels.Freedoms; i++)
        {
            if (((int)held >> i & 1) == 0)
            {
                _load[at + (i * BlockKernels.Stride)] += Component(w, i);
            }
        }
    }

    /// <summary>Sets all loads of one load case by node freedom (6·node + freedom).</summary>
    internal void SetColumn(int column, Func<int, double> load)
    {
        for (int position = 0; position < _plan.Positions; position++)
        {
            for (int i = 0; i < BlockKernels.Freedoms; i++)
            {
                _load[Index(column, position) + (i * BlockKernels.Stride)] = load((6 * _plan.NodeAt[position]) + i);
            }
        }
    }

    /// <summary>The matrix diagonal of a freedom as last factorised (1 where no member acts on it); the node must not be fully held.</summary>
    internal double Diagonal(int node, int freedom) => _diagonal[(_plan.Position[node] * BlockKernels.Freedoms) + freedom];

    /// <summary>K·x: what holds the frame in a given motion, by node freedom. Overwrites the first load case.</summary>
    internal double[] ForceToHold(double[] x)
    {
        ClearLoads();
        _solution.Span.Clear();
        for (int position = 0; position < _plan.Positions; position++)
        {
            for (int i = 0; i < BlockKernels.Freedoms; i++)
            {
                _solution[Index(0, position) + (i * BlockKernels.Stride)] = x[(6 * _plan.NodeAt[position]) + i];
            }
        }

        Recover(1);
        double[] force = new double[x.Length];
        for (int position = 0; position < _plan.Positions; position++)
        {
            for (int i = 0; i < BlockKernels.Freedoms; i++)
            {
                force[(6 * _plan.NodeAt[position]) + i] = -_load[Index(0, position) + (i * BlockKernels.Stride)];
            }
        }

        return force;
    }

    /// <summary>Solves all load cases with the factor at hand.</summary>
    public void Solve()
    {
        _load.Span.CopyTo(_solution.Span);
        ref double blocks = ref _blocks.Origin;
        ref double x = ref _solution.Origin;
        ReadOnlySpan<int> start = _plan.RowStart.AsSpan(), column = _plan.Column.AsSpan(), off = _plan.OffBlock.AsSpan();
        int positions = _plan.Positions;
        for (int p = 0; p < Panels; p++)
        {
            ref double panel = ref Unsafe.Add(ref x, p * positions * BlockKernels.BlockSize);
            for (int k = 0; k < positions; k++)
            {
                ref double own = ref Block(ref panel, k);
                BlockKernels.SolveTransposed(ref Block(ref blocks, k), ref own);
                for (int i = start[k]; i < start[k + 1]; i++)
                {
                    BlockKernels.SubtractTransposedProduct(ref Block(ref panel, column[i]), ref Block(ref blocks, off[i]), ref own);
                }
            }

            for (int k = positions - 1; k >= 0; k--)
            {
                ref double own = ref Block(ref panel, k);
                for (int i = start[k]; i < start[k + 1]; i++)
                {
                    BlockKernels.SubtractProduct(ref own, ref Block(ref blocks, off[i]), ref Block(ref panel, column[i]));
                }

                BlockKernels.SolveUpper(ref Block(ref blocks, k), ref own);
            }
        }
    }

    /// <summary>Motion of a node in a load case.</summary>
    public Motion MotionOf(int node, int column)
    {
        int position = _plan.Position[node];
        if (position < 0)
        {
            return default;
        }

        int at = Index(column, position);
        return new(
            new(_solution[at], _solution[at + 8], _solution[at + 16]),
            new(_solution[at + 24], _solution[at + 32], _solution[at + 40]));
    }

    /// <summary>The largest rotation of any node in a sum of load cases, rad.</summary>
    /// <param name="factors">How much of each case: <see cref="Panels"/> times <see cref="ColumnsPerPanel"/> values.</param>
    public double LargestRotationRad(ReadOnlySpan<double> factors) => RotationSearch.LargestRad(_solution, _plan.Positions, factors);

    /// <summary>The wrench on a member from its end b, at its point P, in a load case. Valid after <see cref="Recover"/>.</summary>
    public Wrench WrenchOn(int member, int column)
    {
        int at = (((column / ColumnsPerPanel * _member.Length) + member) * BlockKernels.BlockSize) + (column % ColumnsPerPanel);
        return new(
            new(_wrench[at], _wrench[at + 8], _wrench[at + 16]),
            new(_wrench[at + 24], _wrench[at + 32], _wrench[at + 40]));
    }

    /// <summary>
    /// Finds the wrench in every member from the node motions and checks each node's equilibrium with them. Uses up the
    /// loads: what is left of them at each node is its imbalance.
    /// </summary>
    /// <returns>
    /// The largest imbalance of a free freedom over all load cases, as a share of the largest load component of its kind
    /// in that case (moments against moments and forces times <paramref name="leverMm"/>).
    /// </returns>
    /// <param name="leverMm">A length of the frame that makes forces and moments comparable.</param>
    public double Recover(double leverMm) => MemberRecovery.Recover(this, _plan, _position, _member, _solution, _load, _wrench, leverMm);

    private void Assemble()
    {
        _blocks.Span.Clear();
        ref double blocks = ref _blocks.Origin;
        ReadOnlySpan<MemberScatter> scatter = _plan.Scatter.AsSpan();
        ReadOnlySpan<MemberEnds> ends = Topology.Members.AsSpan();
        for (int e = 0; e < scatter.Length; e++)
        {
            MemberScatter to = scatter[e];
            (int first, int second) = to.BFirst ? (ends[e].B, ends[e].A) : (ends[e].A, ends[e].B);
            (int atFirst, int atSecond) = to.BFirst ? (to.B, to.A) : (to.A, to.B);
            MemberAssembly.Add(ref blocks, _member[e], _position, first, second, atFirst, atSecond, to.Off);
        }

        foreach (HeldRows held in _plan.PartlyHeld)
        {
            Hold(held);
        }
    }

    private void Hold(HeldRows held)
    {
        foreach (int f in held.Freedoms)
        {
            for (int i = 0; i < BlockKernels.Freedoms; i++)
            {
                int at = held.Position * BlockKernels.BlockSize;
                _blocks[at + (f * BlockKernels.Stride) + i] = 0;
                _blocks[at + (i * BlockKernels.Stride) + f] = 0;
                foreach (int b in held.RowBlocks)
                {
                    _blocks[(b * BlockKernels.BlockSize) + (f * BlockKernels.Stride) + i] = 0;
                }

                foreach (int b in held.ColumnBlocks)
                {
                    _blocks[(b * BlockKernels.BlockSize) + (i * BlockKernels.Stride) + f] = 0;
                }
            }

            _blocks[(held.Position * BlockKernels.BlockSize) + (f * (BlockKernels.Stride + 1))] = 1;
        }
    }

    private int Index(int column, int position) =>
        (((column / ColumnsPerPanel * _plan.Positions) + position) * BlockKernels.BlockSize) + (column % ColumnsPerPanel);

    private static double Component(in Wrench w, int i) => i switch
    {
        0 => w.ForceN.X,
        1 => w.ForceN.Y,
        2 => w.ForceN.Z,
        3 => w.MomentNmm.X,
        4 => w.MomentNmm.Y,
        _ => w.MomentNmm.Z,
    };

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static ref double Block(ref double origin, int block) => ref Unsafe.Add(ref origin, block * BlockKernels.BlockSize);
}
