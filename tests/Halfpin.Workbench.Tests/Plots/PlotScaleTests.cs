using CsCheck;
using Halfpin.Workbench.Plots;
using Xunit;

namespace Halfpin.Workbench.Tests.Plots;

public class PlotScaleTests
{
    [Fact]
    public void Scale_ofAnyValues_holdsThemAllBetweenTwoToNineTicks() =>
        Gen.Double[-1e6, 1e6].Array[1, 9].Select(Gen.Bool).Sample((values, fromZero) =>
        {
            PlotScale scale = PlotScale.Of(values, fromZero);
            Assert.All(values, v => Assert.InRange(scale.At(v), -1e-9, 1 + 1e-9));
            Assert.InRange(scale.Ticks.Length, 2, 9);
            Assert.Equal((0.0, 1.0), (scale.Ticks[0].At, scale.Ticks[^1].At));
        });

    [Fact]
    public void Scale_ofOneValueTwice_hasRoomAroundIt()
    {
        PlotScale scale = PlotScale.Of([9, 9], fromZero: false);
        Assert.InRange(scale.At(9), 0.2, 0.8);
    }
}
