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
    public void Finder_springReleasedAlongAndAboutAnAxis_findsThatSlideAndThatTurn()
    {
        TestFrame frame = Bar(new(0, 1e4, 2e4), new(0, 3e6, 4e6));
        FrameSystem system = frame.System();

        Assert.False(system.Factorise().IsStable);
        ImmutableArray<FreeMotion> free = FreeMotionFinder.Find(system);

        Assert.Equal(2, free.Length);
        Vec3 axis = frame.Springs[0].Axes.Transposed() * Vec3.UnitX;
        foreach (FreeMotion motion in free)
        {
            Motion across = motion.Across(system, 1);
            Assert.Equal(0, across.TranslationMm.Cross(axis).Length, 1e-6 * (across.TranslationMm.Length + (100 * across.RotationRad.Length)));
        }
    }

    [Fact]
    public void Finder_sameFrameTwice_givesTheSameBits()
    {
        FrameSystem system = Bar(new(0, 1e4, 2e4), new(0, 3e6, 4e6)).System();

        Assert.Equal(FreeMotionFinder.Find(system)[0].Nodes, FreeMotionFinder.Find(system)[0].Nodes);
    }

    // A bar held by one spring at its end.
    private static TestFrame Bar(Vec3 translation, Vec3 rotation)
    {
        Mat3 axes = FrameGen.Rotation.Single();
        TestFrame any = FrameGen.Frame.Single();
        return new(
            [new(0, 0, 0), new(31, 47, -23)],
            [any.Beams[0] with { A = 0, B = 1, Towards2 = new(0.1, 0.2, 0.9) }],
            [new(0, FrameTopology.Ground, new(1, 2, 3), axes, translation, rotation)],
            [], []);
    }
}
