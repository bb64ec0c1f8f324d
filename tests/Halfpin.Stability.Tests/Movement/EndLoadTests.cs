using Halfpin.Domain.Cases;
using Halfpin.Stability.Checks;
using Halfpin.Stability.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Movement;

public class EndLoadTests
{
    [Fact]
    public void LineInFrontOfTheAxis_bendsTheEndForward()
    {
        // Statics: a push (0, 0, −P) through (a, 0) has the moment a·P about y.
        EndLoad load = EndLoad.Of(new Loading { AllowedKg = 7, LineOffsetApMm = 13 }, 7);

        Assert.Equal(13 * 7 * 9.81, load.My, 1e-9);
        Assert.Equal(0, load.Mx);
    }

    [Fact]
    public void LineMedialOfTheAxis_hasTheOppositeMomentAboutX() => Assert.Equal(-13 * 7 * 9.81, EndLoad.Of(new Loading { LineOffsetMlMm = 13 }, 7).Mx, 1e-9);

    [Fact]
    public void LineOffset_addsToChosenBending() =>
        Assert.Equal(1700 + (13 * 7 * 9.81), EndLoad.Of(new Loading { ApBendingNm = 1.7, LineOffsetApMm = 13 }, 7).My, 1e-9);

    [Theory]
    [InlineData(WeightBearing.None, 0)]
    [InlineData(WeightBearing.ToeTouch, 14.2)]
    [InlineData(WeightBearing.Partial, 35.5)]
    [InlineData(WeightBearing.Full, 71)]
    public void Grade_isItsUpperShareOfBodyWeight(WeightBearing grade, double kg) =>
        Assert.Equal(-kg * 9.81, EndLoad.Of(Bench.CaseOf(Bench.NearFar) with { Loading = new() { Grade = grade } }).Fz, 1e-9);

    [Fact]
    public void Overload_ofAGrade_addsTheMeanExcess() =>
        Assert.Equal((0.2 + 0.353) * 71, OverloadCase.Kg(Bench.CaseOf(Bench.NearFar) with { Loading = new() { Grade = WeightBearing.ToeTouch } }), 1e-9);

    [Fact]
    public void Overload_runsAlongTheSameLine()
    {
        EndLoad load = OverloadCase.Of(Bench.CaseOf(Bench.NearFar) with { Loading = new() { AllowedKg = 5, LineOffsetApMm = 13 } });

        Assert.Equal(13, load.My / -load.Fz, 1e-9);
    }
}
