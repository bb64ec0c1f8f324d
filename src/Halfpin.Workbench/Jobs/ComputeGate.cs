namespace Halfpin.Workbench.Jobs;

/// <summary>
/// Lets a few computations run at once and waits for each no longer than a limit. One that is given up keeps its place until it really ends,
/// so that impatient callers cannot heap up work. May be used from several threads.
/// </summary>
public sealed class ComputeGate
{
    private readonly SemaphoreSlim _places;
    private readonly TimeSpan _limit;

    /// <summary>A gate.</summary>
    /// <param name="places">Computations at once.</param>
    /// <param name="limit">How long a caller waits, for a place and for the answer each.</param>
    public ComputeGate(int places, TimeSpan limit) => (_places, _limit) = (new(places), limit);

    /// <summary>Computes off the caller's thread.</summary>
    /// <exception cref="TimeoutException">It took longer than the limit, or no place became free.</exception>
    /// <exception cref="OperationCanceledException">The caller has left.</exception>
    public async Task<T> RunAsync<T>(Func<T> work, CancellationToken left)
    {
        if (!await _places.WaitAsync(_limit, left).ConfigureAwait(false))
        {
            throw new TimeoutException("No place became free.");
        }

        Task<T> running = Task.Run(
            () =>
            {
                try
                {
                    return work();
                }
                finally
                {
                    _places.Release();
                }
            },
            CancellationToken.None);
        return await running.WaitAsync(_limit, left).ConfigureAwait(false);
    }
}
