using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Checks;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Handles;
using Halfpin.Workbench.Runs;
using Halfpin.Workbench.Searches;
using Xunit;

namespace Halfpin.Workbench.Tests.Searches;

public sealed class SearchRunTests : IDisposable
{
    private static readonly ProgramStamp _program = new("halfpin", "test");
    private readonly Works _works = new();

    // A small part of the usual choices, so that a search takes a moment.
    private static Case Small { get; } = Works.Demo with
    {
        Search = Works.Demo.Search with { NearMm = [25, 35], FarMm = [70, 95], AzimuthDeg = [50, 70], StandoffMm = [49, 52], PinDiameterMm = [5, 6], Rods = [new() { DiameterMm = 11, Material = "carbon" }] },
    };

    private static Case SmallSegmental { get; } = Examples.Segmental with
    {
        Search = new() { NearMm = [30, 40], FarMm = [75, 95], AzimuthDeg = [45, 55], StandoffMm = [49, 55], MiddleEdgeMm = [20, 24], PinDiameterMm = [5, 6], Rods = [new() { DiameterMm = 11, Material = "carbon" }] },
    };

    public void Dispose() => _works.Dispose();

    [Fact]
    public async Task Search_taken_addsAFrameThatUndoTakesBack()
    {
        Workspace work = _works.Begin(Small);
        SuggestView view = SuggestWriter.Of(await Found(work.Case), work.Case, null);
        Assert.Equal(Verdict.Pass, view.Verdict);
        (CaseEdit edit, string id) = SuggestEdits.Take(work.Case, view.Simplest!.Found.Frame, SuggestEdits.NameOf(view.Simplest));
        Assert.Empty(work.Apply(edit));
        Frame taken = work.Case.Frames.Single(f => f.Id == id);
        Assert.Equal(("Suggested", view.Simplest.Found.Frame.Construct), (taken.Name, taken.Construct));
        Assert.Equal("add Suggested", work.UndoWords);
        work.Undo();
        Assert.DoesNotContain(work.Case.Frames, f => f.Id == id);
    }

    [Fact]
    public async Task Search_ofASegmentalFracture_offersFramesByPartsThatCanBeTaken()
    {
        Workspace work = _works.Begin(SmallSegmental);
        SuggestView view = SuggestWriter.Of(await Found(work.Case), work.Case, null);
        Assert.All(view.Choices, c => Assert.Contains(" at levels ", c.Words, StringComparison.Ordinal));
        Assert.All(view.Choices, c => Assert.Matches("^(One rod|Two rods|V), ", c.Name));
        (CaseEdit edit, string id) = SuggestEdits.Take(work.Case, view.Simplest!.Found.Frame, SuggestEdits.NameOf(view.Simplest));
        Assert.Empty(work.Apply(edit));
        Assert.Equal(view.Simplest.Found.Parts.Pins, work.Case.Frames.Single(f => f.Id == id).Parts!.Pins.Length);
    }

    [Fact]
    public async Task Search_ofASegmentalFracture_keepsChoicesBesideTheSimplest()
    {
        SuggestView view = SuggestWriter.Of(await Found(SmallSegmental), SmallSegmental, null);
        Assert.True(view.Choices.Length > 1);
        Assert.Equal(view.Choices.Length, view.Choices.DistinctBy(c => c.Words).Count());
    }

    [Fact]
    public async Task SmallestChange_ofAConstructWithNothingBetween_appliedMakesItMeetAll()
    {
        Workspace work = _works.Begin(SmallSegmental);
        OwnFrame four = SuggestWriter.Of(await Found(work.Case), work.Case, null).Own.Single(o => o.Id == "four-pins");
        Assert.Empty(work.Apply(SuggestEdits.Change(four)));
        Assert.True(SuggestWriter.Of(await Found(work.Case), work.Case, null).Own.Single(o => o.Id == "four-pins").Meets);
    }

    [Fact]
    public void Lead_ofASegmentalFracture_saysThatPinsStandBetween() =>
        Assert.Contains("with pins in each fragment between fractures", SearchWords.Lead(SmallSegmental, null), StringComparison.Ordinal);

    [Fact]
    public async Task Search_takenTwice_givesFreeNames()
    {
        Workspace work = _works.Begin(Small);
        SuggestView view = SuggestWriter.Of(await Found(work.Case), work.Case, null);
        for (int i = 0; i < 2; i++)
        {
            Assert.Empty(work.Apply(SuggestEdits.Take(work.Case, view.Simplest!.Found.Frame, "Suggested").Edit));
        }

        Assert.Equal(["Suggested", "Suggested 2"], work.Case.Frames.TakeLast(2).Select(f => f.Name!));
    }

