using CsCheck;
using Halfpin.Mechanics.Path;
using Halfpin.TestKit.Paths;
using Xunit;

namespace Halfpin.Mechanics.Tests.Path;

/// <summary>What must hold along the path of any frame some of whose slides run between stops.</summary>
public class RandomStopPathTests
{
    private const int Frames = 150;

    [Fact]
    public void AnyFrame_everywhere_meetsTheConditionsOfPlasticityStopsAndContact() => PathGen.Stopped.Sample(
        m =>
        {
            LoadPath path = PathRun.Follow(m, 1, andBack: true);
            return PathRun.RunsFar(path) || PathConditions.BrokenAt(m, path) is null;
        },
        iter: Frames);

    [Fact]
    public void AnyFrame_everywhere_storesAndDissipatesTheWorkOfTheLoad() => PathGen.Stopped.Sample(
        m =>
        {
            LoadPath path = PathRun.Follow(m, 1, andBack: true);
            return PathRun.RunsFar(path) || PathConditions.KeepsEnergy(m, path);
        },
        iter: Frames);

    [Fact]
    public void AnyFrame_everywhere_isInBalanceAtEveryNodeWithItsMembersWrenches() => PathGen.Stopped.Sample(
        m =>
        {
            LoadPath path = PathRun.Follow(m, 1, andBack: true);
            return PathRun.RunsFar(path) || PathConditions.IsInBalance(m, path);
        },
        iter: 40);

    [Fact]
    public void AnyFrame_componentsInAnotherOrder_movesAlike() => PathGen.Stopped.Sample(
        m =>
        {
            StepModel reversed = m with { Components = [.. m.Components.Reverse()], Contacts = [.. m.Contacts.Reverse()] };
            LoadPath one = PathRun.Follow(m, 1, andBack: true), other = PathRun.Follow(reversed, 1, andBack: true);
            return PathRun.RunsFar(one)
                || (one.Status == other.Status && Apart(one[one.PointCount - 1], other[other.PointCount - 1]) <= 1e-6 * one[one.TopPoint].EndMotion.TranslationMm.Length);
        },
        iter: Frames);

    // Two sets of slides took turns for ever on its first piece, since rounding alone pushed one of them to join. Small steps find no balance
    // on its way back, which hangs on a trace of stiffness, so it is held against the conditions alone.
    [Fact]
    public void FrameWithTwoSites_whoseSetsTookTurns_isFollowedToItsEnd()
    {
        StepModel m = PathGen.StoppedTwoSites.Single(_ => true, "000000000gW7");
        LoadPath path = PathRun.Follow(m, 1, andBack: true);

        Assert.Equal(PathStatus.Complete, path.Status);
        Assert.True(PathConditions.KeepsEnergy(m, path));
        Assert.Null(PathConditions.BrokenAt(m, path));
    }

    // Three slides without resistance run together at the end of the way back. They keep a trace of stiffness that takes 3e-6 N·mm off a turn
    // that yields but has no part in the run; the turn was forced back to its capacity by 2e-11 rad, against its own moment.
    [Fact]
    public void FrameOnARun_thatUnloadsAYieldingTurnByATrace_doesNotTurnItBack()
    {
        const int Turn = 5;
        StepModel m = PathGen.Stopped.Single(_ => true, "0jL-dCZkCQM2");
        LoadPath path = PathRun.Follow(m, 1, andBack: true);

        Assert.Equal(PathStatus.Complete, path.Status);
        int run = path.Events.ToArray().Last(e => e.Kind == PathEventKind.Plateau).Point;
        Assert.True(path[run].ComponentForces[Turn] >= m.Components[Turn].Capacity * (1 - 1e-9));
        Assert.Equal(path[run].Dislocations[Turn], path[run + 1].Dislocations[Turn]);
        Assert.Null(PathConditions.BrokenAt(m, path));
    }

    [Fact]
    public void ManyFramesWithTwoSites_upAndBack_areFollowedToTheirEndOrGiveWay_butForVeryFew()
    {
        // Measured: one of 124,500 is not followed to its end, before the remedies one in 1500. By the first rate 9000 frames hold three or
        // more once in 17,000 runs of this test; by the second in 15 of 16 (Poisson, mean 0.07 and 6). The frames that failed then are pinned
        // above and in SmallStepPathTests.
        int stopped = 0;
        PathGen.StoppedTwoSites.Sample(
            m =>
            {
                if (PathRun.Follow(m, 1, andBack: true).Status == PathStatus.NotConverged)
                {
                    Interlocked.Increment(ref stopped);
                }
            },
            iter: 60 * Frames);

        Assert.InRange(stopped, 0, 2);
    }

