using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Domain.Validity;
using Halfpin.Placement;
using Halfpin.Planning.Kit;
using Halfpin.Stability.Variants;

namespace Halfpin.Search;

/// <summary>A frame held against all rules and requirements.</summary>
/// <param name="Found">Its numbers; null when it is not possible at all.</param>
/// <param name="Misses">Ids of the rules and requirements it misses; empty when it passes.</param>
internal sealed record Trial(Found? Found, ImmutableArray<string> Misses);

/// <summary>Holds single frames against everything that a search asks for. Not thread-safe.</summary>
internal sealed class FrameTrial(Case value, Stock? stock, FrameSearch search, ImmutableArray<Requirement> requirements)
{
    // Before all candidates, so that a frame of the case wins a tie.
    private const long OfTheCase = -1;

    // Trials follow each other with most parts alike.
    private readonly PlacementReview _review = new();
    private readonly VariantAssessor _rater = new(value, VariantAssessor.FlexibilityOf(value));

    /// <summary>True when a frame misses nothing: the same as an empty list of misses, but it stops at the first.</summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public bool Passes(Frame frame, CancellationToken stop)
    {
        stop.ThrowIfCancellationRequested();
        Parts parts = PartsOf(frame);
        (Fault? fault, ImmutableArray<CheckVerdict> verdicts) = _review.Of(value, parts);
        return fault is null && search.Filter.Broken(verdicts).IsEmpty
            && _rater.Rate(new(value, parts)) is { Status: RatingStatus.Ok } rating && search.Missed(rating) == 0 && Lacking(parts).Length == 0;
    }

    /// <summary>Tries a frame of the case.</summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public Trial Of(Frame frame, CancellationToken stop) => Of(frame.Construct is Construct c ? new(c, null) : null, PartsOf(frame), OfTheCase, stop);

    /// <summary>Tries a candidate.</summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public Trial Of(Layout layout, long order, CancellationToken stop) => Of(layout, layout.Parts(value.Fractures), order, stop);

    private Trial Of(Layout? layout, Parts parts, long order, CancellationToken stop)
    {
        stop.ThrowIfCancellationRequested();
        (Fault? fault, ImmutableArray<CheckVerdict> verdicts) = _review.Of(value, parts);
        if (fault is not null)
        {
            return new(null, [PlacementFilter.Possible]);
        }

        ImmutableArray<string> broken = search.Filter.Broken(verdicts);
        FrameRating rating = _rater.Rate(new(value, parts));
        IEnumerable<string> missed = rating.Status == RatingStatus.Ok ? requirements.Where(r => !r.IsMetBy(rating)).Select(r => r.Note.Id) : [RequirementList.Holds];
        return new(search.Describe(order, layout, parts, rating), [.. broken, .. missed, .. Lacking(parts)]);
    }

    private Parts PartsOf(Frame frame) => frame.Parts ?? ConstructBuilder.Build(frame.Construct!, value.Fractures);

    private string[] Lacking(Parts parts) => stock is not null && !KitPlanner.Supplies(value, parts, stock) ? ["stock"] : [];
}
