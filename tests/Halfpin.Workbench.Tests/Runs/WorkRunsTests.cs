using Halfpin.Domain.Assessments;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Runs;
using Halfpin.Workbench.Uncertain;
using Xunit;

namespace Halfpin.Workbench.Tests.Runs;

public sealed class WorkRunsTests : IDisposable
{
    private static readonly ProgramStamp _program = new("halfpin", "test");

    private readonly Works _works = new();

    public void Dispose() => _works.Dispose();

    [Fact]
    public async Task DeletedWork_endsWhatGoesOnForIt()
    {
        WorkspaceList list = _works.Open();
        Workspace work = list.Begin(Works.Demo, "opened for a test");
        WorkRuns runs = new(_program, TimeProvider.System);
        Task[] running =
        [
            runs.Search(work).Start(work.Case, null)!,
            runs.Uncertainty(work).Start(work.Case, new UncertaintyRequest("near-far", null, UncertaintyRun.MaxSamples, 1)).Running!,
            runs.Vary(work).Start(work.Case, new("near-far", [new("standoffMm", 32, 72, 50), new("farMm", 80, 110, 50)])).Running!,
        ];
        list.Delete(work.Id);
        await Task.WhenAll(running).WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken);
        Assert.Equal((RunState.Stopped, RunState.Stopped, RunState.Stopped), (runs.Search(work).Run.State, runs.Uncertainty(work).Run.State, runs.Vary(work).Run.State));
        Assert.Null(runs.Uncertainty(work).Run.Result);
    }

    [Fact]
    public void DeletedWork_startsNothingMore()
    {
        WorkspaceList list = _works.Open();
        Workspace work = list.Begin(Works.Demo, "opened for a test");
        WorkRuns runs = new(_program, TimeProvider.System);
        list.Delete(work.Id);
        Assert.Null(runs.Uncertainty(work).Start(work.Case, new UncertaintyRequest("near-far", null, UncertaintyRun.UsualSamples, 1)).Running);
        Assert.Equal(RunState.Idle, runs.Uncertainty(work).Run.State);
    }

    [Fact]
    public void OtherWork_goesOn()
    {
        WorkspaceList list = _works.Open();
        Workspace gone = list.Begin(Works.Demo, "opened for a test"), kept = list.Begin(Works.Demo, "opened for a test");
        list.Delete(gone.Id);
        Assert.True(gone.Gone.IsCancellationRequested);
        Assert.False(kept.Gone.IsCancellationRequested);
    }
}
