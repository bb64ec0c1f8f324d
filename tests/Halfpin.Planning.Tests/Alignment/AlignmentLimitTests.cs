using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Planning.Alignment;
using Xunit;

namespace Halfpin.Planning.Tests.Alignment;

public class AlignmentLimitTests
{
    // Limits: mechanics-figures §10, READ (Wheeless; scilit; BMC MSD 2021).
    [Theory]
    [InlineData(2.9, Verdict.Pass)]
    [InlineData(3.1, Verdict.Caution)]
    [InlineData(-4.9, Verdict.Caution)]
    [InlineData(5, Verdict.Fail)]
    public void VarusOrValgus_isHeldToLessThanFiveDegreesWithItsError(double apDeg, Verdict expected) =>
        Assert.Equal(expected, Bench.Report(new() { ApDeg = apDeg, LateralDeg = 0 }).Limits[0].Verdict);

    [Fact]
    public void Rotation_ofSevenDegrees_isJudgedByAllThreePublishedLimits()
    {
        AlignmentLimit[] rows = [.. Bench.Report(Bench.Exactly(0, 0, 7)).Limits.Where(l => l.Name.StartsWith("rotation", StringComparison.Ordinal) && l.Tag == "READ")];

        Assert.Equal([5, 10, 15], rows.Select(r => r.Limit));
        Assert.Equal([Verdict.Fail, Verdict.Pass, Verdict.Pass], rows.Select(r => r.Verdict!.Value));
    }

    [Fact]
    public void Distraction_ofTwoMillimetres_isBeyondTheTwoLowerLimits() => Assert.Equal(
        [Verdict.Fail, Verdict.Fail, Verdict.Pass],
        Bench.Report(Bench.Exactly(0, 0, null, null, null, 2.3)).Limits.Where(l => l.Name.StartsWith("distraction", StringComparison.Ordinal)).Select(l => l.Verdict!.Value));

    [Fact]
    public void Unmeasured_isNotJudged() => Assert.Null(Bench.Report(Bench.Exactly(3, 3)).Limits.First(l => l.Name == "shortening").Verdict);

    [Theory]
    [InlineData(5.9, Verdict.Pass)]
    [InlineData(7.7, Verdict.Caution)]
    [InlineData(10.3, Verdict.Fail)]
    public void Correction_ofVarus_isIndicatedBetweenSixAndTenDegrees(double varus, Verdict expected) =>
        Assert.Equal(expected, Bench.Report(Bench.Exactly(varus, 0)).CorrectionIndicated.First(l => l.Name == "varus").Verdict);

    // On a round tube 28 mm wide a shift of 13.3 mm leaves 52.5 %.
    [Fact]
    public void Apposition_isTheShareOfTheWidthAlongTheShift()
    {
        AlignmentLimit row = Bench.Report(Bench.Exactly(0, 0, null, 7.98, 10.64), Bench.Case(Side.Left, Bench.SingleRod(33))).Limits.First(l => l.Name == "apposition");

        Assert.Equal(52.5, row.Value!.Value, 1e-9);
        Assert.Equal(Verdict.Pass, row.Verdict);
    }

    [Fact]
    public void BadMeasurement_isToldWithEveryFault()
    {
        AlignmentMeasurement m = new() { ApDeg = 61, LateralDeg = double.NaN, RotationDeg = -73, ApShiftMm = 3, LengthMm = 170, ErrorDeg = -1, ErrorMm = 33 };

        Assert.Equal(["--ap", "--error-deg", "--error-mm", "--lat", "--lat-shift", "--length", "--rotation"], MeasurementRules.Check(m).Select(f => f.Pointer).Order(StringComparer.Ordinal));
    }
}
