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
    private CancellationTokenSource? _stop;
    private object? _question;
    private string? _subject;

    /// <summary>What was found last; null when nothing was yet.</summary>
    protected T? Result { get; private set; }

    /// <summary>True while the answer to the last question is on its way.</summary>
    protected bool IsWorking { get; private set; }

    /// <inheritdoc />
    public void Dispose()
    {
        _stop?.Cancel();
        _stop?.Dispose();
        GC.SuppressFinalize(this);
    }

    /// <summary>Asks a question, unless it is the one asked last.</summary>
    /// <param name="subject">What it is about.</param>
    /// <param name="question">All that its answer depends on.</param>
    /// <param name="work">How it is answered, on any thread.</param>
    protected void Ask(string subject, object question, Func<T> work)
    {
        // The page as first sent is drawn again at once when it becomes interactive; the work is done then.
        if (!RendererInfo.IsInteractive || question.Equals(_question))
        {
            return;
        }

        Result = subject == _subject ? Result : null;
        (_subject, _question, IsWorking) = (subject, question, true);
        _stop?.Cancel();
        _stop?.Dispose();
        _stop = new();
        _ = RunAsync(work, _stop.Token);
    }

    private async Task RunAsync(Func<T> work, CancellationToken stop)
    {
        try
        {
            T found = await Task.Run(work, stop).ConfigureAwait(true);
            if (!stop.IsCancellationRequested)
            {
                (Result, IsWorking) = (found, false);
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
}
