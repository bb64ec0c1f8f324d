using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;

namespace Halfpin.Mechanics.Solution;

/// <summary>Member wrenches from node motions, and the balance of every node with them: eight load cases at a time.</summary>
internal static class MemberRecovery
{
    public static double Recover(
        FrameSystem system, EliminationPlan plan, Vec3[] position, MemberStiffness[] member,
        VectorBuffer solution, VectorBuffer load, VectorBuffer wrench, double leverMm)
    {
        ref double x = ref solution.Origin;
        ref double rest = ref load.Origin;
        ref double q = ref wrench.Origin;
        ReadOnlySpan<MemberScatter> scatter = plan.Scatter.AsSpan();
        ReadOnlySpan<MemberEnds> ends = plan.Topology.Members.AsSpan();
        int panelSize = plan.Positions * BlockKernels.BlockSize;
        double worst = 0;
        for (int p = 0; p < system.Panels; p++)
        {
            ref double motions = ref Unsafe.Add(ref x, p * panelSize);
            ref double balance = ref Unsafe.Add(ref rest, p * panelSize);
            (Vector512<double> force, Vector512<double> moment) size = LoadSize(ref balance, plan.Positions, leverMm);
            for (int e = 0; e < member.Length; e++)
            {
                Panel six = Relative(ref motions, scatter[e], ends[e], position, member[e]);
                six = Times(member[e], six);
                six.Store(ref Unsafe.Add(ref q, ((p * member.Length) + e) * BlockKernels.BlockSize));
                if (scatter[e].A >= 0)
                {
                    Return(ref Unsafe.Add(ref balance, scatter[e].A * BlockKernels.BlockSize), six, member[e].AtMm - position[ends[e].A], 1);
                }

                if (scatter[e].B >= 0)
                {
                    Return(ref Unsafe.Add(ref balance, scatter[e].B * BlockKernels.BlockSize), six, member[e].AtMm - position[ends[e].B], -1);
                }
            }

            worst = Math.Max(worst, Imbalance(ref balance, plan, size));
        }

        return worst;
    }

    private static (Vector512<double> Force, Vector512<double> Moment) LoadSize(ref double load, int positions, double leverMm)
    {
        Vector512<double> force = default, moment = default;
        for (int k = 0; k < positions; k++)
        {
            ref double b = ref Unsafe.Add(ref load, k * BlockKernels.BlockSize);
            for (int i = 0; i < 3; i++)
            {
                force = Vector512.Max(force, Vector512.Abs(BlockKernels.Row(ref b, i)));
                moment = Vector512.Max(moment, Vector512.Abs(BlockKernels.Row(ref b, i + 3)));
            }
        }

        Vector512<double> whole = Vector512.Max(force * leverMm, moment);
        return (whole / Vector512.Create(leverMm), whole);
    }

    private static double Imbalance(ref double rest, EliminationPlan plan, (Vector512<double> Force, Vector512<double> Moment) size)
    {
        // After every member has returned its wrench, the load array holds what is left at each node. Held freedoms keep
        // their reaction and are passed over.
        ReadOnlySpan<int> nodeAt = plan.NodeAt.AsSpan();
        Vector512<double> worst = default;
        for (int k = 0; k < nodeAt.Length; k++)
        {
            int held = (int)plan.Topology.Held[nodeAt[k]];
            ref double b = ref Unsafe.Add(ref rest, k * BlockKernels.BlockSize);
            for (int i = 0; i < BlockKernels.Freedoms; i++)
            {
                if ((held >> i & 1) == 0)
                {
                    Vector512<double> scale = i < 3 ? size.Force : size.Moment;
                    Vector512<double> share = Vector512.Abs(BlockKernels.Row(ref b, i)) / scale;
                    worst = Vector512.Max(worst, Vector512.ConditionalSelect(Vector512.GreaterThan(scale, default), share, default));
                }
            }
        }

        double largest = 0;
        for (int c = 0; c < Vector512<double>.Count; c++)
        {
            largest = Math.Max(largest, worst.GetElement(c));
        }

        return largest;
    }

