using System.Collections.Immutable;
using System.Numerics;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Placement;
using Halfpin.Planning.Kit;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Variants;

namespace Halfpin.Search;

/// <summary>What a search found.</summary>
/// <param name="Simplest">The simplest feasible frame; null for none.</param>
/// <param name="Pareto">Feasible frames that none dominates.</param>
/// <param name="Misses">For each set of requirements missed (a bit each), the frame that misses them most narrowly.</param>
/// <param name="Filtered">Candidates turned away before solving.</param>
/// <param name="Solved">Candidates solved.</param>
/// <param name="Feasible">Of these, feasible.</param>
/// <param name="Rules">How many candidates each rule turned away, most first.</param>
internal sealed record SearchResult(
    Found? Simplest, ImmutableArray<Found> Pareto, ImmutableDictionary<int, Found> Misses, long Filtered, long Solved, long Feasible, ImmutableArray<FilterCount> Rules);

/// <summary>
/// Tries every candidate: rules of placement first, then the solution. Exhaustive, so that the simplest frame is the simplest of all
/// candidates. Work is cut into pieces of a fixed order and the pieces' results are joined in that order, so that threads change nothing.
/// </summary>
internal sealed class FrameSearch(Case value, CandidateSet candidates, Stock? stock, ImmutableArray<Requirement> requirements)
{
    // ASSUMED: two fingerbreadths beside the way to a wound; more is no better. Room over the skin is a rule, and what is beyond it costs stability.
    private const double EnoughRoomMm = 40;

    private readonly BoneShape _bone = BoneShape.For(value.Limb);
    private readonly BoneFlexibility _flexibility = VariantAssessor.FlexibilityOf(value);

    /// <summary>The rules of placement.</summary>
    public PlacementFilter Filter { get; } = new(value, stock);

    /// <summary>Runs the search.</summary>
    /// <param name="threads">Threads to use.</param>
    /// <param name="progress">Told the candidates done so far; from several threads.</param>
    /// <param name="done">Pieces of the same search that were done before; null for none.</param>
    /// <param name="keep">Is given each further piece when it is done; from several threads.</param>
    /// <param name="stop">Ends the search early with an exception, after the pieces under way.</param>
    public SearchResult Run(int threads, Action<long>? progress, IEnumerable<SearchPiece>? done, Action<SearchPiece>? keep, CancellationToken stop)
    {
        Dictionary<int, SearchPiece> before = (done ?? []).ToDictionary(p => p.Number);
        (int Family, int Azimuth, long First)[] pieces = [.. Pieces()];
        PieceResult[] results = new PieceResult[pieces.Length];
        long tried = 0;
        Parallel.For(
            0, pieces.Length, new ParallelOptions { MaxDegreeOfParallelism = threads, CancellationToken = stop }, () => new VariantAssessor(value, _flexibility),
            (i, _, rater) =>
            {
                (int family, int azimuth, long first) = pieces[i];
                bool known = before.TryGetValue(i, out SearchPiece? kept);
                results[i] = known
                    ? Again(kept!, candidates.Families[family], candidates.Space.AzimuthDeg[azimuth], first, rater)
                    : Try(candidates.Families[family], candidates.Space.AzimuthDeg[azimuth], first, rater);
                if (!known)
                {
                    keep?.Invoke(results[i].Kept(i));
                }

                progress?.Invoke(Interlocked.Add(ref tried, results[i].Filtered + results[i].Solved));
                return rater;
            },
            _ => { });
        return Joined(results);
    }

    /// <summary>A candidate's numbers beside those of the search: room and cost.</summary>
    public Found Describe(long order, Layout? layout, Parts parts, in FrameRating rating)
    {
        PlacedFrame placed = PlacedFrame.Of(value, parts, _bone);
        double room = Math.Min(Clearance.WoundRoomMm(placed) ?? EnoughRoomMm, EnoughRoomMm);
        FrameRating numbers = rating;
        return new(order, layout, CostPoints.Count(parts), CostPoints.Of(parts), room, rating, requirements.Min(r => r.Margin(numbers)));
    }

    /// <summary>Least room between a frame's rods and the skin.</summary>
    public double? SkinRoomMm(Parts parts) => Clearance.SkinRoomMm(PlacedFrame.Of(value, parts, _bone));

    /// <summary>Room before the wounds.</summary>
    public double? WoundRoomMm(Parts parts) => Clearance.WoundRoomMm(PlacedFrame.Of(value, parts, _bone));

    /// <summary>The requirements that a frame misses, a bit each.</summary>
    public int Missed(in FrameRating rating)
    {
        int missed = 0;
        for (int r = 0; r < requirements.Length; r++)
        {
            missed |= requirements[r].IsMetBy(rating) ? 0 : 1 << r;
        }

        return missed;
    }

    // A frame that does not hold, or has no answer, misses only that: its other numbers do not exist.
    private int MissedOf(in FrameRating rating) => rating.Status == RatingStatus.Ok ? Missed(rating) : 1;

    private IEnumerable<(int Family, int Azimuth, long First)> Pieces()
    {
        long first = 0;
        for (int f = 0; f < candidates.Families.Length; f++)
        {
            for (int a = 0; a < candidates.Space.AzimuthDeg.Length; a++)
            {
                yield return (f, a, first);
                first += (long)candidates.NearOf(candidates.Families[f]).Length * candidates.Space.FarMm.Length * candidates.Space.StandoffMm.Length;
            }
        }
    }