    [Fact]
    public void ManyFrames_upAndBack_areFollowedToTheirEndOrGiveWay_butForVeryFew()
    {
        int stopped = 0, onStops = 0;
        PathGen.Stopped.Sample(
            m =>
            {
                LoadPath path = PathRun.Follow(m, 1, andBack: true);
                if (path.Events.ToArray().Any(e => e.Kind == PathEventKind.Stop))
                {
                    Interlocked.Increment(ref onStops);
                }

                if (path.Status == PathStatus.NotConverged && !PathRun.RunsFar(path))
                {
                    Interlocked.Increment(ref stopped);
                }
            },
            iter: 10 * Frames);

        Assert.InRange(stopped, 0, 2);
        Assert.True(onStops > Frames, $"Only {onStops} paths reach a stop.");
    }

    [Fact]
    public void AnyFrame_withStopsNobodyReaches_movesAsWithout() => PathGen.Frame.Sample(
        m =>
        {
            StepModel wide = m with { Components = [.. m.Components.Select(c => c.Kind == ComponentKind.Force ? c with { LeastMm = -1e7, MostMm = 1e7 } : c)] };
            LoadPath one = PathRun.Follow(m, 1, andBack: true), other = PathRun.Follow(wide, 1, andBack: true);
            if (PathRun.RunsFar(one) || one.Status != PathStatus.Complete)
            {
                // What gave way now runs ten kilometres to a stop; up to there all is as it was.
                return PathRun.RunsFar(one) || PathRun.Story(other).StartsWith(PathRun.Story(one), StringComparison.Ordinal);
            }

            return PathRun.Story(one) == PathRun.Story(other) && Apart(one[one.PointCount - 1], other[other.PointCount - 1]) <= 1e-9 * one[one.TopPoint].EndMotion.TranslationMm.Length;
        },
        iter: 100);

    [Fact]
    public void AnyFrame_withStopsAtTheStartBothWays_isTheOneWithThoseSlidesTight() => PathGen.Frame.Sample(
        m =>
        {
            StepModel shut = m with { Components = [.. m.Components.Select(c => c.Kind == ComponentKind.Force ? c with { LeastMm = 0, MostMm = 0 } : c)] };
            StepModel tight = m with { Components = [.. m.Components.Where(c => c.Kind == ComponentKind.Moment)] };
            LoadPath one = PathRun.Follow(shut, 1, andBack: true), other = PathRun.Follow(tight, 1, andBack: true);
            double most = other[other.TopPoint].EndMotion.TranslationMm.Length;
            return PathRun.RunsFar(other) || (one.Status == other.Status && one.PointCount == other.PointCount
                && Apart(one[one.TopPoint], other[other.TopPoint]) <= 1e-6 * most && Apart(one[one.PointCount - 1], other[other.PointCount - 1]) <= 1e-6 * most);
        },
        iter: 100);

    [Fact]
    public void AnyFrame_whoseSlidesMeetNoFriction_keepsNothingOnTheWayBack() => PathGen.Stopped.Sample(
        m =>
        {
            // Stress and energy are unique and close; a piece that all slides together let run free of stress may stay where it is.
            StepModel smooth = m with { Components = [.. m.Components.Where(c => c.Kind == ComponentKind.Force).Select(c => c with { Capacity = 0 })] };
            LoadPath path = PathRun.Follow(smooth, 1, andBack: true);
            bool whole = path.Status == PathStatus.Complete && !path.Events.ToArray().Any(e => e.Kind == PathEventKind.Plateau);
            return !whole || PathRun.RunsFar(path)
                || (path[path.PointCount - 1].StoredNmm <= 1e-9 * (1 + path[path.TopPoint].WorkNmm)
                    && path[path.PointCount - 1].DissipatedNmm <= 1e-9 * (1 + path[path.TopPoint].WorkNmm));
        },
        iter: 100);

    private static double Apart(PathPoint a, PathPoint b) => (a.EndMotion.TranslationMm - b.EndMotion.TranslationMm).Length;
}
