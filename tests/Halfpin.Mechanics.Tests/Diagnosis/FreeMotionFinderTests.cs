using System.Collections.Immutable;
using CsCheck;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Diagnosis;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Mechanics.Tests.Frames;
using Xunit;

namespace Halfpin.Mechanics.Tests.Diagnosis;

public class FreeMotionFinderTests
{
    [Fact]
    public void Finder_heldFrame_findsNothing() => FrameGen.Frame.Sample(
        frame =>
        {
            FrameSystem system = frame.System();
            return system.Factorise().IsStable && FreeMotionFinder.Find(system).IsEmpty;
        },
        iter: 100);

    [Fact]
    public void Finder_frameWithoutSupports_findsTheSixMotionsOfARigidBody() => FrameGen.Frame.Sample(
        frame =>
        {
            TestFrame floating = frame with { Supports = [], Springs = [frame.Springs[1]] };
            FrameSystem system = floating.System();
            return !system.Factorise().IsStable && FreeMotionFinder.Find(system).Length == 6;
        },
        iter: 100);

    [Fact]
    public void Finder_freeMotion_strainsNoMember()
    {
        TestFrame frame = FrameGen.Frame.Single();
        FrameSystem system = (frame with { Supports = [], Springs = [frame.Springs[1]] }).System();
        foreach (FreeMotion motion in FreeMotionFinder.Find(system))
        {
            double size = motion.Nodes.Max(n => n.TranslationMm.Length + (100 * n.RotationRad.Length));
            for (int m = 0; m < system.Topology.Members.Length; m++)
            {
                Motion across = motion.Across(system, m);

                // A beam's relative motion at its middle vanishes in a rigid motion; 1e-6 of it is far below any real strain.
                Assert.Equal(0, across.TranslationMm.Length / size, 1e-6);
            }
        }
    }

    [Fact]
    public void Finder_springReleasedAlongAndAboutAnAxis_findsThatSlideAndThatTurn() => Gen.Select(FrameGen.Rotation, FrameGen.Frame).Sample(
        (axes, any) =>
        {
            TestFrame frame = Bar(axes, any.Beams[0]);
            FrameSystem system = frame.System();
            ImmutableArray<FreeMotion> free = FreeMotionFinder.Find(system);
            Vec3 axis = frame.Springs[0].Axes.Transposed() * Vec3.UnitX;
            return free.Length == 2 && free.All(motion =>
            {
                Motion across = motion.Across(system, 1);
                double size = across.TranslationMm.Length + (100 * across.RotationRad.Length);
                return across.TranslationMm.Cross(axis).Length < 1e-6 * size && 100 * across.RotationRad.Cross(axis).Length < 1e-6 * size;
            });
        },
        iter: 2000);

    [Fact]
    public void LostFrame_isSeenByItsPivotsOrByItsBalance() => Gen.Select(FrameGen.Rotation, FrameGen.Frame).Sample(
        (axes, any) =>
        {
            // Rounding may leave a free motion a trace of stiffness and let the factorisation pass; the balance then shows it.
            TestFrame frame = Bar(axes, any.Beams[0]) with { Loads = [new(1, new(1, 2, 3), new(40, 50, 60))] };
            FrameSystem system = frame.System();
            if (!system.Factorise().IsStable)
            {
                return true;
            }

            system.AddLoad(0, 1, frame.Nodes[1], new(frame.Loads[0].Force, frame.Loads[0].Moment));
            system.Solve();
            return system.Recover(100) > 1e-3;
        },
        iter: 5000);

    [Fact]
    public void Finder_sameFrameTwice_givesTheSameBits()
    {
        FrameSystem system = Bar(FrameGen.Rotation.Single(), FrameGen.Frame.Single().Beams[0]).System();

        Assert.Equal(FreeMotionFinder.Find(system)[0].Nodes, FreeMotionFinder.Find(system)[0].Nodes);
    }

    // A bar held at its end by one spring that gives way along its first axis and about it.
    private static TestFrame Bar(Mat3 axes, TestBeam like) => new(
        [new(0, 0, 0), new(31, 47, -23)],
        [like with { A = 0, B = 1, Towards2 = new(0.1, 0.2, 0.9) }],
        [new(0, FrameTopology.Ground, new(1, 2, 3), axes, new(0, 1e4, 2e4), new(0, 3e6, 4e6))],
        [], []);
}
