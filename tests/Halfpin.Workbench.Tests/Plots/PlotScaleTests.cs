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

    [Theory]
    [InlineData(-8.878e-80, 4.553e-96)]
    [InlineData(1e6, 1e6 + 7e-4)]
    [InlineData(-3.1e17, -3.1e17)]
    public void Scale_ofValuesTooCloseToTellApart_holdsThem(double one, double other)
    {
        foreach (bool fromZero in new[] { true, false })
        {
            PlotScale scale = PlotScale.Of([one, other], fromZero);
            Assert.InRange(scale.At(one), 0, 1);
            Assert.InRange(scale.At(other), 0, 1);
            Assert.InRange(scale.Ticks.Length, 2, 9);
        }
    }

    [Fact]
    public void Scale_ofOneValueTwice_hasRoomAroundIt()
    {
        PlotScale scale = PlotScale.Of([9, 9], fromZero: false);
        Assert.InRange(scale.At(9), 0.2, 0.8);
    }

    [Fact]
    public void Powers_anyValues_keepTheirOrder() =>
        Gen.Double[0.002, 9e3].Array[2, 9].Sample(values =>
        {
            PlotScale scale = PlotScale.Powers(values);
            double[] shares = [.. values.Order().Select(scale.At)];
            Assert.Equal(shares.Order(), shares);
            Assert.InRange(shares[0], 0, 1);
            Assert.InRange(shares[^1], 0, 1);
        });

    [Fact]
    public void Powers_decades_areEvenlySpaced()
    {
        PlotScale scale = PlotScale.Powers([0.07, 730]);
        Assert.Equal(["0.01", "0.1", "1", "10", "100", "1000"], scale.Ticks.Select(t => t.Text));
        Assert.Equal(0.6, scale.At(10), 9);
    }

    [Fact]
    public void Powers_moreThanSeven_putWhatIsFarBelowAtTheEnd()
    {
        PlotScale scale = PlotScale.Powers([1e-9, 37]);
        Assert.Equal((8, "1E-5"), (scale.Ticks.Length, scale.Ticks[0].Text));
        Assert.Equal(0, scale.At(1e-9));
    }

    [Fact]
    public void Tick_belowNought_hasATrueMinus() =>
        Assert.Equal("−20", PlotScale.Of([-20, 20], fromZero: false).Ticks[0].Text);
}
