using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Placement;
using Halfpin.Placement.Checks;
using Halfpin.Stability;
using Halfpin.Stability.Variants;
using Xunit;

namespace Halfpin.Search.Tests;

public class FrameSearchTests
{
    // Brute force: every candidate judged on its own by the whole list of rules and rated, nothing remembered, nothing left out.
    [Fact]
    public void Search_overASmallSpace_findsWhatBruteForceFinds()
    {
        Case value = Bench.Demo();
        (SearchResult found, CandidateSet set) = Run(value);
        (long filtered, List<Found> feasible) = BruteForce(value, set, [.. Bench.All(set).Select(c => new Layout(c, null))]);

        Assert.Equal((filtered, feasible.Count), (found.Filtered, found.Feasible));
        Assert.Equal(Simplest(feasible), found.Simplest);
        Assert.Equal(feasible.Where(f => !feasible.Any(o => o != f && o.Dominates(f))).OrderBy(f => f.Order), found.Pareto);
    }

    [Fact]
    public void Search_overMoreThanFiftyThousand_findsTheSimplestThatBruteForceFinds()
    {
        Case value = Bench.Demo(new SearchSpace
        {
            NearMm = [26, 33, 40, 47],
            FarMm = [67, 79, 91, 104],
            AzimuthDeg = [24, 33, 42, 51, 60, 69],
            StandoffMm = [41, 45, 49, 53, 57, 62, 68],
            RodSpacingMm = [27, 36],
            PinDiameterMm = [4, 5, 6],
            Rods = [new() { DiameterMm = 11, Material = "carbon" }, new() { DiameterMm = 8, Material = "steel" }],
        });
        (SearchResult found, CandidateSet set) = Run(value);
        (long filtered, List<Found> feasible) = BruteForce(value, set, [.. Bench.All(set).Select(c => new Layout(c, null))]);

        Assert.True(set.Count >= 50_000, $"{set.Count}");
        Assert.Equal((filtered, feasible.Count), (found.Filtered, found.Feasible));
        Assert.Equal(Simplest(feasible), found.Simplest);
    }

    // The pins between are chosen by loops of the test's own, and none of the filter's memory is used.
    [Fact]
    public void Search_ofASegmentalFracture_findsWhatBruteForceFinds()
    {
        Case value = Bench.Segmental();
        (SearchResult found, CandidateSet set) = Run(value);
        (long filtered, List<Found> feasible) = BruteForce(value, set, [.. Bench.AllSegmental(value.Search)]);

        Assert.Equal(set.Count, filtered + found.Solved);
        Assert.NotEmpty(feasible);
        Assert.Equal((filtered, feasible.Count), (found.Filtered, found.Feasible));
        Assert.Equal(Simplest(feasible), found.Simplest);
        Assert.Equal(feasible.Where(f => !feasible.Any(o => o != f && o.Dominates(f))).OrderBy(f => f.Order), found.Pareto);
    }

    [Fact]
    public void Search_onOneAndOnTwoThreads_givesTheSameReport() =>
        Assert.Equal(Bench.Text(Bench.Suggest(Bench.Demo(), 1)), Bench.Text(Bench.Suggest(Bench.Demo(), 2)));

    [Fact]
    public void Search_ofASegmentalFractureOnOneAndOnTwoThreads_givesTheSameReport() =>
        Assert.Equal(Bench.Text(Bench.Suggest(Bench.Segmental(), 1)), Bench.Text(Bench.Suggest(Bench.Segmental(), 2)));

    // Stopped after some pieces, their record written down and read again: the report is that of an unbroken search.
    [Fact]
    public void Search_stoppedAndGoneOnWith_givesTheReportOfAnUnbrokenOne() => StoppedAndGoneOnWith(Bench.Demo());

    [Fact]
    public void Search_ofASegmentalFractureStoppedAndGoneOnWith_givesTheReportOfAnUnbrokenOne() => StoppedAndGoneOnWith(Bench.Segmental());

