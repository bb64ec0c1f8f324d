using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Path;
using Halfpin.TestKit.Paths;
using Xunit;

namespace Halfpin.Mechanics.Tests.Path;

/// <summary>Paths of a rigid body on springs, against solutions by hand (DERIVED; elastic–perfectly plastic springs in parallel and in line).</summary>
public class SpringPathTests
{
    private const double K1 = 310, K2 = 470, Capacity = 120;

    [Fact]
    public void TwoSprings_oneYields_haveStiffnessOfBothThenOfOne()
    {
        LoadPath path = PathRun.Follow(TwoSprings(Capacity), 300);

        double first = (K1 + K2) * Capacity / K2;
        Assert.Equal(PathStatus.Complete, path.Status);
        Assert.Equal("Slip0", PathRun.Story(path));
        Assert.Equal(first, path.Events[0].LoadFactor, 1e-10);
        Assert.Equal(first / (K1 + K2), path[1].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal((300 - Capacity) / K1, path[2].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal(Capacity, path[2].ComponentForces[0], 1e-10);
    }

    [Fact]
    public void TwoSprings_unloaded_keepTheYieldedLengthLessTheElasticReturn()
    {
        LoadPath path = PathRun.Follow(TwoSprings(Capacity), 300, andBack: true);

        double set = ((300 - Capacity) / K1) - (300 / (K1 + K2));
        Assert.Equal("Slip0 Stick0", PathRun.Story(path));
        Assert.Equal(set, path.PermanentSet!.Value.TranslationMm.Z, 1e-12);
        Assert.Equal(-K1 * set, path[path.PointCount - 1].ComponentForces[0], 1e-9);
        Assert.Equal(Capacity * path[2].Dislocations[0], path[path.PointCount - 1].DissipatedNmm, 1e-9);
    }

    [Fact]
    public void TwoSprings_unloadedFromFar_yieldBackwards()
    {
        // At no load the elastic spring is held by the yielding one at its capacity: u = Q/k1.
        LoadPath path = PathRun.Follow(TwoSprings(Capacity), 470, andBack: true);

        Assert.Equal("Slip0 Stick0 Slip0", PathRun.Story(path));
        Assert.Equal(Capacity / K1, path.PermanentSet!.Value.TranslationMm.Z, 1e-12);
        Assert.Equal(470 - (2 * Capacity * (K1 + K2) / K2), path.Events[2].LoadFactor, 1e-9);
    }

    [Fact]
    public void OneSpring_atItsCapacity_givesWay()
    {
        StepModel model = PathRun.Body(Vec3.UnitZ, default, [Stiff(K2, default)], [YieldingComponent.Force(0, Vec3.UnitZ, Capacity)]);
        LoadPath path = PathRun.Follow(model, 300, andBack: true);

        Assert.Equal(PathStatus.GivesWay, path.Status);
        Assert.Equal(Capacity, path.ReachedLoadFactor, 1e-10);
        Assert.Equal([0], path.GivingComponents.ToArray());
        Assert.True(path.Mechanism[0] > 0);
        Assert.Null(path.PermanentSet);
    }

    [Fact]
    public void LoadTowardsMinus_yieldsTowardsMinus()
    {
        StepModel model = PathRun.Body(-Vec3.UnitZ, default, [Stiff(K2, default)], [YieldingComponent.Force(0, Vec3.UnitZ, Capacity)]);

        Assert.True(PathRun.Follow(model, 300).Mechanism[0] < 0);
    }

    [Fact]
    public void FreeSlide_thatTheLoadDrives_runsToTheContactAndLeansOnIt()
    {
        ContactPoint stop = new(default, Vec3.UnitZ, 3, 3100);
        StepModel model = PathRun.Body(-Vec3.UnitZ, default, [Stiff(K2, default)], [YieldingComponent.Force(0, Vec3.UnitZ, 0)], stop);
        LoadPath path = PathRun.Follow(model, 90, andBack: true);

        Assert.Equal("Plateau0 Close0", PathRun.Story(path));
        Assert.Equal(0, path.Events[0].LoadFactor);
        Assert.Equal(-3, path[1].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal(-3 - (90 / 3100.0), path[path.TopPoint].SiteMotion.TranslationMm.Z, 1e-12);
        Assert.Equal(90, path[path.TopPoint].ContactForcesN[0], 1e-8);
        Assert.Equal(-3, path.PermanentSet!.Value.TranslationMm.Z, 1e-9);
    }

    [Fact]
    public void FreeSlide_acrossTheLoad_doesNotStopThePath()
    {
        StepModel model = PathRun.Body(new(1, 0, 0), default, [Stiff(K2, default)], [YieldingComponent.Force(0, Vec3.UnitZ, 0)]);
        LoadPath path = PathRun.Follow(model, 90, andBack: true);

        Assert.Equal(PathStatus.Complete, path.Status);
        Assert.Equal("", PathRun.Story(path));
        Assert.Equal(0, path.PermanentSet!.Value.TranslationMm.Length, 1e-12);
    }

    [Fact]
    public void FrictionOfALooseSlide_beforeTheContact_isCarriedOn()
    {
        // Friction 7 N: nothing but elastic give below it, then 3 mm of way, then the contact takes the rest.
        ContactPoint stop = new(default, Vec3.UnitZ, 3, 3100);
        StepModel model = PathRun.Body(-Vec3.UnitZ, default, [Stiff(K2, default)], [YieldingComponent.Force(0, Vec3.UnitZ, 7)], stop);
        LoadPath path = PathRun.Follow(model, 290, andBack: true);

        Assert.Equal("Slip0 Plateau0 Close0 Stick0 Slip0", PathRun.Story(path));
        Assert.Equal(7, path.Events[1].LoadFactor, 1e-10);
        Assert.Equal(283, path[path.TopPoint].ContactForcesN[0], 1e-8);
        Assert.Equal(7, path[path.PointCount - 1].ContactForcesN[0], 1e-8);
    }

    [Fact]
    public void TwoComponentsInLine_withTheSameCapacity_giveWayAsOne()
    {
        // The force is the same in both; which of them moves is open, the motion is not.
        StepModel model = PathRun.Body(
            Vec3.UnitZ,
            default,
            [Stiff(K1, default), Stiff(K2, default)],
            [YieldingComponent.Force(1, Vec3.UnitZ, Capacity), YieldingComponent.Force(1, Vec3.UnitZ, Capacity)]);
        LoadPath path = PathRun.Follow(model, 300, andBack: true), single = PathRun.Follow(TwoSprings(Capacity), 300, andBack: true);

        Assert.Equal(PathStatus.Complete, path.Status);
        Assert.Equal(single.PermanentSet!.Value.TranslationMm.Z, path.PermanentSet!.Value.TranslationMm.Z, 1e-12);
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 0)]
    public void SymmetricSprings_thatYieldTogether_haveOneAnswerInEitherOrder(int left, int right)
    {
        // Two springs at ±17 mm beside one in the middle that stays: the body goes straight down, F = k0 u + 2Q.
        StepModel model = PathRun.Body(
            Vec3.UnitZ,
            default,
            [Stiff(K1, default), Stiff(K2, new(17, 0, 0)), Stiff(K2, new(-17, 0, 0))],
            [YieldingComponent.Force(1 + left, Vec3.UnitZ, Capacity), YieldingComponent.Force(1 + right, Vec3.UnitZ, Capacity)]);
        LoadPath path = PathRun.Follow(model, 500);

        Assert.Equal(2, path.Events.Length);
        Assert.Equal(path.Events[0].LoadFactor, path.Events[1].LoadFactor, 1e-10);
        Assert.Equal((500 - (2 * Capacity)) / K1, path[path.TopPoint].SiteMotion.TranslationMm.Z, 1e-10);
        Assert.Equal(0, path[path.TopPoint].SiteMotion.RotationRad.Length, 1e-12);
    }

    [Fact]
    public void Path_longerThanItsMemory_endsWithWhatItHas()
    {
        StepModel model = TwoSprings(Capacity);
        LoadPath path = new(1, 0, maxPoints: 2);
        path.Run(PathRun.Response(model), [], new(Vec3.UnitZ, default), 300, andBack: false);

        Assert.Equal(PathStatus.NotConverged, path.Status);
        Assert.Equal(PathFault.TooManyEvents, path.Fault);
        Assert.Equal((K1 + K2) * Capacity / K2, path.ReachedLoadFactor, 1e-10);
    }

    [Fact]
    public void Component_withoutStiffness_isRefused()
    {
        StepModel model = PathRun.Body(Vec3.UnitZ, default, [Stiff(K1, default), PathRun.Spring(default, new(0, 5, 5), default)], [YieldingComponent.Force(1, Vec3.UnitX, 3)]);

        Assert.Throws<ArgumentException>(() => PathRun.Response(model));
    }

    [Theory]
    [InlineData(2.0, 3)]
    [InlineData(1.0, -3)]
    public void Component_withoutUnitDirectionOrWithNegativeCapacity_isRefused(double length, double capacity)
    {
        StepModel model = PathRun.Body(Vec3.UnitZ, default, [Stiff(K1, default)], [YieldingComponent.Force(0, length * Vec3.UnitX, capacity)]);

        Assert.Throws<ArgumentException>(() => PathRun.Response(model));
    }

    [Fact]
    public void Run_withATargetOfNothing_isRefused()
    {
        LoadPath path = new(1, 0);

        Assert.Throws<ArgumentException>(() => path.Run(PathRun.Response(TwoSprings(Capacity)), [], new(Vec3.UnitZ, default), 0, andBack: false));
    }

    private static StepModel TwoSprings(double capacity) => PathRun.Body(
        Vec3.UnitZ, default, [Stiff(K1, default), Stiff(K2, default)], [YieldingComponent.Force(1, Vec3.UnitZ, capacity)]);

    // Stiffness k along z and more in all else.
    private static MemberStiffness Stiff(double k, Vec3 at) => PathRun.Spring(at, new(7100, 5300, k), new(3.1e6, 2.9e6, 1.7e6));
}
