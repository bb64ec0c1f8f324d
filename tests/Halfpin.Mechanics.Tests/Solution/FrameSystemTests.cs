using CsCheck;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.Mechanics.Tests.Frames;
using Xunit;

namespace Halfpin.Mechanics.Tests.Solution;

public class FrameSystemTests
{
    [Fact]
    public void System_afterWarmUp_solvesWithoutAllocation()
    {
        TestFrame frame = FrameGen.Frame.Single();
        FrameSystem system = frame.System(12);
        void Once()
        {
            for (int n = 0; n < frame.Nodes.Count; n++)
            {
                system.SetNode(n, frame.Nodes[n]);
            }

            system.SetMember(0, Beam.Stiffness(frame.Nodes[frame.Beams[0].A], frame.Nodes[frame.Beams[0].B], frame.Beams[0].Moduli, frame.Beams[0].Section, frame.Beams[0].Theory, frame.Beams[0].Towards2));
            system.Factorise();
            system.ClearLoads();
            system.AddLoad(3, 2, frame.Nodes[2], new(new(1, 2, 3), new(4, 5, 6)));
            system.Solve();
            system.Recover(100);
        }

        Once();
        long before = GC.GetAllocatedBytesForCurrentThread();
        Once();

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void System_onTwoThreads_givesTheSameBitsAsOnOne()
    {
        TestFrame frame = FrameGen.Frame.Single();
        frame.Solve(out FrameSystem first);
        FrameSystem second = first.ForAnotherThread();
        Motion there = default;
        Thread thread = new(() =>
        {
            for (int n = 0; n < frame.Nodes.Count; n++)
            {
                second.SetNode(n, frame.Nodes[n]);
            }

            for (int m = 0; m < first.Topology.Members.Length; m++)
            {
                second.SetMember(m, first.Member(m));
            }

            second.Factorise();
            foreach (TestLoad l in frame.Loads)
            {
                second.AddLoad(0, l.Node, frame.Nodes[l.Node], new(l.Force, l.Moment));
            }

            second.Solve();
            there = second.MotionOf(1, 0);
        });
        thread.Start();
        thread.Join();

        Assert.Equal(first.MotionOf(1, 0), there);
    }

    [Fact]
    public void System_unheldFrame_saysSoAndNamesAFreedom()
    {
        FrameSystem system = new(new(2, [new(0, 1)], []), 1);
        system.SetNode(0, new(1, 2, 3));
        system.SetNode(1, new(41, -12, 23));
        system.SetMember(0, Beam.Stiffness(system.Node(0), system.Node(1), new(1e5, 4e4), Section.Round(5, 0, 0.9), BeamTheory.EulerBernoulli, Vec3.UnitZ));

        FactorOutcome outcome = system.Factorise();

        Assert.False(outcome.IsStable);
        Assert.InRange(outcome.Node, 0, 1);
        Assert.InRange(outcome.Freedom, 0, 5);
    }

    [Fact]
    public void System_wrongLeftOver_isSeenByTheBalance()
    {
        // Solve one frame, then change its members before recovery: the imbalance must show it.
        TestFrame frame = FrameGen.Frame.Single();
        frame.Solve(out FrameSystem system);
        for (int m = 0; m < frame.Beams.Count; m++)
        {
            MemberStiffness s = system.Member(m);
            system.SetMember(m, s with { ForcePerTranslation = 1.01 * s.ForcePerTranslation });
        }

        Assert.True(system.Recover(100) > 1e-6);
    }

    [Fact]
    public void Topology_memberFromNodeToItself_isRefused() =>
        Assert.Throws<ArgumentException>(() => new FrameTopology(3, [new(1, 1)], []));

    [Fact]
    public void Topology_nodeOutOfRange_isRefused() =>
        Assert.Throws<ArgumentException>(() => new FrameTopology(3, [new(1, 3)], []));

    [Fact]
    public void Topology_twoSupportsOnANode_isRefused() =>
        Assert.Throws<ArgumentException>(() => new FrameTopology(3, [], [new(1, Freedoms.Ux), new(1, Freedoms.Uy)]));
}
