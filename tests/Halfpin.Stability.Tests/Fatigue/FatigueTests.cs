using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Xunit;

namespace Halfpin.Stability.Tests.Fatigue;

public class FatigueTests
{
    [Fact]
    public void StepsPerDayAndWeeks_makeTheSteps() => Assert.Equal(2300 * 7 * 11.0, Of(9, 2300, 11).Fatigue!.Steps);

    [Fact]
    public void FirstPinToTire_isTheMostUsedOne()
    {
        FrameAssessment f = Of(9, 2300, 11);

        Assert.Equal(f.Utilisation.Where(u => u.Check == "fatigue").MaxBy(u => u.Value)!.Part, f.Fatigue!.Pins[0].Part);
    }

    [Fact]
    public void Stress_isTheNominalOneTimesTheThreadFactor()
    {
        FrameAssessment f = Of(9, 2300, 11);

        // Yield 690 MPa on the nominal stress; thread factor 2.
        Assert.Equal(2 * 690 * f.Utilisation.Where(u => u.Check == "yield" && u.Part == f.Fatigue!.Pins[0].Part).Max(u => u.Value), f.Fatigue!.Pins[0].StressMPa, 1e-9);
    }

    [Fact]
    public void FewerSteps_neverUseAPinMore() => Assert.True(Of(9, 2300, 2).Fatigue!.Pins[0].Value < Of(9, 2300, 50).Fatigue!.Pins[0].Value);

    [Fact]
    public void WithoutSteps_tenMillionAreTaken() => Assert.Equal(1e7, Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 9)).Fatigue!.Steps);

    [Fact]
    public void Scatter_isOrdered()
    {
        PinLife pin = Of(17, 2300, 11).Fatigue!.Pins[0];

        Assert.True(pin.FewestSteps < pin.StepsToFailure);
        Assert.True(pin.MostSteps is null || pin.StepsToFailure < pin.MostSteps);
    }

    [Fact]
    public void NoLoad_hasNoLife() => Assert.Null(Bench.Assess(Bench.CaseOf(Bench.NearFar)).Fatigue);

    [Fact]
    public void PinThatTires_failsAndSaysAfterHowManySteps()
    {
        Check check = Of(23, 5100, 26).Checks.Single(c => c.Id == "pin-fatigue");

        Assert.Equal(Verdict.Fail, check.Verdict);
        Assert.Contains("steps.", check.Message, StringComparison.Ordinal);
        Assert.Contains("930 000 steps (5100 a day for 26 weeks)", check.Message, StringComparison.Ordinal);
    }

    // Ten million steps are years: a temporary frame without steps of its own is not warned of them, one that stays is.
    [Theory]
    [InlineData(Purpose.Temporary, Verdict.Pass)]
    [InlineData(Purpose.Definitive, Verdict.Caution)]
    public void WithoutSteps_aPinThatTiresInYears_isACautionOnlyInAFrameThatStays(Purpose purpose, Verdict verdict)
    {
        Check check = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 7.9) with { Purpose = purpose }).Checks.Single(c => c.Id == "pin-fatigue");

        Assert.Equal(verdict, check.Verdict);
        Assert.Contains("years at 5 000 a day", check.Message, StringComparison.Ordinal);
    }

    private static FrameAssessment Of(double kg, double stepsPerDay, double weeks) =>
        Bench.Assess(Bench.CaseOf(Bench.NearFar) with { Loading = new() { AllowedKg = kg, StepsPerDay = stepsPerDay, Weeks = weeks } });
}
