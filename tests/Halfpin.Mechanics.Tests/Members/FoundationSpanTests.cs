using Halfpin.Mechanics.Members;
using Xunit;

namespace Halfpin.Mechanics.Tests.Members;

public class FoundationSpanTests
{
    private const double EI = 5.92e6;

    [Fact]
    public void Span_withoutFoundation_isThePlainBeam()
    {
        FoundationSpan s = FoundationSpan.Of(23.7, EI, 0);

        Assert.Equal(12 * EI / Math.Pow(23.7, 3), s.K11, 9);
        Assert.Equal(2 * EI / 23.7, s.K24, 6);
    }

    // Around λL = 0.02 the closed form has lost (λL)⁻² of its digits and the series is good to (λL)⁸.
    [Theory]
    [InlineData(0.99)]
    [InlineData(1.01)]
    public void Span_whereSeriesMeetsClosedForm_isSmooth(double share)
    {
        const double Length = 5.3;
        double k = 4 * EI * Math.Pow(share * 0.02 / Length, 4);

        FoundationSpan s = FoundationSpan.Of(Length, EI, k);

        // Two terms of the series in k, by hand: 12EI/L³ + 156kL/420 and so on, ν(λL)⁸ beyond.
        Assert.Equal(1, s.K11 / ((12 * EI / Math.Pow(Length, 3)) + (156 * k * Length / 420)), 1e-11);
        Assert.Equal(1, s.K22 / ((4 * EI / Length) + (4 * k * Math.Pow(Length, 3) / 420)), 1e-11);
    }

    // Hetényi: a semi-infinite beam meets 2EIλ³·2 = 4EIλ³, 2EIλ², 2EIλ at its end.
    [Fact]
    public void Span_veryLong_isTheSemiInfiniteBeam()
    {
        const double K = 5000;
        double lambda = FoundationSpan.Lambda(EI, K);

        FoundationSpan s = FoundationSpan.Of(20 / lambda, EI, K);

        Assert.Equal(1, s.K11 / (4 * EI * Math.Pow(lambda, 3)), 1e-9);
        Assert.Equal(1, s.K12 / (2 * EI * lambda * lambda), 1e-9);
        Assert.Equal(1, s.K22 / (2 * EI * lambda), 1e-9);
    }

    [Fact]
    public void Span_pastTheOverflowOfSinh_staysFinite() => Assert.True(double.IsFinite(FoundationSpan.Of(1e6, EI, 1e6).K11));
}
