using Halfpin.Domain.Cases;

namespace Halfpin.Workbench.Runs;

/// <summary>
/// Work on a case that takes seconds or minutes: one run at a time, beside the screen, with progress, stopped when asked. It outlives the page
/// that started it, and the last result stays until the next one. May be used from several threads.
/// </summary>
/// <typeparam name="T">What it finds.</typeparam>
/// <param name="time">The clock.</param>
/// <param name="gone">Cancelled when nobody wants results any more: a run under way is stopped, and none starts.</param>
public sealed class LongRun<T>(TimeProvider time, CancellationToken gone = default)
    where T : class
{
    // Screens are told no more often than this while it works.
    private static readonly TimeSpan _between = TimeSpan.FromMilliseconds(200);

    private readonly Lock _gate = new();
    private CancellationTokenSource? _stop;
    private RunState _state;
    private RunProgress _progress = RunProgress.None;
    private RunResult<T>? _result;
    private string? _problem;
    private int _number;
    private long _started;
    private long _told;

    /// <summary>Told when the state changes and now and then while it works; from the thread that works.</summary>
    public event Action? Changed;

    /// <summary>How far it is.</summary>
    public RunState State
    {
        get
        {
            lock (_gate)
            {
                return _state;
            }
        }
    }

    /// <summary>True while it works or has been asked to stop.</summary>
    public bool IsBusy => State is RunState.Running or RunState.Stopping;

    /// <summary>How far it has come.</summary>
    public RunProgress Progress
    {
        get
        {
            lock (_gate)
            {
                return _progress;
            }
        }
    }

    /// <summary>The last result; null when no run came to its end yet.</summary>
    public RunResult<T>? Result
    {
        get
        {
            lock (_gate)
            {
                return _result;
            }
        }
    }

    /// <summary>Why the last run broke off; null when it did not.</summary>
    public string? Problem
    {
        get
        {
            lock (_gate)
            {
                return _problem;
            }
        }
    }

    /// <summary>Starts a run.</summary>
    /// <param name="value">The case it is about.</param>
    /// <param name="work">The work: is given whom to tell how many pieces are done, of how many, and what ends it.</param>
    /// <returns>The run, to wait for; null when one is under way or nobody wants one any more, in which case nothing is started.</returns>
    public Task? Start(Case value, Func<Action<long, long>, CancellationToken, T> work)
    {
        CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(gone);
        lock (_gate)
        {
            if (_state is RunState.Running or RunState.Stopping || gone.IsCancellationRequested)
            {
                stop.Dispose();
                return null;
            }

            (_state, _progress, _problem, _stop) = (RunState.Running, RunProgress.None, null, stop);
            _number++;
            (_started, _told) = (time.GetTimestamp(), 0);
        }

        Changed?.Invoke();
        return Task.Run(() => Work(value, work, stop), CancellationToken.None);
    }

    /// <summary>Asks the run under way to stop.</summary>
    public void Stop()
    {
        lock (_gate)
        {
            if (_state != RunState.Running)
            {
                return;
            }

            _state = RunState.Stopping;
            _stop!.Cancel();
        }

        Changed?.Invoke();
    }

    private void Work(Case value, Func<Action<long, long>, CancellationToken, T> work, CancellationTokenSource stop)
    {
        T? found = null;
        string? problem = null;
        try
        {
            found = work(Tell, stop.Token);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Asked for.
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // Nobody waits for the run, so that what went wrong is kept for the screen.
            problem = e.Message;
        }

        lock (_gate)
        {
            // A run that could not stop in time has ended all the same; its result was not wanted any more.
            bool stopped = stop.IsCancellationRequested;
            _state = stopped ? RunState.Stopped : problem is null ? RunState.Done : RunState.Failed;
            _problem = stopped ? null : problem;
            _progress = _progress with { Elapsed = time.GetElapsedTime(_started) };
            if (found is not null && !stopped)
            {
                _result = new(value, found, _number);
            }

            _stop = null;
            stop.Dispose();
        }

        Changed?.Invoke();
    }

    // Workers may tell out of order: what is done never becomes less.
    private void Tell(long done, long of)
    {
        lock (_gate)
        {
            _progress = new(Math.Max(done, _progress.Done), of, time.GetElapsedTime(_started));
            if (_told != 0 && time.GetElapsedTime(_told) < _between)
            {
                return;
            }

            _told = time.GetTimestamp();
        }

        Changed?.Invoke();
    }
}
