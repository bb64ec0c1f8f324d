using Halfpin.Domain.Materials;
using Halfpin.Stability.Fatigue;
using Xunit;

namespace Halfpin.Stability.Tests.Fatigue;

/// <summary>The line of textbooks of machine design: 0.9 of the tensile strength at 10³, the fatigue limit at 10⁷. MEMORY hi.</summary>
public class SnLineTests
{
    private static readonly Material _steel = new() { Id = "s", YoungsModulusMPa = 190_000, YieldMPa = 700, TensileStrengthMPa = 873, FatigueLimitMPa = 291 };

    [Theory]
    [InlineData(1e3, 785.7)]
    [InlineData(12, 785.7)]
    [InlineData(1e7, 291)]
    [InlineData(3e8, 291)]
    public void Strength_atTheEnds_isThatOfTheLine(double steps, double strengthMPa) => Assert.Equal(strengthMPa, SnLine.StrengthMPa(_steel, steps), 1e-9);

    [Fact]
    public void Strength_halfwayInLogSteps_isTheGeometricMean() => Assert.Equal(Math.Sqrt(785.7 * 291), SnLine.StrengthMPa(_steel, 1e5), 1e-9);

    [Theory]
    [InlineData(2.3e3)]
    [InlineData(417_000)]
    [InlineData(9.1e6)]
    public void StepsAt_theStrengthForSteps_areThoseSteps(double steps) => Assert.Equal(1, SnLine.StepsAt(_steel, SnLine.StrengthMPa(_steel, steps))!.Value / steps, 1e-9);

    [Fact]
    public void StepsAt_theLimit_haveNoEnd() => Assert.Null(SnLine.StepsAt(_steel, 291));

    [Fact]
    public void StepsAt_nineTenthsOfTheStrength_areFewerThanAThousand() => Assert.Equal(0, SnLine.StepsAt(_steel, 785.8));

    [Fact]
    public void MaterialOfUnknownTensileStrength_isLevel() => Assert.Equal(291, SnLine.StrengthMPa(_steel with { TensileStrengthMPa = null }, 2e3));
}
