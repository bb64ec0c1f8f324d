using Halfpin.Domain.Assessments;
using Halfpin.Stability;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Live;
using Xunit;

namespace Halfpin.Workbench.Tests;

public sealed class FrameScreenTests : IDisposable
{
    private readonly Works _works = new();
    private readonly ProgramStamp _program = new("test", "0");

    private FrameScreen Screen(Workspace work, string frame) => new(work, frame, new(_program), _program);

    [Fact]
    public void Drag_showsTheAnswerOfTheDraggedValue()
    {
        Workspace work = _works.Begin();
        FrameScreen screen = Screen(work, "near-far");
        screen.View(0, []);
        Assert.Empty(screen.Drag("standoff", 37));
        LiveView view = screen.View(8, []);
        double axial = new Assessor(work.Shown).Assess("near-far", _program, "").Frames[0].Stiffness!.AtFracture.AxialNPerMm;
        Assert.True(view.IsDraft);
        Assert.Equal(Reports.Words.Numbers.Stiffness(axial), view.Texts["axial"]);
        Assert.Equal(37, view.Handles["standoff"]);
    }

    [Fact]
    public void Drag_keepsTheEndsOfTheBars()
    {
        FrameScreen screen = Screen(_works.Begin(), "near-far");
        double? before = screen.View(0, []).Shares["axial"];
        screen.Drag("standoff", 37);
        LiveView during = screen.View(1, []);
        Assert.Equal(before!.Value, during.Shares["axial.was"]!.Value, 6);
        Assert.True(during.Shares["axial"] > before);
    }

    [Fact]
    public void View_again_sendsLimbAndSectionOnceOnly()
    {
        FrameScreen screen = Screen(_works.Begin(), "near-far");
        Assert.NotNull(screen.View(0, []).Limb);
        screen.Drag("standoff", 37);
        LiveView second = screen.View(1, []);
        Assert.Null(second.Limb);
        Assert.Null(second.Cut);
    }

    [Fact]
    public void Level_moved_sendsItsSection()
    {
        FrameScreen screen = Screen(_works.Begin(), "near-far");
        screen.View(0, []);
        screen.LevelMm = 117.3;
        Assert.Equal(117.3, screen.View(1, []).Cut!.LevelMm);
    }

    [Fact]
    public void Drop_isAStepOfUndoInWords()
    {
        Workspace work = _works.Begin();
        Screen(work, "near-far").Drop("standoff", 41);
        Assert.Equal("rod to bone 41 mm, Single rod, near-far, 52 mm", work.UndoWords);
    }

    [Fact]
    public void Drag_ofAnUnknownHandle_changesNothing()
    {
        Workspace work = _works.Begin();
        Screen(work, "near-far").Drag("nothing", 3);
        Assert.False(work.IsDrafting);
    }

    [Fact]
    public void Bent_askedFor_hasEveryPinAndRod()
    {
        FrameScreen screen = Screen(_works.Begin(), "two-plane");
        screen.ShowsBent = true;
        LiveView view = screen.View(0, []);
        Assert.Equal(view.Frame.Parts.Where(p => p.Kind != "clamp").Select(p => p.Id).Order(), view.Bent!.Lines.Select(l => l.Part).Order());
    }

    public void Dispose() => _works.Dispose();
}
