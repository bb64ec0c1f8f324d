using System.Runtime.CompilerServices;

namespace Halfpin.Workbench.Jobs;

/// <summary>Long work under way or ended, with its result. May be used from several threads.</summary>
public sealed class Job
{
    // Often enough to look alive, seldom enough to cost nothing.
    private static readonly TimeSpan _between = TimeSpan.FromMilliseconds(100);

    // A word now and then even when nothing has changed, so that a link that is gone shows.
    private static readonly TimeSpan _heartbeat = TimeSpan.FromSeconds(10);

    private readonly Lock _gate = new();
    private readonly TimeProvider _time;
    private readonly TimeSpan _limit;
    private readonly long _began;
    private Action? _cancel;
    private TaskCompletionSource _changed = New();
    private JobState _state = JobState.Running;
    private string? _reason;
    private long _done;
    private long _total;

    internal Job(string id, string kind, long total, TimeSpan limit, TimeProvider time)
    {
        (Id, Kind, _total, _limit, _time) = (id, kind, total, limit, time);
        (CreatedUtc, _began) = (time.GetUtcNow().UtcDateTime, time.GetTimestamp());
    }

    /// <summary>Its name in addresses.</summary>
    public string Id { get; }

    /// <summary>What it is: "search" and so on.</summary>
    public string Kind { get; }

    /// <summary>When it was begun.</summary>
    public DateTime CreatedUtc { get; }

    /// <summary>When it ended; null while it runs.</summary>
    public DateTime? EndedUtc { get; private set; }

    /// <summary>The result; null until it is done.</summary>
    public object? Result { get; private set; }

    /// <summary>Where it stands now.</summary>
    public JobStatus Status
    {
        get
        {
            lock (_gate)
            {
                double seconds = _time.GetElapsedTime(_began).TotalSeconds;
                double? left = _state == JobState.Running && _done > 0 && _total > 0 ? Math.Round(seconds * (_total - _done) / _done, 1) : null;
                return new(_state, _done, _total, left, _reason);
            }
        }
    }

    /// <summary>Asks it to stop; what has ended stays as it is.</summary>
    public void Stop()
    {
        lock (_gate)
        {
            if (_state != JobState.Running)
            {
                return;
            }

            _state = JobState.Stopping;
            Tell();

            // Under the lock, so that the work cannot end and give its token up in between.
            _cancel?.Invoke();
        }
    }

    /// <summary>Where it stands, again after each change, until it has ended.</summary>
    public async IAsyncEnumerable<JobStatus> WatchAsync([EnumeratorCancellation] CancellationToken left)
    {
        while (true)
        {
            (JobStatus status, Task changed) = Look();
            yield return status;
            if (status.IsEnded)
            {
                yield break;
            }

            await Task.WhenAny(changed, Task.Delay(_heartbeat, _time, left)).ConfigureAwait(false);
            await Task.Delay(_between, _time, left).ConfigureAwait(false);
        }
    }

    /// <summary>Does the work on the calling thread, whatever comes of it.</summary>
    internal void Run(Func<JobProgress, CancellationToken, object> work)
    {
        JobState ended = JobState.Failed;
        object? result = null;
        string? reason = null;
        using CancellationTokenSource stop = new(_limit, _time);
        lock (_gate)
        {
            _cancel = stop.Cancel;
            if (_state == JobState.Stopping)
            {
                stop.Cancel();
            }
        }

        try
        {
            result = work(new(this), stop.Token);
            ended = JobState.Done;
        }
        catch (OperationCanceledException)
        {
            ended = JobState.Stopped;
            reason = Status.State == JobState.Stopping ? "It was stopped." : "It took longer than is allowed.";
        }
        catch (Exception e) when (e is not OutOfMemoryException) // The last stop of a thread of its own: whatever went wrong is told.
        {
            reason = $"It failed: {e.Message}";
        }

        lock (_gate)
        {
            (_state, _reason, Result, EndedUtc, _cancel) = (ended, reason, result, _time.GetUtcNow().UtcDateTime, null);
            _done = ended == JobState.Done ? _total : _done;
            Tell();
        }
    }

    internal void Progress(long done, long total)
    {
        lock (_gate)
        {
            if (done <= _done && total == _total)
            {
                return;
            }

            (_done, _total) = (Math.Max(done, _done), total);
            Tell();
        }
    }

    private static TaskCompletionSource New() => new(TaskCreationOptions.RunContinuationsAsynchronously);

    private (JobStatus Status, Task Changed) Look()
    {
        lock (_gate)
        {
            return (Status, _changed.Task);
        }
    }

    private void Tell()
    {
        TaskCompletionSource before = _changed;
        _changed = New();
        before.SetResult();
    }
}
