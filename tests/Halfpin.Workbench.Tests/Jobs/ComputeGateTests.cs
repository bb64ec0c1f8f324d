using Halfpin.Workbench.Jobs;
using Xunit;

namespace Halfpin.Workbench.Tests.Jobs;

public class ComputeGateTests
{
    private static readonly TimeSpan _short = TimeSpan.FromMilliseconds(83);

    [Fact]
    public async Task Work_inTime_isAnswered() => Assert.Equal(41, await new ComputeGate(1, TimeSpan.FromSeconds(30)).RunAsync(() => 41, TestContext.Current.CancellationToken));

    [Fact]
    public async Task Work_thatFails_failsForItsCaller() =>
        await Assert.ThrowsAsync<InvalidOperationException>(() => new ComputeGate(1, TimeSpan.FromSeconds(30)).RunAsync<int>(() => throw new InvalidOperationException("so"), TestContext.Current.CancellationToken));

    [Fact]
    public async Task Work_givenUp_keepsItsPlaceUntilItEnds()
    {
        ComputeGate gate = new(1, _short);
        using ManualResetEventSlim end = new();
        await Assert.ThrowsAsync<TimeoutException>(() => gate.RunAsync(() => { end.Wait(); return 1; }, TestContext.Current.CancellationToken));
        await Assert.ThrowsAsync<TimeoutException>(() => gate.RunAsync(() => 2, TestContext.Current.CancellationToken));
        end.Set();

        Assert.Equal(3, await EventuallyAsync(gate));
    }

    // The place is free again a moment after the work has ended.
    private static async Task<int> EventuallyAsync(ComputeGate gate)
    {
        for (int i = 0; i < 50; i++)
        {
            try
            {
                return await gate.RunAsync(() => 3, TestContext.Current.CancellationToken);
            }
            catch (TimeoutException)
            {
                // Not yet.
            }
        }

        return 0;
    }
}
