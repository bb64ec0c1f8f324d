using CsCheck;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Path;
using Halfpin.TestKit.Paths;
using Xunit;

namespace Halfpin.Mechanics.Tests.Path;

/// <summary>Paths against an independent solution in small steps with all node freedoms (<see cref="SmallSteps"/>).</summary>
public class SmallStepPathTests
{
    private const double Close = 5e-3;

    private static readonly int[] _counts = [20, 80, 320, 1280, 5120];

    [Fact]
    public void AnyFrame_againstSmallSteps_hasTheSameMotionsForcesAndWrenches() => PathGen.Frame.Sample(Alike, iter: 25);

    [Fact]
    public void AnyFrameWithTwoSites_againstSmallSteps_hasTheSameMotionsForcesAndWrenches() => PathGen.TwoSites.Sample(Alike, iter: 15);

    [Fact]
    public void AnyFrameWithStops_againstSmallSteps_hasTheSameMotionsForcesAndWrenches() => PathGen.Stopped.Sample(Alike, iter: 25);

    [Fact]
    public void AnyFrameWithTwoSitesAndStops_againstSmallSteps_hasTheSameMotionsForcesAndWrenches() => PathGen.StoppedTwoSites.Sample(Alike, iter: 15);

    // Frames found by following 80,000: two sets of slides took turns for ever, since rounding alone pushed one of them to join, or a body ran
    // on a trace of stiffness past what the check of the path allows.
    [Theory]
    [InlineData("000000000vX7")]
    [InlineData("000000000W-7")]
    [InlineData("0000000001A7")]
    [InlineData("000000004x07")]
    [InlineData("000000004Hf7")]
    public void FrameWithStops_whoseSetsTookTurnsOrRanOnATrace_isFollowedAsInSmallSteps(string seed) => AssertFollowed(PathGen.StoppedTwoSites.Single(_ => true, seed));

    [Theory]
    [InlineData("000000000sJ7")]
    [InlineData("000000000On7")]
    [InlineData("000000001Na7")]
    [InlineData("000000002Hw7")]
    [InlineData("000000003tm7")]
    [InlineData("000000004zF7")]
    public void FrameWithTwoSites_thatRanOnATrace_isFollowedAsInSmallSteps(string seed) => AssertFollowed(PathGen.TwoSites.Single(_ => true, seed));

    [Fact]
    public void Frame_thatRanOnATrace_isFollowedAsInSmallSteps() => AssertFollowed(PathGen.Frame.Single(_ => true, "000000004wM7"));

    [Fact]
    public void ManyFrames_withSmallerSteps_comeNearer()
    {
        // The error of the steps is what the two differ by, so it must shrink with them: by at least half for an eighth of the step, in
        // the sum over frames (a single one may meet an event by luck).
        double coarse = 0, fine = 0;
        int followed = 0;
        foreach (StepModel m in PathGen.Frame.Array[24].Single(_ => true, "0N0XIzNsQ0O2"))
        {
            LoadPath path = PathRun.Follow(m, 1, andBack: true);
            if (path.Status == PathStatus.Complete)
            {
                coarse += Gap(m, path, 10);
                fine += Gap(m, path, 80);
                followed++;
            }
        }

        Assert.True(followed > 12);
        Assert.True(fine < coarse / 2, $"{coarse} at 10 steps, {fine} at 80");
    }

    [Fact]
    public void FallingFrame_againstSmallSteps_givesWayUnderTheSameLoad() => PathGen.Falling.Sample(
        m => FallsAlike(m, PathRun.Follow(m, 1e6)), iter: 8);

    private static void AssertFollowed(StepModel m)
    {
        Assert.NotEqual(PathStatus.NotConverged, PathRun.Follow(m, 1, andBack: true).Status);
        Assert.True(Alike(m));
    }

    private static bool Alike(StepModel m)
    {
        LoadPath path = PathRun.Follow(m, 1, andBack: true);
        if (path.Status == PathStatus.GivesWay)
        {
            return FallsAlike(m, path);
        }

        // Most agree to ten digits; where something yields and holds again within a step, the step must be made smaller.
        double least = double.PositiveInfinity;
        foreach (int count in _counts)
        {
            if (PathRun.RunsFar(path) || (least = Math.Min(least, Gap(m, path, count))) < Close)
            {
                return true;
            }
        }

        // Where the steps find no balance at any size, as for some that hang on a trace of stiffness, the conditions alone are left to judge by.
        return double.IsPositiveInfinity(least) && PathConditions.KeepsEnergy(m, path) && PathConditions.BrokenAt(m, path) is null;
    }

