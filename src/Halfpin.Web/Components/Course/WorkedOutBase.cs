using System.Diagnostics;
using Microsoft.AspNetCore.Components;

namespace Halfpin.Web.Components.Course;

/// <summary>
/// A part of a page whose content is worked out beside the screen. What was found last stays, marked as old, until the next is there; it
/// goes at once when the question is about something else.
/// </summary>
/// <typeparam name="T">What is worked out.</typeparam>
public abstract class WorkedOutBase<T> : ComponentBase, IDisposable
    where T : class
{
    private static readonly TimeSpan _betweenDrawings = TimeSpan.FromMilliseconds(250);

    private CancellationTokenSource? _stop;
    private object? _question;
    private string? _subject;

    /// <summary>What was found last; null when nothing was yet.</summary>
    protected T? Result { get; private set; }

    /// <summary>True while the answer to the last question is on its way.</summary>
    protected bool IsWorking { get; private set; }

    /// <summary>True when what was found last answers another question than the one put last.</summary>
    protected bool IsOld { get; private set; }

    /// <summary>How far the work is and how long it will take, in words; empty when that is not known.</summary>
    protected string Progress { get; private set; } = "";

    /// <inheritdoc />
    public void Dispose()
    {
        Stop();
        GC.SuppressFinalize(this);
    }

    /// <summary>Asks a question, unless it is the one asked last.</summary>
    /// <param name="subject">What it is about.</param>
    /// <param name="question">All that its answer depends on.</param>
    /// <param name="work">How it is answered, on any thread.</param>
    protected void Ask(string subject, object question, Func<T> work) => Ask(subject, question, (_, _) => work());

    /// <summary>Asks a question whose answer takes long, unless it is the one asked last.</summary>
    /// <param name="subject">What it is about.</param>
    /// <param name="question">All that its answer depends on.</param>
    /// <param name="work">How it is answered, on any thread; it tells the share that is done.</param>
    protected void Ask(string subject, object question, Func<IProgress<double>, CancellationToken, T> work)
    {
        // The page as first sent is drawn again at once when it becomes interactive; the work is done then.
        if (!RendererInfo.IsInteractive || question.Equals(_question))
        {
            return;
        }

        Stop();
        Result = subject == _subject ? Result : null;
        (_subject, _question, IsWorking, IsOld) = (subject, question, true, true);
        _stop = new();
        _ = RunAsync(work, _stop.Token);
    }

    /// <summary>Notes that the question has become another one without answering it.</summary>
    /// <param name="subject">What it is about.</param>
    /// <param name="question">All that an answer depends on.</param>
    protected void Outdate(string subject, object question)
    {
        if (_question is not null && !question.Equals(_question))
        {
            Stop();
            Result = subject == _subject ? Result : null;
            (_question, IsOld) = (null, Result is not null);
        }
    }

    /// <summary>Gives the work up; the same question may be asked again.</summary>
    protected void Cancel()
    {
        Stop();
        _question = null;
    }

    private void Stop()
    {
        _stop?.Cancel();
        _stop?.Dispose();
        (_stop, IsWorking, Progress) = (null, false, "");
    }

    private async Task RunAsync(Func<IProgress<double>, CancellationToken, T> work, CancellationToken stop)
    {
        try
        {
            Teller teller = new(share => _ = InvokeAsync(() => Told(share, stop)));
            T found = await Task.Run(() => work(teller, stop), stop).ConfigureAwait(true);
            if (!stop.IsCancellationRequested)
            {
                (Result, IsWorking, IsOld, Progress) = (found, false, false, "");
                StateHasChanged();
            }
        }
        catch (OperationCanceledException)
        {
            // Another question was asked meanwhile, or the page was left.
        }
        catch (Exception e)
        {
            await DispatchExceptionAsync(e).ConfigureAwait(true);
        }
    }

    private void Told((double Share, TimeSpan Passed) at, CancellationToken stop)
    {
        if (!stop.IsCancellationRequested && IsWorking)
        {
            double left = at.Passed.TotalSeconds * (1 - at.Share) / at.Share;
            Progress = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{100 * at.Share:0} % done, about {Math.Max(1, Math.Round(left)):0} s left.");
            StateHasChanged();
        }
    }

    // Passes on what was told, a few times a second.
    private sealed class Teller(Action<(double Share, TimeSpan Passed)> tell) : IProgress<double>
    {
        private readonly Stopwatch _since = Stopwatch.StartNew();
        private TimeSpan _last;

        public void Report(double value)
        {
            TimeSpan passed = _since.Elapsed;
            if (value > 0 && passed - _last >= _betweenDrawings)
            {
                _last = passed;
                tell((value, passed));
            }
        }
    }
}
