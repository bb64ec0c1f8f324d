using Halfpin.Workbench.Jobs;
using Xunit;

namespace Halfpin.Workbench.Tests.Jobs;

public sealed class JobListTests : IDisposable
{
    private readonly JobList _list = new(TimeProvider.System);

    public void Dispose() => _list.Dispose();

    [Fact]
    public async Task Work_done_hasItsResultAndAllItsPieces()
    {
        Job job = _list.Begin("search", 7, (progress, _) =>
        {
            progress.Tell(3, 7);
            return "found";
        })!;
        JobStatus last = await LastAsync(job);

        Assert.Equal((JobState.Done, 7L, 7L, null), (last.State, last.Done, last.Total, last.Reason));
        Assert.Equal("found", job.Result);
        Assert.NotNull(job.EndedUtc);
    }

    [Fact]
    public async Task Work_beyondTheMostAtOnce_waitsForOneToEnd()
    {
        using ManualResetEventSlim end = new();
        object Wait(JobProgress progress, CancellationToken stop)
        {
            end.Wait(stop);
            return 1;
        }

        Job[] running = [.. Enumerable.Range(0, JobList.MostAtOnce).Select(_ => _list.Begin("study", 1, Wait)!)];
        Job? more = _list.Begin("study", 1, Wait);
        end.Set();
        foreach (Job job in running)
        {
            await LastAsync(job);
        }

        Assert.Null(more);
        Assert.NotNull(_list.Begin("study", 1, (_, _) => 2));
    }

    [Fact]
    public async Task Work_stopped_hasNoResult_andSaysSo()
    {
        Job job = _list.Begin("study", 9, Endless)!;
        Assert.True(_list.Remove("study", job.Id));
        JobStatus last = await LastAsync(job);

        Assert.Equal((JobState.Stopped, "It was stopped."), (last.State, last.Reason));
        Assert.Null(job.Result);
        Assert.Same(job, _list.Find("study", job.Id));
    }

    [Fact]
    public async Task Work_ended_isForgottenWhenRemoved()
    {
        Job job = _list.Begin("study", 1, (_, _) => 1)!;
        await LastAsync(job);

        Assert.True(_list.Remove("study", job.Id));
        Assert.Null(_list.Find("study", job.Id));
        Assert.False(_list.Remove("study", job.Id));
    }

    [Fact]
    public async Task Work_thatFails_saysWhy()
    {
        Job job = _list.Begin("study", 1, (_, _) => throw new InvalidOperationException("no such shape"))!;
        JobStatus last = await LastAsync(job);

        Assert.Equal((JobState.Failed, "It failed: no such shape"), (last.State, last.Reason));
    }

    [Fact]
    public async Task Work_thatTakesTooLong_isStopped()
    {
        using JobList list = new(TimeProvider.System, TimeSpan.FromMilliseconds(37));
        JobStatus last = await LastAsync(list.Begin("study", 1, Endless)!);

        Assert.Equal((JobState.Stopped, "It took longer than is allowed."), (last.State, last.Reason));
    }

    [Fact]
    public async Task Work_ofLongAgo_makesPlace_oldestFirst()
    {
        List<Job> jobs = [];
        for (int i = 0; i <= JobList.MostKept; i++)
        {
            jobs.Add(_list.Begin("search", 1, (_, _) => i)!);
            await LastAsync(jobs[^1]);
        }

        Assert.Null(_list.Find("search", jobs[0].Id));
        Assert.All(jobs.Skip(1), j => Assert.NotNull(_list.Find("search", j.Id)));
    }

    [Fact]
    public void Work_isFoundUnderItsKindAlone()
    {
        Job job = _list.Begin("search", 1, (_, _) => 1)!;

        Assert.Null(_list.Find("study", job.Id));
        Assert.False(_list.Remove("study", job.Id));
    }

    [Fact]
    public async Task Progress_watched_neverFalls_evenWhenToldOutOfOrder()
    {
        Job job = _list.Begin("search", 50, (progress, _) =>
        {
            foreach (int done in (int[])[2, 9, 4, 31, 30, 47])
            {
                progress.Tell(done, 50);
                Thread.Sleep(60);
            }

            return 1;
        })!;
        List<long> seen = [];
        await foreach (JobStatus status in job.WatchAsync(TestContext.Current.CancellationToken))
        {
            seen.Add(status.Done);
        }

        Assert.Equal(seen.Order(), seen);
        Assert.Equal(50, seen[^1]);
    }

    [Fact]
    public void List_closed_stopsAllAndBeginsNoMore()
    {
        using ManualResetEventSlim stopped = new();
        _list.Begin("study", 1, (_, stop) =>
        {
            stop.WaitHandle.WaitOne();
            stopped.Set();
            throw new OperationCanceledException(stop);
        });
        _list.Dispose();

        Assert.True(stopped.Wait(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken));
        Assert.Null(_list.Begin("study", 1, (_, _) => 1));
    }

    private static object Endless(JobProgress progress, CancellationToken stop)
    {
        stop.WaitHandle.WaitOne();
        throw new OperationCanceledException(stop);
    }

    private static async Task<JobStatus> LastAsync(Job job)
    {
        JobStatus? last = null;
        await foreach (JobStatus status in job.WatchAsync(TestContext.Current.CancellationToken))
        {
            last = status;
        }

        return last!;
    }
}