    // Balance just below the load at which the path gives way, none just above.
    private static bool FallsAlike(StepModel m, LoadPath path)
    {
        SmallSteps steps = new(m);
        for (int i = 1; i <= 20; i++)
        {
            if (!steps.StepTo(0.995 * path.ReachedLoadFactor * i / 20))
            {
                return false;
            }
        }

        return !steps.StepTo(1.005 * path.ReachedLoadFactor);
    }

    // The largest difference after each step, up and back. Motions against the largest of their kind on the path; forces against the
    // load, and those of contacts against their largest when that is more. Infinite when the steps find no balance.
    private static double Gap(StepModel m, LoadPath path, int count)
    {
        SmallSteps steps = new(m);
        double gap = 0;
        double way = 0, turn = 0, push = m.LoadForceN.Length;
        for (int i = 0; i < path.PointCount; i++)
        {
            way = Math.Max(way, path[i].EndMotion.TranslationMm.Length);
            turn = Math.Max(turn, path[i].EndMotion.RotationRad.Length);
            foreach (double f in path[i].ContactForcesN)
            {
                push = Math.Max(push, f);
            }
        }

        for (int i = 1; i <= 2 * count; i++)
        {
            // Finer after the start and after the turn, where components of little capacity change over.
            double along = (i <= count ? i : i - count) / (double)count, factor = i <= count ? along * along : 1 - (along * along);
            if (!steps.StepTo(factor))
            {
                return double.PositiveInfinity;
            }

            (int at, double share) = Place(path, factor, i <= count);
            PathPoint from = path[at], to = path[Math.Min(at + 1, path.PointCount - 1)];
            Vec3 end = Mix(from.EndMotion.TranslationMm, to.EndMotion.TranslationMm, share), turned = Mix(from.EndMotion.RotationRad, to.EndMotion.RotationRad, share);
            double[] e = steps.EndMotion, forces = steps.ContactForcesN(), q = steps.ComponentForces();
            gap = Math.Max(gap, (end - new Vec3(e[0], e[1], e[2])).Length / way);
            gap = Math.Max(gap, (turned - new Vec3(e[3], e[4], e[5])).Length / turn);
            for (int site = 0; site < m.Sites.Count; site++)
            {
                double[] s = steps.SiteMotion(site);
                Vec3 mine = Mix(from.SiteMotionAt(site).TranslationMm, to.SiteMotionAt(site).TranslationMm, share);
                gap = Math.Max(gap, (mine - new Vec3(s[0], s[1], s[2])).Length / way);
            }

            for (int k = 0; k < forces.Length; k++)
            {
                gap = Math.Max(gap, Math.Abs(from.ContactForcesN[k] + (share * (to.ContactForcesN[k] - from.ContactForcesN[k])) - forces[k]) / push);
            }

            for (int c = 0; c < m.Components.Count; c++)
            {
                double mine = from.ComponentForces[c] + (share * (to.ComponentForces[c] - from.ComponentForces[c]));
                gap = Math.Max(gap, Math.Abs(mine - q[c]) / (m.LoadForceN.Length * (m.Components[c].Kind == ComponentKind.Force ? 1 : PathRun.LeverMm)));
            }

            double[] w = steps.Wrench(4);
            gap = Math.Max(gap, (path.WrenchOn(4, at + share).ForceN - new Vec3(w[0], w[1], w[2])).Length / m.LoadForceN.Length);
        }

        return gap;
    }

    // Where the path has a load: on the way up the last place, so that a plateau is behind, on the way back the first after the top.
    private static (int At, double Share) Place(LoadPath path, double factor, bool up)
    {
        int from = up ? 0 : path.TopPoint, to = up ? path.TopPoint : path.PointCount - 1;
        for (int i = to - 1; i >= from; i--)
        {
            double a = path[i].LoadFactor, b = path[i + 1].LoadFactor;
            if (Math.Min(a, b) <= factor && factor <= Math.Max(a, b))
            {
                return (i, a == b ? 1 : (factor - a) / (b - a));
            }
        }

        throw new InvalidOperationException("The path does not reach this load.");
    }

    private static Vec3 Mix(Vec3 a, Vec3 b, double share) => a + (share * (b - a));
}
