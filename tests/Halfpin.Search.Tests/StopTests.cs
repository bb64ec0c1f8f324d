using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Xunit;

namespace Halfpin.Search.Tests;

/// <summary>Stopping what comes after the last candidate.</summary>
public class StopTests
{
    // Some seconds of trials after the last candidate, far longer than it takes to ask for the stop.
    [Fact]
    public void Search_stoppedAfterItsLastCandidate_stopsAndGoesOnToTheSameReport()
    {
        Case value = Slow();
        long all = new Suggester(value, null).Candidates;
        List<SearchPiece> kept = [];
        using CancellationTokenSource stop = new();
        void Tell(long done)
        {
            if (done == all)
            {
                stop.CancelAfter(TimeSpan.FromMilliseconds(40));
            }
        }

        void Keep(SearchPiece piece)
        {
            lock (kept)
            {
                kept.Add(piece);
            }
        }

        Assert.ThrowsAny<OperationCanceledException>(() => new Suggester(value, null).Suggest(new("halfpin", "test"), "", 2, Tell, null, Keep, stop.Token));
        int further = 0;
        SuggestReport resumed = new Suggester(value, null).Suggest(new("halfpin", "test"), "", 2, null, kept, _ => further++, TestContext.Current.CancellationToken);

        Assert.Equal(all, kept.Sum(p => p.Filtered + p.Solved));
        Assert.Equal(0, further);
        Assert.Equal(Bench.Text(Bench.Suggest(value)), Bench.Text(resumed));
    }

    [Fact]
    public void Trials_afterAStopWasAskedFor_endAtOnce()
    {
        Case value = Bench.Demo();
        CandidateSet set = new(value, null);
        FrameSearch search = new(value, set, null, RequirementList.Of(value));
        FrameTrial trial = new(value, null, search, RequirementList.Of(value));
        Found found = search.Run(2, null, null, null, TestContext.Current.CancellationToken).Simplest!;
        Frame close = value.Frames.Single(f => f.Id == "near-far-close");
        CancellationToken stopped = new(canceled: true);

        Assert.Throws<OperationCanceledException>(() => trial.Of(close, stopped));
        Assert.Throws<OperationCanceledException>(() => new Refinement(value, trial).Of(found, stopped));
        Assert.Throws<OperationCanceledException>(() => new SmallestChangeFinder(value, set, trial).Of(close, ["skin-room"], stopped));
    }

    // Frames that no change mends, so that all are tried.
    private static Case Slow()
    {
        Case demo = Bench.Demo();
        Frame dynamised = Bench.Example("01-oblique-fracture.json").Frames.Single(f => f.Id == "double-rod-dynamised");
        return demo with { Frames = [.. Enumerable.Range(0, 6).Select(i => dynamised with { Id = $"slow-{i}" })] };
    }
}
