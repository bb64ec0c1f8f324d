using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Path;
using Halfpin.TestKit.Paths;
using Xunit;

namespace Halfpin.Mechanics.Tests.Path;

/// <summary>Slides between stops on a load path: solutions by hand (DERIVED; springs in parallel and in line).</summary>
public class StopPathTests
{
    private const double K1 = 310, K2 = 470, Stop = 0.37, Friction = 53;

    [Fact]
    public void Slide_upToItsStop_leavesTheOtherSpringAloneAndThenBothCarry()
    {
        LoadPath path = PathRun.Follow(TwoSprings(0, -2, Stop), 300);

        Assert.Equal("Stop0", PathRun.Story(path));
        Assert.Equal(K1 * Stop, path.Events[0].LoadFactor, 1e-10);
        Assert.Equal(Stop, path[1].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal(Stop + ((300 - (K1 * Stop)) / (K1 + K2)), path[2].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal(K2 * (path[2].SiteMotion.TranslationMm.Z - Stop), path[2].ComponentForces[0], 1e-9);
    }

    [Fact]
    public void Slide_withoutFriction_upAndBack_closesAndDissipatesNothing()
    {
        LoadPath path = PathRun.Follow(TwoSprings(0, -2, Stop), 300, andBack: true);

        Assert.Equal("Stop0 Leave0", PathRun.Story(path));
        Assert.Equal(K1 * Stop, path.Events[1].LoadFactor, 1e-9);
        Assert.Equal(0, path.PermanentSet!.Value.TranslationMm.Z, 1e-12);
        Assert.Equal(0, path[path.PointCount - 1].DissipatedNmm, 1e-9);
        Assert.Equal(0, path[path.PointCount - 1].Dislocations[0], 1e-12);
    }

    [Fact]
    public void SlideWithFriction_upToItsStopAndBack_isHeldUntilItsForceHasTurned()
    {
        // Up: both springs to friction at F(k1+k2)/k2, then k1 alone while the slide runs, then both again from p = stop.
        LoadPath path = PathRun.Follow(TwoSprings(Friction, -2, Stop), 470, andBack: true);

        double slips = Friction * (K1 + K2) / K2, stops = (K1 * (Stop + (Friction / K2))) + Friction;
        double top = (470 + (K2 * Stop)) / (K1 + K2), force = K2 * (top - Stop);
        double leaves = 470 - ((force + Friction) * (K1 + K2) / K2);
        Assert.Equal("Slip0 Stop0 Leave0", PathRun.Story(path));
        Assert.Equal(slips, path.Events[0].LoadFactor, 1e-9);
        Assert.Equal(stops, path.Events[1].LoadFactor, 1e-9);
        Assert.Equal(leaves, path.Events[2].LoadFactor, 1e-9);
        Assert.Equal(Friction / K1, path.PermanentSet!.Value.TranslationMm.Z, 1e-10);
    }

    [Fact]
    public void OneWaySlide_pressedAgainstItsWay_isThatOfATightSpring()
    {
        LoadPath path = PathRun.Follow(TwoSprings(0, -2, 0), 300, andBack: true);

        Assert.Equal("", PathRun.Story(path));
        Assert.Equal(300 / (K1 + K2), path[path.TopPoint].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal(0, path.PermanentSet!.Value.TranslationMm.Z, 1e-12);
    }

    [Fact]
    public void OneWaySlide_alongItsWay_carriesNothingAndComesBackToItsStop()
    {
        LoadPath path = PathRun.Follow(TwoSprings(0, 0, double.PositiveInfinity), 300, andBack: true);

        Assert.Equal("", PathRun.Story(path));
        Assert.Equal(300 / K1, path[path.TopPoint].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal(0, path.PermanentSet!.Value.TranslationMm.Z, 1e-12);
    }

    [Fact]
    public void FreeSlide_thatTheLoadDrives_runsToItsStopAndHangsOnIt()
    {
        StepModel model = PathRun.Body(-Vec3.UnitZ, default, [Stiff(K2, default)], [YieldingComponent.Slide(0, Vec3.UnitZ, 0, -Stop, 2)]);
        LoadPath path = PathRun.Follow(model, 90, andBack: true);

        Assert.Equal("Plateau0 Stop0", PathRun.Story(path));
        Assert.Equal(-Stop, path[1].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal(-Stop - (90 / K2), path[path.TopPoint].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal(-Stop, path.PermanentSet!.Value.TranslationMm.Z, 1e-10);
    }

    [Fact]
    public void Stop_beyondTheGap_leavesTheLoadToTheContactThatComesFirst()
    {
        ContactPoint bone = new(default, Vec3.UnitZ, 0.2, 3100);
        StepModel model = PathRun.Body(-Vec3.UnitZ, default, [Stiff(K2, default)], [YieldingComponent.Slide(0, Vec3.UnitZ, 0, -Stop, 2)], bone);
        LoadPath path = PathRun.Follow(model, 900);

        // The bone alone until it has given what is left to the stop, both beyond it.
        double both = 3100 * (Stop - 0.2);
        Assert.Equal("Plateau0 Close0 Stop0", PathRun.Story(path));
        Assert.Equal(both, path.Events[2].LoadFactor, 1e-8);
        Assert.Equal(-Stop - ((900 - both) / (3100 + K2)), path[path.TopPoint].SiteMotion.TranslationMm.Z, 1e-12);
    }

    [Fact]
    public void TwoSlidesInLine_withoutFriction_runToTheSumOfTheirStops()
    {
        // The force is nothing in both: which of them runs first is open, the motion is not.
        StepModel model = PathRun.Body(
            Vec3.UnitZ,
            default,
            [Stiff(K1, default), Stiff(K2, default)],
            [YieldingComponent.Slide(1, Vec3.UnitZ, 0, -1, Stop), YieldingComponent.Slide(1, Vec3.UnitZ, 0, -1, 0.2)]);
        LoadPath path = PathRun.Follow(model, 300, andBack: true);

        Assert.Equal(PathStatus.Complete, path.Status);
        Assert.Equal(Stop + 0.2 + ((300 - (K1 * (Stop + 0.2))) / (K1 + K2)), path[path.TopPoint].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal(0, path.PermanentSet!.Value.TranslationMm.Z, 1e-12);
    }

    [Fact]
    public void TwoSlides_thatReachTheirStopsTogether_doSoInOneCorner()
    {
        StepModel model = PathRun.Body(
            Vec3.UnitZ,
            default,
            [Stiff(K1, default), Stiff(K2, new(17, 0, 0)), Stiff(K2, new(-17, 0, 0))],
            [YieldingComponent.Slide(1, Vec3.UnitZ, 0, -1, Stop), YieldingComponent.Slide(2, Vec3.UnitZ, 0, -1, Stop)]);
        LoadPath path = PathRun.Follow(model, 500, andBack: true);

        Assert.Equal(4, path.Events.Length);
        Assert.Equal(K1 * Stop, path.Events[1].LoadFactor, 1e-9);
        Assert.Equal(Stop + ((500 - (K1 * Stop)) / (K1 + (2 * K2))), path[path.TopPoint].SiteMotion.TranslationMm.Z, 1e-10);
        Assert.Equal(0, path[path.TopPoint].SiteMotion.RotationRad.Length, 1e-12);
    }

    [Fact]
    public void Slide_thatStartsBeyondAStop_isRefused() =>
        Assert.Throws<ArgumentException>(() => PathRun.Response(TwoSprings(0, 0.1, Stop)));

    private static StepModel TwoSprings(double resistanceN, double leastMm, double mostMm) => PathRun.Body(
        Vec3.UnitZ, default, [Stiff(K1, default), Stiff(K2, default)], [YieldingComponent.Slide(1, Vec3.UnitZ, resistanceN, leastMm, mostMm)]);

    // Stiffness k along z and more in all else.
    private static MemberStiffness Stiff(double k, Vec3 at) => PathRun.Spring(at, new(7100, 5300, k), new(3.1e6, 2.9e6, 1.7e6));
}
