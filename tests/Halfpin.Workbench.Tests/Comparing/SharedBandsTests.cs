using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Studies.Uncertainty;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Comparing;
using Halfpin.Workbench.Handles;
using Halfpin.Workbench.Runs;
using Xunit;

namespace Halfpin.Workbench.Tests.Comparing;

public class SharedBandsTests
{
    private static readonly FrameAnswers _answers = new(new("halfpin", "test"));
    private static readonly ImmutableArray<Frame> _shown = ComparisonWriter.Chosen(Works.Demo, "near-far,near-far-close,double-rod-dynamised");
    private static readonly Lazy<Task<RunResult<SharedReport>>> _result = new(RunAsync);

    [Fact]
    public async Task Cells_ofAComparison_tellMedianAndBandOfTheStudy()
    {
        RunResult<SharedReport> result = await _result.Value;
        ComparisonView view = ComparisonWriter.Of(Works.Demo, _shown, _answers, result.Report);
        ComparedCell axial = view.Results[0].Rows.Single(r => r.Key == "axialNPerMm").Cells[0];
        Assert.True(view.HasStudyBands);
        Assert.Matches("^median\u00a0[0-9]+, [0-9]+\u00a0to\u00a0[0-9]+$", axial.Band);
        StiffnessPanelBar bar = view.Panels[0].Bars[0];
        Assert.True(bar.LowShare < bar.MedianShare && bar.MedianShare < bar.HighShare && bar.HighShare <= 1);
        Assert.Contains("median", bar.Band, StringComparison.Ordinal);
    }

    [Fact]
    public void Cells_withoutAStudy_tellBandsOfInputsWithoutAMedian()
    {
        ComparisonView view = ComparisonWriter.Of(Works.Demo, _shown, _answers);
        Assert.False(view.HasStudyBands);
        Assert.StartsWith("Bands of inputs at their worst together", view.BandWords, StringComparison.Ordinal);
        Assert.Matches("^[0-9]+ to [0-9]+$", view.Results[0].Rows.Single(r => r.Key == "axialNPerMm").Cells[0].Band);
        Assert.Null(view.Panels[0].Bars[0].MedianShare);
    }

    [Fact]
    public async Task Comparison_withAFrameThatWasNotStudied_keepsOneKindOfBand()
    {
        RunResult<SharedReport> result = await _result.Value;
        ImmutableArray<Frame> more = ComparisonWriter.Chosen(Works.Demo, "near-far,two-plane");
        Assert.False(ComparisonWriter.Of(Works.Demo, more, _answers, result.Report).HasStudyBands);
        SharedBandsView view = SharedBandsWriter.Of(result, Works.Demo, more, null);
        Assert.False(view.IsOfAllFrames);
        Assert.Empty(view.Chances);
    }

    [Fact]
    public async Task FrameNearerTheBone_isSurelyStifferAlongIt_andOthersAreRankedAgainstTheOneChosen()
    {
        SharedBandsView view = SharedBandsWriter.Of(await _result.Value, Works.Demo, _shown, "near-far");
        ChanceRow close = view.Chances.Single(c => c.Id == "near-far-close");
        Assert.Equal(["axialNPerMm", "apBendingNmPerDeg", "mlBendingNmPerDeg", "torsionNmPerDeg"], view.Directions.Select(d => d.Key));
        Assert.Equal(("100 %", "at least 97 %"), (close.Cells[0].Text, close.Cells[0].Interval));
        Assert.DoesNotContain(view.Chances, c => c.Id == "near-far");
        Assert.Contains("128 samples", view.Words, StringComparison.Ordinal);
        Assert.Equal("near-far-close", SharedBandsWriter.Of(await _result.Value, Works.Demo, _shown, "near-far-close").Against);
        Assert.Equal("near-far", SharedBandsWriter.Of(await _result.Value, Works.Demo, _shown, "nobody").Against);
    }

    [Fact]
    public async Task ChangedFrame_makesBandsStale_aNewNameDoesNot()
    {
        RunResult<SharedReport> result = await _result.Value;
        Frame frame = Works.Demo.Frames.First(f => f.Id == "near-far");
        Case named = FrameEdits.Rename(frame, "another name").Apply(Works.Demo), moved = FrameHandles.Of(Works.Demo, "near-far").Single(h => h.Key == "standoff").To("it", 44).Apply(Works.Demo);
        Assert.False(SharedBandsWriter.Of(result, named, _shown, null).IsStale);
        Assert.True(SharedBandsWriter.Of(result, moved, _shown, null).IsStale);
        Assert.True(SharedBandsWriter.Of(result, Works.Demo with { Limb = Works.Demo.Limb with { LengthMm = 361 } }, _shown, null).IsStale);
    }

    [Fact]
    public async Task FrameThatIsGone_leavesTheOthersBandsInForce()
    {
        Case fewer = FrameEdits.Remove(Works.Demo.Frames.First(f => f.Id == "near-far-close")).Apply(Works.Demo);
        Assert.False(SharedBandsWriter.Of(await _result.Value, fewer, ComparisonWriter.Chosen(fewer, "near-far"), null).IsStale);
    }

    [Fact]
    public async Task Csv_hasTheBandsWhileTheyAreAboutTheCaseAsItIs()
    {
        RunResult<SharedReport> result = await _result.Value;
        string[] lines = ComparisonCsv.Of(Works.Demo, _shown, _answers, SharedBandsWriter.InForce(result, Works.Demo)).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        string[] headings = lines[0].Trim().Split(',');
        int median = Array.IndexOf(headings, "median.axialNPerMm");
        Assert.Equal(result.Report.Of(_shown[0].Id)!.Results.First(r => r.Name == "axialNPerMm").Median!.Value, double.Parse(Unquoted(lines[1]).Split(',')[median], System.Globalization.CultureInfo.InvariantCulture), 1e-9);
        Assert.Equal("samples", headings[^3]);
        Case longer = Works.Demo with { Limb = Works.Demo.Limb with { LengthMm = 361 } };
        Assert.DoesNotContain("median.", ComparisonCsv.Of(longer, _shown, _answers, SharedBandsWriter.InForce(result, longer)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_stopped_hasNoResult()
    {
        SharedBandsRun run = new(TimeProvider.System);
        Task running = run.Start(Works.Demo, [.. _shown.Select(f => f.Id)], 8192).Running!;
        run.Run.Stop();
        await running;
        Assert.Equal((RunState.Stopped, null), (run.Run.State, run.Run.Result));
    }

    // Names of frames hold commas.
    private static string Unquoted(string line) => string.Concat(line.Split('"').Where((_, i) => i % 2 == 0));

    private static async Task<RunResult<SharedReport>> RunAsync()
    {
        SharedBandsRun run = new(TimeProvider.System);
        await run.Start(Works.Demo, [.. _shown.Select(f => f.Id)], SharedBandsRun.Samples[0]).Running!;
        Assert.Equal(run.Run.Progress.Of, run.Run.Progress.Done);
        return run.Run.Result!;
    }
}
