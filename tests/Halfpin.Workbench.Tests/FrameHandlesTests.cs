using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability;
using Halfpin.Workbench.Handles;
using Xunit;

namespace Halfpin.Workbench.Tests;

public class FrameHandlesTests
{
    public static TheoryData<string> Frames => [.. Works.Demo.Frames.Select(f => f.Id)];

    private static Frame FrameOf(Case value, string id) => value.Frames.First(f => f.Id == id);

    private static Parts PartsOf(Case value, string id) => FrameOf(value, id).Parts ?? ConstructBuilder.Build(FrameOf(value, id).Construct!, value.Fractures);

    [Theory]
    [MemberData(nameof(Frames))]
    public void Handle_setToItsOwnValue_changesNothing(string frame)
    {
        foreach (Handle handle in FrameHandles.Of(Works.Demo, frame))
        {
            Assert.Equal(FrameOf(Works.Demo, frame), FrameOf(handle.With(Works.Demo, handle.Value), frame));
        }
    }

    [Theory]
    [MemberData(nameof(Frames))]
    public void Handle_moved_movesNoOtherFrame(string frame)
    {
        foreach (Handle handle in FrameHandles.Of(Works.Demo, frame))
        {
            Case changed = handle.With(Works.Demo, handle.Value == handle.Max ? handle.Min : handle.Max);
            Assert.Equal(Works.Demo.Frames.Where(f => f.Id != frame), changed.Frames.Where(f => f.Id != frame));
        }
    }

    // What the drawing relies on: the part follows the pointer, whatever the value behind it.
    [Theory]
    [MemberData(nameof(Frames))]
    public void Grip_along_movesItsPartByThePointersWay(string frame)
    {
        foreach ((Handle handle, HandleGrip grip) in FrameHandles.Of(Works.Demo, frame).SelectMany(h => h.Grips.Where(g => g.Motion == HandleMotion.Along).Select(g => (h, g))))
        {
            double Level(Case value) => PartsOf(value, frame) is var parts && parts.Pins.FirstOrDefault(p => p.Id == grip.Part) is Pin pin ? pin.LevelMm : parts.Rods.First(r => r.Id == grip.Part).From.LevelMm;
            const double MovedMm = 3.7;
            Assert.Equal(Level(Works.Demo) + MovedMm, Level(handle.With(Works.Demo, handle.Value + (grip.Factor * MovedMm))), 9);
        }
    }

    [Theory]
    [MemberData(nameof(Frames))]
    public void Grip_round_turnsItsPinByThePointersWay(string frame)
    {
        foreach ((Handle handle, HandleGrip grip) in FrameHandles.Of(Works.Demo, frame).SelectMany(h => h.Grips.Where(g => g.Motion == HandleMotion.Round).Select(g => (h, g))))
        {
            double Azimuth(Case value) => PartsOf(value, frame).Pins.First(p => p.Id == grip.Part).AzimuthDeg;
            Assert.Equal(Azimuth(Works.Demo) + 7.3, Azimuth(handle.With(Works.Demo, handle.Value + (grip.Factor * 7.3))), 9);
        }
    }

    [Fact]
    public void To_beyondTheRange_isBroughtIntoIt()
    {
        Handle standoff = FrameHandles.Of(Works.Demo, "near-far").First(h => h.Key == "standoff");
        Case changed = standoff.To("x", 9000).Apply(Works.Demo);
        Assert.Equal(standoff.Max, FrameOf(changed, "near-far").Construct!.StandoffMm);
    }

    [Theory]
    [InlineData("single-rod")]
    [InlineData("double-rod")]
    [InlineData("two-plane")]
    public void Layout_changed_isAValidCase(string kind) =>
        Assert.Empty(CaseValidity.Rules.SelectMany(rule => rule(FrameEdits.Layout(FrameOf(Works.Demo, "near-far"), kind).Apply(Works.Demo))));

    [Fact]
    public void PinByPin_keepsEveryPart()
    {
        Case changed = FrameEdits.PinByPin(FrameOf(Works.Demo, "two-plane")).Apply(Works.Demo);
        Assert.Equal(PartsOf(Works.Demo, "two-plane").Pins, FrameOf(changed, "two-plane").Parts!.Pins);
        Assert.Equal(PartsOf(Works.Demo, "two-plane").Clamps, FrameOf(changed, "two-plane").Parts!.Clamps);
    }

    [Fact]
    public void Duplicate_standsAfterItsModelUnderAFreeId()
    {
        Case twice = FrameEdits.Duplicate(Works.Demo, FrameOf(Works.Demo, "near-far")).Apply(Works.Demo);
        twice = FrameEdits.Duplicate(twice, FrameOf(twice, "near-far")).Apply(twice);
        Assert.Equal(["far-far", "near-far", "near-far-3", "near-far-2", "three-pins"], twice.Frames.Take(5).Select(f => f.Id));
    }
}