    [Fact]
    public async Task SmallestChange_applied_makesTheFrameMeetAll()
    {
        Workspace work = _works.Begin(Small);
        OwnFrame close = SuggestWriter.Of(await Found(work.Case), work.Case, null).Own.Single(o => o.Id == "near-far-close");
        Assert.False(close.Meets);
        Assert.Contains("room between rod and skin", close.Words, StringComparison.Ordinal);
        Assert.Empty(work.Apply(SuggestEdits.Change(close)));
        OwnFrame after = SuggestWriter.Of(await Found(work.Case), work.Case, null).Own.Single(o => o.Id == "near-far-close");
        Assert.True(after.Meets);
    }

    [Fact]
    public async Task Result_afterAFrameWasAdded_staysWithThatFrameUnjudged()
    {
        RunResult<SearchFound> result = await Found(Small);
        Case now = Small with { Frames = Small.Frames.Add(Small.Frames[0] with { Id = "later" }) };
        SuggestView view = SuggestWriter.Of(result, now, null);
        Assert.False(view.IsStale);
        Assert.True(view.Own.Single(o => o.Id == "later").IsStale);
        Assert.False(view.Own.Single(o => o.Id == "far-far").IsStale);
    }

    [Fact]
    public async Task Result_afterTheLimbOrTheStockChanged_isStale()
    {
        RunResult<SearchFound> result = await Found(Small);
        Assert.True(SuggestWriter.Of(result, Small with { Loading = new() { AllowedKg = 7.5 } }, null).IsStale);
        Assert.True(SuggestWriter.Of(result, Small, "ab12").IsStale);
    }

    [Fact]
    public async Task Search_withImpossibleRequirement_namesConflictAndNearestMiss()
    {
        Case strict = Small with { Requirements = Small.Requirements with { LeastWeakBendingNmPerDeg = 812.5 } };
        SuggestView view = SuggestWriter.Of(await Found(strict), strict, null);
        Assert.Null(view.Simplest);
        Assert.Equal(Verdict.Fail, view.Verdict);
        Conflict conflict = Assert.Single(view.Conflicts, c => c.NearestMiss is not null && c.Words.Contains("812.5", StringComparison.Ordinal));
        Assert.NotEmpty(conflict.NearestWords);
    }

    [Fact]
    public async Task Search_stoppedAtOnce_endsWithoutResult()
    {
        SearchRun search = new(_program, TimeProvider.System);
        Task running = search.Start(Works.Demo, null)!;
        search.Run.Stop();
        await running;
        Assert.Equal(RunState.Stopped, search.Run.State);
        Assert.Null(search.Run.Result);
    }

    [Fact]
    public async Task Plot_ofChoices_placesEachByItsNumbers()
    {
        SuggestView view = SuggestWriter.Of(await Found(Small), Small, null);
        ChoiceAxis x = ChoiceAxis.Find("parts", "cost"), y = ChoiceAxis.Find("nonsense", "weak");
        ChoicePlot plot = ChoicePlot.Of(view.Choices, x, y);
        Assert.Equal(view.Choices.Length, plot.Points.Length);
        Assert.All(plot.Points, p => Assert.Equal(p.Choice.Found.WeakBendingNmPerDeg, plot.Up.From + (p.Above * (plot.Up.To - plot.Up.From)), 6));
        Assert.True(plot.Points[0].Choice.IsSimplest);
    }

    [Fact]
    public void Runs_ofOneWork_areTheSameFromEveryPage()
    {
        Workspace work = _works.Begin(Small), other = _works.Begin(Small);
        WorkRuns runs = new(_program, TimeProvider.System);
        Assert.Same(runs.Search(work), runs.Search(work));
        Assert.NotSame(runs.Search(work), runs.Search(other));
    }

    [Fact]
    public void Rule_ofEveryCheck_hasAShortName() => Assert.All(CheckNames.All, c => Assert.True(CheckWords.Has(c), c));

    [Fact]
    public async Task Rule_thatTurnsCandidatesAway_hasAShortName()
    {
        SuggestView view = SuggestWriter.Of(await Found(Small with { Search = Small.Search with { NearMm = [25, 90], FarMm = [70, 130] } }), Small, null);
        Assert.NotEmpty(view.Filters);
        Assert.All(view.Filters, f => Assert.True(CheckWords.Has(f.Rule), f.Rule));
    }

    [Fact]
    public void Name_free_isKept() => Assert.Equal("Suggested", FrameEdits.FreeName(Small, "Suggested"));

    private static async Task<RunResult<SearchFound>> Found(Case value)
    {
        SearchRun search = new(_program, TimeProvider.System);
        await search.Start(value, null)!;
        return search.Run.Result ?? throw new InvalidOperationException(search.Run.Problem);
    }
}
