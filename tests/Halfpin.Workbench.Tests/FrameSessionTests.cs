using Halfpin.Domain.Assessments;
using Halfpin.Stability;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Live;
using Xunit;

namespace Halfpin.Workbench.Tests;

public sealed class FrameSessionTests : IDisposable
{
    private readonly Works _works = new();
    private readonly ProgramStamp _program = new("test", "0");

    private FrameSession Session(Workspace work, string frame) => new(work, frame, new(_program), _program);

    [Fact]
    public void Drag_showsTheAnswerOfTheDraggedValue()
    {
        Workspace work = _works.Begin();
        FrameSession session = Session(work, "near-far");
        session.View(0, []);
        Assert.Empty(session.Drag("standoff", 37));
        LiveView view = session.View(8, []);
        double axial = new Assessor(work.Shown).Assess("near-far", _program, "").Frames[0].Stiffness!.AtFracture.AxialNPerMm;
        Assert.True(view.IsDraft);
        Assert.Equal(Reports.Words.Numbers.Stiffness(axial), view.Texts["axial"]);
        Assert.Equal(37, view.Handles["standoff"]);
    }

    [Fact]
    public void Drag_keepsTheEndsOfTheBars()
    {
        FrameSession session = Session(_works.Begin(), "near-far");
        double? before = session.View(0, []).Shares["axial"];
        session.Drag("standoff", 37);
        LiveView during = session.View(1, []);
        Assert.Equal(before!.Value, during.Shares["axial.was"]!.Value, 6);
        Assert.True(during.Shares["axial"] > before);
    }

    [Fact]
    public void View_again_sendsLimbAndSectionOnceOnly()
    {
        FrameSession session = Session(_works.Begin(), "near-far");
        Assert.NotNull(session.View(0, []).Limb);
        session.Drag("standoff", 37);
        LiveView second = session.View(1, []);
        Assert.Null(second.Limb);
        Assert.Null(second.Cut);
    }

    [Fact]
    public void Level_moved_sendsItsSection()
    {
        FrameSession session = Session(_works.Begin(), "near-far");
        session.View(0, []);
        session.LevelMm = 117.3;
        Assert.Equal(117.3, session.View(1, []).Cut!.LevelMm);
    }

    [Fact]
    public void Drop_isAStepOfUndoInWords()
    {
        Workspace work = _works.Begin();
        Session(work, "near-far").Drop("standoff", 41);
        Assert.Equal("rod to bone 41 mm, Single rod, near-far, 52 mm", work.UndoWords);
    }

    [Fact]
    public void Drag_ofAnUnknownHandle_changesNothing()
    {
        Workspace work = _works.Begin();
        Session(work, "near-far").Drag("nothing", 3);
        Assert.False(work.IsDrafting);
    }

    [Fact]
    public void Bent_askedFor_hasEveryPinAndRod()
    {
        FrameSession session = Session(_works.Begin(), "two-plane");
        session.ShowsBent = true;
        LiveView view = session.View(0, []);
        Assert.Equal(view.Frame.Parts.Where(p => p.Kind != "clamp").Select(p => p.Id).Order(), view.Bent!.Lines.Select(l => l.Part).Order());
    }

    public void Dispose() => _works.Dispose();
}
