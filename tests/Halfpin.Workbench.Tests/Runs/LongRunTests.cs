using Halfpin.Domain.Cases;
using Halfpin.Workbench.Runs;
using Xunit;

namespace Halfpin.Workbench.Tests.Runs;

public class LongRunTests
{
    private static readonly Case _case = Works.Demo;

    [Fact]
    public async Task Run_thatEnds_keepsResultAndCase()
    {
        LongRun<string> run = new(TimeProvider.System);
        await run.Start(_case, (tell, _) =>
        {
            tell(3, 7);
            return "found";
        })!;
        Assert.Equal(RunState.Done, run.State);
        Assert.Equal(("found", 1), (run.Result!.Report, run.Result.Number));
        Assert.Same(_case, run.Result.Case);
        Assert.Equal((3, 7), (run.Progress.Done, run.Progress.Of));
    }

    [Fact]
    public async Task Run_underWay_letsNoOtherStart()
    {
        LongRun<string> run = new(TimeProvider.System);
        using ManualResetEventSlim go = new();
        Task first = run.Start(_case, (_, _) =>
        {
            go.Wait(TestContext.Current.CancellationToken);
            return "first";
        })!;
        Assert.Null(run.Start(_case, (_, _) => "second"));
        go.Set();
        await first;
        Assert.Equal("first", run.Result!.Report);
    }

    [Fact]
    public async Task Run_stopped_keepsTheResultBefore()
    {
        LongRun<string> run = new(TimeProvider.System);
        await run.Start(_case, (_, _) => "before")!;
        Task second = run.Start(_case, (_, stop) =>
        {
            stop.WaitHandle.WaitOne();
            stop.ThrowIfCancellationRequested();
            return "never";
        })!;
        run.Stop();
        await second;
        Assert.Equal((RunState.Stopped, "before", 1), (run.State, run.Result!.Report, run.Result.Number));
    }

    [Fact]
    public async Task Run_thatEndsAfterItWasStopped_givesNoResult()
    {
        LongRun<string> run = new(TimeProvider.System);
        Task task = run.Start(_case, (_, stop) =>
        {
            stop.WaitHandle.WaitOne();
            return "too late";
        })!;
        run.Stop();
        await task;
        Assert.Equal(RunState.Stopped, run.State);
        Assert.Null(run.Result);
    }

    [Fact]
    public async Task Run_thatBreaks_saysWhyAndMayBeStartedAgain()
    {
        LongRun<string> run = new(TimeProvider.System);
        await run.Start(_case, (_, _) => throw new InvalidOperationException("bone too short"))!;
        Assert.Equal((RunState.Failed, "bone too short"), (run.State, run.Problem));
        await run.Start(_case, (_, _) => "mended")!;
        Assert.Equal((RunState.Done, null, "mended"), (run.State, run.Problem, run.Result!.Report));
    }

    [Fact]
    public async Task Progress_toldOutOfOrder_neverFalls()
    {
        LongRun<string> run = new(TimeProvider.System);
        List<long> seen = [];
        run.Changed += () => seen.Add(run.Progress.Done);
        await run.Start(_case, (tell, _) =>
        {
            foreach (long done in new long[] { 5, 41, 17, 38, 59 })
            {
                tell(done, 60);
            }

            return "x";
        })!;
        Assert.Equal(seen.Order(), seen);
        Assert.Equal(59, run.Progress.Done);
    }

    [Fact]
    public void Progress_withAPace_tellsTimeLeft()
    {
        RunProgress progress = new(130, 520, TimeSpan.FromSeconds(6.5));
        Assert.Equal(20, progress.PerSecond!.Value, 9);
        Assert.Equal(19.5, progress.Left!.Value.TotalSeconds, 9);
        Assert.Equal("130 of 520 candidates, 20 a second, about 20 s left.", ProgressWords.Of(progress, "candidates", ""));
    }

    [Fact]
    public void Case_withAnotherFrameChanged_isTheSameAroundAFrame()
    {
        Case changed = Works.Demo with { Title = "Another", Frames = Works.Demo.Frames.SetItem(1, Works.Demo.Frames[1] with { Id = "moved" }) };
        Assert.True(CaseSameness.AroundFrame(Works.Demo, changed, "far-far"));
        Assert.False(CaseSameness.AroundFrame(Works.Demo, changed, "near-far"));
    }

    [Fact]
    public void Case_withTheSameContentInOtherArrays_isTheSame()
    {
        Case copy = Works.Demo with { Wounds = [.. Works.Demo.Wounds], Fractures = [.. Works.Demo.Fractures] };
        Assert.True(CaseSameness.Around(Works.Demo, copy));
        Assert.False(CaseSameness.Around(Works.Demo, copy with { Limb = copy.Limb with { PatientMassKg = 71.5 } }));
    }
}
