using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Xunit;

namespace Halfpin.Placement.Tests.Checks;

public class RodCheckTests
{
    private static readonly TwoPlane _v = new()
    {
        Placement = PinPlacement.NearFar,
        NearMm = 27,
        FarMm = 97,
        AzimuthDeg = 25,
        SecondAzimuthDeg = 81,
        StandoffMm = 53,
        CrossLinks = 2,
        Pin = Bench.NearFar.Pin,
        Rod = Bench.NearFar.Rod,
    };

    [Theory]
    [InlineData(9, Verdict.Pass)]
    [InlineData(12, Verdict.Caution)]
    public void OnePlane_pinsOfAStraightRod_mayDifferByTenDegrees(double turnDeg, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.WithPin(Bench.CaseOf(Bench.NearFar), 1, p => p with { AzimuthDeg = 47 + turnDeg }), "one-plane").Verdict);

    [Theory]
    [InlineData(81, Verdict.Pass)]
    [InlineData(58, Verdict.Caution)]
    public void PlaneAngle_ofAV_isNamed(double secondDeg, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.CaseOf(_v with { SecondAzimuthDeg = secondDeg }), "plane-angle").Verdict);

    [Fact]
    public void PlaneAngle_ofASinglePlane_isNoRule() => Assert.DoesNotContain(Bench.Checks(Bench.CaseOf(Bench.NearFar)), c => c.Id == "plane-angle");

    [Fact]
    public void RodEnds_ofAConstruct_runOnByItsOverhang() =>
        Assert.Contains("15 mm", Bench.Check(Bench.CaseOf(Bench.NearFar), "rod-ends").Message, StringComparison.Ordinal);

    [Fact]
    public void RodEnds_ofARodCutShort_areCautioned()
    {
        Case value = Bench.With(Bench.CaseOf(Bench.NearFar), p => p with { Rods = [p.Rods[0] with { OverhangMm = 7.3 }] });

        Assert.Equal(Verdict.Caution, Bench.Check(value, "rod-ends").Verdict);
    }

    [Fact]
    public void RodJoint_pastTheAnkle_isCautioned()
    {
        Case value = Bench.With(Bench.CaseOf(Bench.NearFar), p => p with { Rods = [p.Rods[0] with { OverhangMm = 71 }] });

        Assert.Contains("past the ankle", Bench.Check(value, "rod-joint").Message, StringComparison.Ordinal);
    }

    // A rod straight in front casts its shadow on the fracture in the AP view; carbon lets X-rays pass.
    [Theory]
    [InlineData("steel", 3, Verdict.Caution)]
    [InlineData("carbon", 3, Verdict.Pass)]
    [InlineData("steel", 47, Verdict.Pass)]
    [InlineData("steel", 88, Verdict.Caution)]
    public void Image_rodBeforeTheFracture_hidesItUnlessOfCarbon(string material, double azimuthDeg, Verdict verdict) => Assert.Equal(
        verdict, Bench.Check(Bench.CaseOf(Bench.NearFar with { AzimuthDeg = azimuthDeg, Rod = Bench.NearFar.Rod with { Material = material } }), "image").Verdict);

    [Theory]
    [InlineData(90, 63, Verdict.Caution)]
    [InlineData(90, 48, Verdict.Pass)]
    [InlineData(-90, 63, Verdict.Pass)]
    public void OtherLeg_onlyAFrameThatReachesFarMedially_isCautioned(double azimuthDeg, double standoffMm, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.CaseOf(Bench.NearFar with { AzimuthDeg = azimuthDeg, StandoffMm = standoffMm }), "other-leg").Verdict);
}
