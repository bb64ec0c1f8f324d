using CsCheck;
using Halfpin.Workbench.Plots;
using Xunit;

namespace Halfpin.Workbench.Tests.Plots;

public class PlotScaleTests
{
    [Fact]
    public void Linear_anyValues_liesRoundThemWithFewTicks() =>
        Gen.Double[-1e4, 1e4].Array[1, 9].Sample(values =>
        {
            PlotScale scale = PlotScale.Linear(values);
            double slack = 1e-6 * (scale.Ticks[^1] - scale.Ticks[0]);
            Assert.InRange(scale.Ticks.Length, 2, 12);
            Assert.All(values, v => Assert.InRange(v, scale.Ticks[0] - slack, scale.Ticks[^1] + slack));
        });

    [Fact]
    public void Powers_anyValues_keepTheirOrder() =>
        Gen.Double[0.002, 9e3].Array[2, 9].Sample(values =>
        {
            PlotScale scale = PlotScale.Powers(values);
            double[] shares = [.. values.Order().Select(scale.Share)];
            Assert.Equal(shares.Order(), shares);
            Assert.InRange(shares[0], 0, 1);
            Assert.InRange(shares[^1], 0, 1);
        });

    [Fact]
    public void Powers_decades_areEvenlySpaced()
    {
        PlotScale scale = PlotScale.Powers([0.07, 730]);

        Assert.Equal([0.01, 0.1, 1, 10, 100, 1000], scale.Ticks.Select(t => Math.Round(t, 9)));
        Assert.Equal(0.6, scale.Share(10), 9);
    }

    [Fact]
    public void Powers_moreThanSeven_putsWhatIsFarBelowAtTheEnd()
    {
        PlotScale scale = PlotScale.Powers([1e-9, 37]);

        Assert.Equal(8, scale.Ticks.Length);
        Assert.Equal(0, scale.Share(1e-9));
    }

    [Fact]
    public void Words_ofATick_areShort()
    {
        Assert.Equal("0.3", PlotScale.Words(0.1 + 0.2));
        Assert.Equal("−20", PlotScale.Words(-20));
        Assert.Equal("1E-5", PlotScale.Words(1e-5));
    }
}
