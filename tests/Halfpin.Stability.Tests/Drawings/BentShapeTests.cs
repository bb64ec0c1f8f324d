using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Drawings;
using Xunit;

namespace Halfpin.Stability.Tests.Drawings;

public class BentShapeTests
{
    private static Case Open(string frame, double kg)
    {
        Case demo = Bench.Example("01-oblique-fracture.json");
        return demo with
        {
            Frames = [demo.Frames.First(f => f.Id == frame)],
            Fractures = [demo.Fractures[0] with { Contact = false }],
            Loading = new() { AllowedKg = kg, ApBendingNm = 0.7, TorsionNm = 0.3 },
        };
    }

    private static BentDrawing Bent(Case value) => new BentShape(value).Of(ConstructBuilder.Build(value.Frames[0].Construct!, value.Fractures))!;

    [Theory]
    [InlineData("near-far")]
    [InlineData("two-plane")]
    [InlineData("double-rod")]
    public void Faces_ofTheBentShape_closeByTheAxialMotion(string frame)
    {
        Case value = Open(frame, 4.7);
        BentDrawing bent = Bent(value);
        FractureMotion motion = Bench.Assess(value).Motion!;
        Assert.Equal(motion.AxialMm, bent.Fragments[0].Points[^1].ByMm.ZMm - bent.Fragments[1].Points[0].ByMm.ZMm, 9);
    }

    [Fact]
    public void DistalEnd_doesNotMove()
    {
        MovedPoint foot = Bent(Open("near-far", 4.7)).Fragments[^1].Points[^1];
        Assert.Equal(new LimbPoint(0, 0, 0), foot.ByMm);
    }

    // Over an open gap the frame is linear.
    [Fact]
    public void Load_timesASmallFactor_movesEveryPointByIt()
    {
        Case once = Open("two-plane", 3.1);
        Case more = once with { Loading = new() { AllowedKg = 1.7 * 3.1, ApBendingNm = 1.7 * 0.7, TorsionNm = 1.7 * 0.3 } };
        MovedPoint[] a = [.. Bent(once).Lines.SelectMany(l => l.Points)], b = [.. Bent(more).Lines.SelectMany(l => l.Points)];
        Assert.All(a.Zip(b), p => Assert.Equal(1.7 * p.First.ByMm.XMm, p.Second.ByMm.XMm, 9));
    }

    [Fact]
    public void Frame_thatSlidesUnderTheLoad_hasNoShape() => Assert.Null(new BentShape(Open("double-rod-dynamised", 4.7)).Of(
        ConstructBuilder.Build(Open("double-rod-dynamised", 4.7).Frames[0].Construct!, Open("double-rod-dynamised", 4.7).Fractures)));
}
