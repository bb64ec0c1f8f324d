using Halfpin.Domain.Cases;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Skin;
using Xunit;

namespace Halfpin.Workbench.Tests;

public sealed class AreaDragTests : IDisposable
{
    private readonly Works _works = new();

    private static Case With(double from, double to, double first, double second) =>
        Works.Demo with { Wounds = [new() { FromLevelMm = from, ToLevelMm = to, FromAzimuthDeg = first, ToAzimuthDeg = second }] };

    private static (double, double, double, double) After(Case value, AreaEdges edges, double byMm, double byDeg)
    {
        Wound w = new AreaDrag("/wounds/0", edges, byMm, byDeg).Edit(value)!.Apply(value).Wounds[0];
        return (w.FromLevelMm, w.ToLevelMm, w.FromAzimuthDeg, w.ToAzimuthDeg);
    }

    [Fact]
    public void Area_moved_keepsItsSizeAndGoesRoundBehindTheLeg() =>
        Assert.Equal((152, 183, -177, -132), After(With(140, 171, 138, -177), AreaEdges.All, 12.3, 44.8));

    [Fact]
    public void Area_movedPastTheBonesEnd_stopsThere() =>
        Assert.Equal((Works.Demo.Limb.LengthMm - 31, Works.Demo.Limb.LengthMm, -11, 24), After(With(140, 171, -11, 24), AreaEdges.All, 900, 0));

    [Theory]
    [InlineData(AreaEdges.Proximal, 122, 171, -11, 24)]
    [InlineData(AreaEdges.Distal, 140, 153, -11, 24)]
    [InlineData(AreaEdges.First, 140, 171, -4, 24)]
    [InlineData(AreaEdges.Second, 140, 171, -11, 31)]
    [InlineData(AreaEdges.Proximal | AreaEdges.First, 122, 171, -4, 24)]
    public void Edge_moved_movesAlone(AreaEdges edges, double from, double to, double first, double second) =>
        Assert.Equal((from, to, first, second), After(With(140, 171, -11, 24), edges, -18.2, 7.4));

    [Theory]
    [InlineData(AreaEdges.Proximal, 500, 167, 171)]
    [InlineData(AreaEdges.Distal, -500, 140, 144)]
    public void Edge_movedPastTheOther_leavesRoomToTakeHoldOf(AreaEdges edges, double byMm, double from, double to) =>
        Assert.Equal((from, to, -11d, 24d), After(With(140, 171, -11, 24), edges, byMm, 0));

    [Fact]
    public void Edge_movedRoundTheLeg_neverMeetsTheOther()
    {
        Assert.Equal((140d, 171d, -11d, -7d), After(With(140, 171, -11, 24), AreaEdges.Second, 0, -300));
        Assert.Equal((140d, 171d, -11d, -21d), After(With(140, 171, -11, 24), AreaEdges.Second, 0, 700));
    }

    [Fact]
    public void Drag_draftedStepByStep_isOneStepOfUndo()
    {
        Workspace work = _works.Begin();
        Wound before = work.Case.Wounds[0];
        for (int i = 1; i < 6; i++)
        {
            Assert.Empty(work.Draft(new AreaDrag("/wounds/0", AreaEdges.All, 2.2 * i, -1.3 * i).Edit(work.Case)!));
        }

        Assert.Equal(before.FromLevelMm + 11, work.Shown.Wounds[0].FromLevelMm, 0.51);
        Assert.Empty(work.Apply(new AreaDrag("/wounds/0", AreaEdges.All, 13.2, -7.8).Edit(work.Case)!));
        Assert.Equal($"wound 1: {AreaDrag.Words(work.Case.Wounds[0])}", work.UndoWords);
        work.Undo();
        Assert.Equal(before, work.Case.Wounds[0]);
        Assert.Null(work.UndoWords);
    }

    [Fact]
    public void Incision_moved_keepsItsPurpose()
    {
        Case value = Works.Demo with { PlannedIncisions = [new() { For = IncisionPurpose.Plate, FromLevelMm = 100, ToLevelMm = 147, FromAzimuthDeg = 33, ToAzimuthDeg = 52 }] };
        PlannedIncision moved = Assert.Single(new AreaDrag("/plannedIncisions/0", AreaEdges.All, -9, 3).Edit(value)!.Apply(value).PlannedIncisions);
        Assert.Equal(new() { For = IncisionPurpose.Plate, FromLevelMm = 91, ToLevelMm = 138, FromAzimuthDeg = 36, ToAzimuthDeg = 55 }, moved);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("/wounds/0 15 1")]
    [InlineData("/wounds/0 0 1 1")]
    [InlineData("/wounds/0 16 1 1")]
    [InlineData("/wounds/0 15 NaN 1")]
    [InlineData("/wounds/0 15 1 Infinity")]
    [InlineData("/wounds/0 15 1,5 1")]
    public void Text_thatIsNoMovement_isNone(string? text) => Assert.Null(AreaDrag.Read(text));

    [Fact]
    public void Text_ofTheDrawing_isReadAndAnUnknownAreaChangesNothing()
    {
        AreaDrag? read = AreaDrag.Read("/wounds/7 5 -12.25 3.50");
        Assert.Equal(new AreaDrag("/wounds/7", AreaEdges.Proximal | AreaEdges.First, -12.25, 3.5), read);
        Assert.Null(read!.Edit(Works.Demo));
    }

    public void Dispose() => _works.Dispose();
}