    private static void StoppedAndGoneOnWith(Case value)
    {
        using CancellationTokenSource stop = new();
        List<SearchPiece> kept = [];
        void Keep(SearchPiece piece)
        {
            lock (kept)
            {
                kept.Add(piece);
                if (kept.Count == 11)
                {
                    stop.Cancel();
                }
            }
        }

        Assert.ThrowsAny<OperationCanceledException>(() => new Suggester(value, null).Suggest(new("halfpin", "test"), "", 2, null, null, Keep, stop.Token));
        List<SearchPiece> read = System.Text.Json.JsonSerializer.Deserialize<List<SearchPiece>>(System.Text.Json.JsonSerializer.Serialize(kept))!;
        int further = 0;
        SuggestReport resumed = new Suggester(value, null).Suggest(new("halfpin", "test"), "", 1, null, read, _ => further++, TestContext.Current.CancellationToken);
        SuggestReport whole = Bench.Suggest(value, 2);

        Assert.InRange(kept.Count, 11, 12);
        Assert.Contains(kept, p => p.Feasible > 0);
        Assert.True(further > 0);
        Assert.Equal(Bench.Text(whole), Bench.Text(resumed));
    }

    [Fact]
    public void Rating_ofAFrame_hasTheNumbersOfItsAssessment()
    {
        Case value = Bench.Example("01-oblique-fracture.json");
        VariantAssessor rater = new(value, VariantAssessor.FlexibilityOf(value));
        foreach (Frame frame in value.Frames.Take(6))
        {
            FrameRating rating = rater.Rate(new(value, new Assessor(value).PartsOf(frame)));
            FrameAssessment full = new Assessor(value).Assess(frame.Id, new("halfpin", "test"), "").Frames[0];

            Assert.Equal(full.Stiffness!.AtFracture.AxialNPerMm, rating.AxialNPerMm, 9);
            Assert.Equal(full.BendingRose!.WeakNmPerDeg, rating.WeakBendingNmPerDeg, 9);
            Assert.Equal(Math.Abs(full.OverloadMotion!.AxialMm), rating.OverloadAxialMm, 9);
            Assert.Equal(100 * full.Fatigue!.Pins[0].Value, rating.FatiguePercent, 9);
            Assert.Equal(100 * full.Utilisation.Where(u => u.Check != "fatigue").Max(u => u.Value), rating.UsedPercent, 9);
        }
    }

    private static (SearchResult Result, CandidateSet Set) Run(Case value)
    {
        CandidateSet set = new(value, null);
        return (new FrameSearch(value, set, null, RequirementList.Of(value)).Run(2, null, null, null, default), set);
    }

    // The pins between would change places: their distances leave nothing of the bone between the two gaps.
    private static bool Overlaps(MiddlePins? middle, ImmutableArray<Fracture> fractures) => middle is not null
        && middle.ProximalEdgeMm + middle.DistalEdgeMm >= fractures[1].LevelMm - fractures[0].LevelMm - ((fractures[0].GapMm + fractures[1].GapMm) / 2);

    private static Found? Simplest(List<Found> feasible)
    {
        Found? simplest = null;
        foreach (Found f in feasible)
        {
            simplest = f.IsSimplerThan(simplest) ? f : simplest;
        }

        return simplest;
    }

    private static (long Filtered, List<Found> Feasible) BruteForce(Case value, CandidateSet set, Layout[] all)
    {
        BoneShape bone = BoneShape.For(value.Limb);
        ImmutableArray<Requirement> requirements = RequirementList.Of(value);
        FrameSearch describe = new(value, set, null, requirements);
        Found?[] found = new Found?[all.Length];
        long filtered = 0;
        Parallel.For(0, all.Length, () => new VariantAssessor(value, VariantAssessor.FlexibilityOf(value)), (i, _, rater) =>
        {
            if (all[i].Construct.NearMm >= all[i].Construct.FarMm || Overlaps(all[i].Middle, value.Fractures))
            {
                Interlocked.Increment(ref filtered);
                return rater;
            }

            Parts parts = all[i].Parts(value.Fractures);
            if (PlacementRules.Check(bone, value.Fractures, parts).Any()
                || PlacementChecks.Of(PlacedFrame.Of(value, parts, bone)).Any(c => c.Verdict != Verdict.Pass && c.Id != "thread"))
            {
                Interlocked.Increment(ref filtered);
                return rater;
            }

            FrameRating rating = rater.Rate(new(value, parts));
            found[i] = rating.Status == RatingStatus.Ok && requirements.All(r => r.IsMetBy(rating)) ? describe.Describe(i, all[i], parts, rating) : null;
            return rater;
        }, _ => { });
        return (filtered, [.. found.OfType<Found>()]);
    }
}
