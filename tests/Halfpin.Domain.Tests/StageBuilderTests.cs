using Halfpin.Domain.Frames;
using Xunit;

namespace Halfpin.Domain.Tests;

public class StageBuilderTests
{
    private static readonly DoubleRod _twin = (DoubleRod)ConstructGallery.All[5].Construct;
    private static readonly Parts _parts = ConstructBuilder.Build(_twin, 203.5, 206.5);

    [Fact]
    public void Stage_thatSaysNothing_changesNothing()
    {
        Parts same = StageBuilder.Apply(_parts, new() { Id = "s", Frame = "f" });

        Assert.Equal(_parts.Pins, same.Pins);
        Assert.Equal(_parts.Rods, same.Rods);
        Assert.Equal(_parts.Clamps, same.Clamps);
    }

    [Fact]
    public void RemovedRod_takesItsClampsAlong()
    {
        Parts left = StageBuilder.Apply(_parts, new() { Id = "s", Frame = "f", Remove = ["r2"] });

        Assert.Equal(["r1"], left.Rods.Select(r => r.Id));
        Assert.Equal(["c1", "c2", "c3", "c4"], left.Clamps.Select(c => c.Id));
    }

    [Fact]
    public void RemovedPin_takesItsClampsAlong()
    {
        Parts left = StageBuilder.Apply(_parts, new() { Id = "s", Frame = "f", Remove = ["p2"] });

        Assert.DoesNotContain(left.Clamps, c => c.Pin == "p2");
        Assert.Equal(6, left.Clamps.Length);
    }

    [Fact]
    public void LoosenedClamp_isLoose() =>
        Assert.Equal(ClampState.Loose, StageBuilder.Apply(_parts, new() { Id = "s", Frame = "f", Loosen = ["c3"] }).Clamps[2].State);

    [Fact]
    public void TightenedClamp_isAsBefore()
    {
        Parts loose = StageBuilder.Apply(_parts, new() { Id = "s", Frame = "f", Loosen = ["c3"] });

        Assert.Equal(_parts.Clamps[2], StageBuilder.Apply(loose, new() { Id = "t", Frame = "f", Tighten = ["c3"] }).Clamps[2]);
    }

    [Fact]
    public void MovedRod_standsAtItsNewDistanceAtBothEnds()
    {
        Rod r = StageBuilder.Apply(_parts, new() { Id = "s", Frame = "f", Move = [new() { Rod = "r2", StandoffMm = 97 }] }).Rods[1];

        Assert.Equal((97, 97), (r.From.StandoffMm, r.To.StandoffMm));
    }

    [Fact]
    public void DynamisedConstruct_isTheUsualStageOfTheLockedOne() =>
        Assert.Equal(
            ConstructBuilder.Build(_twin with { Dynamised = true }, 203.5, 206.5).Clamps,
            StageBuilder.Apply(_parts, StageBuilder.DynamisedDoubleRod("f", _parts)).Clamps);
}
