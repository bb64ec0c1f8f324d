using CsCheck;
using Halfpin.Domain.Assessments;
using Halfpin.Planning.Alignment;
using Xunit;

namespace Halfpin.Planning.Tests.Alignment;

public class MeasurementErrorTests
{
    // A fine grid over both readings, edges included: nothing lies outside the interval, and its ends are reached.
    [Theory]
    [InlineData(19, 14, 2)]
    [InlineData(-6.3, 8.7, 3.1)]
    [InlineData(1.3, -7.9, 2)]
    [InlineData(-41, -2.2, 5)]
    public void Range_isThatOfAGridOfReadings(double ap, double lateral, double error)
    {
        AlignmentReport report = Bench.Report(new() { ApDeg = ap, LateralDeg = lateral, ErrorDeg = error });
        const int n = 200;
        AngularDeformity[] grid = [.. from i in Enumerable.Range(0, n + 1)
                                      from j in Enumerable.Range(0, n + 1)
                                      select AngularDeformity.From(ap + (error * ((2.0 * i / n) - 1)), lateral + (error * ((2.0 * j / n) - 1)))];
        double[] turns = [.. grid.Select(d => Math.IEEERemainder(d.ApexAzimuthDeg - report.PlaneAzimuthDeg!.Value, 360))];

        Assert.Equal(grid.Min(d => d.AngleDeg), report.TrueAngleRange.Low, 0.03);
        Assert.Equal(grid.Max(d => d.AngleDeg), report.TrueAngleRange.High, 1e-9);
        Assert.Equal(turns.Min(), Math.IEEERemainder(report.PlaneAzimuthRange!.FromDeg - report.PlaneAzimuthDeg!.Value, 360), 1e-7);
        Assert.Equal(turns.Max(), Math.IEEERemainder(report.PlaneAzimuthRange.ToDeg - report.PlaneAzimuthDeg.Value, 360), 1e-7);
    }

    [Fact]
    public void Sample_withinTheError_liesInEveryRange() => Gen.Select(Gen.Double[-50, 50], Gen.Double[-50, 50], Gen.Double[0.1, 9], Gen.Double[-1, 1], Gen.Double[-1, 1]).Sample((ap, lateral, error, u, v) =>
    {
        AlignmentReport report = Bench.Report(new() { ApDeg = ap, LateralDeg = lateral, ErrorDeg = error });
        AngularDeformity truth = AngularDeformity.From(ap + (u * error), lateral + (v * error));

        Assert.InRange(truth.AngleDeg, report.TrueAngleRange.Low - 1e-9, report.TrueAngleRange.High + 1e-9);
        if (report.PlaneAzimuthRange is DirectionRange sector)
        {
            Assert.InRange(Wrapped(truth.ApexAzimuthDeg - sector.FromDeg), -1e-6, Wrapped(sector.ToDeg - sector.FromDeg) + 1e-6);
        }
    });

    [Fact]
    public void Plane_ofADeformityWithinItsError_isNotGiven()
    {
        AlignmentReport report = Bench.Report(new() { ApDeg = 1.7, LateralDeg = -1.9 });

        Assert.Null(report.PlaneAzimuthDeg);
        Assert.Null(report.SmallAngleRule.PlaneDeg);
        Assert.Equal(0, report.TrueAngleRange.Low);
        Assert.Contains("no plane", report.PlaneWords, StringComparison.Ordinal);
        Assert.Contains("Nothing to correct", Assert.Single(report.Corrections[0].Words), StringComparison.Ordinal);
    }

    [Fact]
    public void Plane_ofAnExactNothing_isNotGiven() => Assert.Null(Bench.Report(Bench.Exactly(0, 0)).PlaneAzimuthDeg);

    [Fact]
    public void WorkedExample_hasItsApexAnterolateral_andTheRuleBesideIt()
    {
        AlignmentReport report = Bench.Report(new() { ApDeg = 19, LateralDeg = 14 });

        Assert.Equal(23.03, report.TrueAngleDeg, 0.005);
        Assert.Equal(35.9, report.PlaneFromFrontalDeg!.Value, 0.05);
        Assert.Equal(-54.1, report.PlaneAzimuthDeg!.Value, 0.05);
        Assert.Equal(23.60, report.SmallAngleRule.AngleDeg, 0.005);
        Assert.Equal(36.4, report.SmallAngleRule.PlaneDeg!.Value, 0.05);
        Assert.Equal(0.57, report.SmallAngleRule.AngleDifferenceDeg, 0.005);
    }

    [Fact]
    public void Shift_fromTwoViews_hasItsTrueSizeAndDirection()
    {
        AlignmentShift shift = Bench.Report(Bench.Exactly(0, 0, null, 4.7, -6.1)).Shift!;

        Assert.Equal(Math.Sqrt((4.7 * 4.7) + (6.1 * 6.1)), shift.SizeMm, 1e-12);
        Assert.Equal(90 + (Math.Atan2(6.1, 4.7) * 180 / Math.PI), shift.AzimuthDeg!.Value, 1e-9);
    }

    private static double Wrapped(double deg) => deg < -1e-6 ? deg + 360 : deg >= 360 ? deg - 360 : deg;
}