    // A piece that was done before: only the candidates that count are solved again.
    private PieceResult Again(SearchPiece kept, Family family, double azimuthDeg, long first, VariantAssessor rater)
    {
        PieceResult piece = new();
        ImmutableArray<double> nears = candidates.NearOf(family), standoffs = candidates.Space.StandoffMm;
        foreach (long order in kept.Candidates)
        {
            (long row, long standoff) = Math.DivRem(order - first, standoffs.Length);
            (long far, long near) = Math.DivRem(row, nears.Length);
            Solve(family, nears[(int)near], candidates.Space.FarMm[(int)far], azimuthDeg, standoffs[(int)standoff], order, rater, piece);
        }

        piece.TakeCounts(kept);
        return piece;
    }

    private PieceResult Try(Family family, double azimuthDeg, long first, VariantAssessor rater)
    {
        PieceResult piece = new();
        long order = first;
        ImmutableArray<double> standoffs = candidates.Space.StandoffMm;
        bool fits = family.Middle is null || SegmentalBuilder.Fits(family.Middle, value.Fractures);
        foreach (double far in candidates.Space.FarMm)
        {
            foreach (double near in candidates.NearOf(family))
            {
                ImmutableArray<string> broken = !fits || near >= far ? [PlacementFilter.Order] : Filter.PinRules(family, near, far, azimuthDeg);
                if (!broken.IsEmpty)
                {
                    piece.Count(broken, standoffs.Length);
                    piece.Filtered += standoffs.Length;
                    order += standoffs.Length;
                    continue;
                }

                foreach (double standoff in standoffs)
                {
                    Try(family, near, far, azimuthDeg, standoff, order++, rater, piece);
                }
            }
        }

        return piece;
    }

    private void Try(Family family, double near, double far, double azimuthDeg, double standoff, long order, VariantAssessor rater, PieceResult piece)
    {
        ImmutableArray<string> broken = Filter.RodRules(family, near, far, azimuthDeg, standoff);
        if (!broken.IsEmpty)
        {
            piece.Count(broken, 1);
            piece.Filtered++;
            return;
        }

        Solve(family, near, far, azimuthDeg, standoff, order, rater, piece);
    }

    private void Solve(Family family, double near, double far, double azimuthDeg, double standoff, long order, VariantAssessor rater, PieceResult piece)
    {
        Layout layout = new(family.At(near, far, azimuthDeg, standoff), family.Middle);
        Parts parts = layout.Parts(value.Fractures);
        if (Filter.LacksStock(family, parts))
        {
            piece.Count(PlacementFilter.NotInStock, 1);
            piece.Filtered++;
            return;
        }

        FrameRating rating = rater.Rate(new(value, parts));
        int missed = MissedOf(rating);
        piece.Solved++;
        if (missed != 0)
        {
            double margin = requirements.Where((_, r) => (missed >> r & 1) != 0).Min(r => r.Margin(rating));
            if (!piece.Misses.TryGetValue(missed, out Found? nearest) || margin > nearest.LeastMargin)
            {
                piece.Misses[missed] = new(order, layout, CostPoints.Count(parts), CostPoints.Of(parts), 0, rating, margin);
            }

            return;
        }

        if (stock is not null && !KitPlanner.Supplies(value, parts, stock))
        {
            piece.Count(PlacementFilter.NotInStock, 1);
            return;
        }

        piece.Feasible++;
        Found found = Describe(order, layout, parts, rating);
        piece.Front.Offer(found);
        piece.Simplest = found.IsSimplerThan(piece.Simplest) ? found : piece.Simplest;
    }

    private static SearchResult Joined(PieceResult[] pieces)
    {
        ParetoFront front = new();
        Found? simplest = null;
        Dictionary<int, Found> misses = [];
        foreach (PieceResult piece in pieces)
        {
            foreach (Found found in piece.Front.Frames)
            {
                front.Offer(found);
            }

            simplest = piece.Simplest?.IsSimplerThan(simplest) == true ? piece.Simplest : simplest;
            foreach ((int missed, Found found) in piece.Misses)
            {
                if (!misses.TryGetValue(missed, out Found? nearest) || found.LeastMargin > nearest.LeastMargin)
                {
                    misses[missed] = found;
                }
            }
        }

        // What is missed beyond another set that is missed alone tells nothing more.
        int[] least = [.. misses.Keys.Where(m => !misses.Keys.Any(o => o != m && (o & m) == o)).OrderBy(m => BitOperations.PopCount((uint)m)).ThenBy(m => m)];
        return new(
            simplest, [.. front.Frames.OrderBy(f => f.Order)], least.ToImmutableDictionary(m => m, m => misses[m]),
            pieces.Sum(p => p.Filtered), pieces.Sum(p => p.Solved), pieces.Sum(p => p.Feasible),
            [.. pieces.SelectMany(p => p.TurnedAway).GroupBy(c => c.Key).Select(g => new FilterCount(g.Key, g.Sum(c => c.Value))).OrderByDescending(c => c.Candidates).ThenBy(c => c.Rule, StringComparer.Ordinal)]);
    }
}