    private static Panel Relative(ref double motions, MemberScatter at, MemberEnds ends, Vec3[] position, in MemberStiffness s)
    {
        Panel a = at.A < 0 ? default : Panel.MotionAt(ref Unsafe.Add(ref motions, at.A * BlockKernels.BlockSize), s.AtMm - position[ends.A]);
        Panel b = at.B < 0 ? default : Panel.MotionAt(ref Unsafe.Add(ref motions, at.B * BlockKernels.BlockSize), s.AtMm - position[ends.B]);
        return new(b.R0 - a.R0, b.R1 - a.R1, b.R2 - a.R2, b.R3 - a.R3, b.R4 - a.R4, b.R5 - a.R5);
    }

    private static Panel Times(in MemberStiffness s, in Panel d)
    {
        Mat3 n = s.ForcePerTranslation, q = s.ForcePerRotation, m = s.MomentPerRotation;
        return new(
            (d.R0 * n.XX) + (d.R1 * n.XY) + (d.R2 * n.XZ) + (d.R3 * q.XX) + (d.R4 * q.XY) + (d.R5 * q.XZ),
            (d.R0 * n.YX) + (d.R1 * n.YY) + (d.R2 * n.YZ) + (d.R3 * q.YX) + (d.R4 * q.YY) + (d.R5 * q.YZ),
            (d.R0 * n.ZX) + (d.R1 * n.ZY) + (d.R2 * n.ZZ) + (d.R3 * q.ZX) + (d.R4 * q.ZY) + (d.R5 * q.ZZ),
            (d.R0 * q.XX) + (d.R1 * q.YX) + (d.R2 * q.ZX) + (d.R3 * m.XX) + (d.R4 * m.XY) + (d.R5 * m.XZ),
            (d.R0 * q.XY) + (d.R1 * q.YY) + (d.R2 * q.ZY) + (d.R3 * m.YX) + (d.R4 * m.YY) + (d.R5 * m.YZ),
            (d.R0 * q.XZ) + (d.R1 * q.YZ) + (d.R2 * q.ZZ) + (d.R3 * m.ZX) + (d.R4 * m.ZY) + (d.R5 * m.ZZ));
    }

    // End b exerts q on the member, so the node at b loses q and the node at a gains it: moments move along the arm r.
    private static void Return(ref double rest, in Panel q, Vec3 r, double sign)
    {
        Panel.AddTo(ref rest, 0, q.R0, sign);
        Panel.AddTo(ref rest, 1, q.R1, sign);
        Panel.AddTo(ref rest, 2, q.R2, sign);
        Panel.AddTo(ref rest, 3, q.R3 + (q.R2 * r.Y) - (q.R1 * r.Z), sign);
        Panel.AddTo(ref rest, 4, q.R4 + (q.R0 * r.Z) - (q.R2 * r.X), sign);
        Panel.AddTo(ref rest, 5, q.R5 + (q.R1 * r.X) - (q.R0 * r.Y), sign);
    }

    /// <summary>Six components in eight load cases.</summary>
    private readonly struct Panel(
        Vector512<double> r0, Vector512<double> r1, Vector512<double> r2, Vector512<double> r3, Vector512<double> r4, Vector512<double> r5)
    {
        public Vector512<double> R0 { get; } = r0;

        public Vector512<double> R1 { get; } = r1;

        public Vector512<double> R2 { get; } = r2;

        public Vector512<double> R3 { get; } = r3;

        public Vector512<double> R4 { get; } = r4;

        public Vector512<double> R5 { get; } = r5;

        public static Panel MotionAt(ref double node, Vec3 r)
        {
            Vector512<double> rx = BlockKernels.Row(ref node, 3), ry = BlockKernels.Row(ref node, 4), rz = BlockKernels.Row(ref node, 5);
            return new(
                BlockKernels.Row(ref node, 0) + (ry * r.Z) - (rz * r.Y),
                BlockKernels.Row(ref node, 1) + (rz * r.X) - (rx * r.Z),
                BlockKernels.Row(ref node, 2) + (rx * r.Y) - (ry * r.X),
                rx, ry, rz);
        }

        public static void AddTo(ref double rest, int row, Vector512<double> value, double sign) =>
            (BlockKernels.Row(ref rest, row) + (value * sign)).StoreUnsafe(ref rest, (nuint)(row * BlockKernels.Stride));

        public void Store(ref double to)
        {
            R0.StoreUnsafe(ref to, 0);
            R1.StoreUnsafe(ref to, 8);
            R2.StoreUnsafe(ref to, 16);
            R3.StoreUnsafe(ref to, 24);
            R4.StoreUnsafe(ref to, 32);
            R5.StoreUnsafe(ref to, 40);
        }
    }
}
