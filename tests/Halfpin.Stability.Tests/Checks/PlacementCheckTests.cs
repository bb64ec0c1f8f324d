using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Xunit;

namespace Halfpin.Stability.Tests.Checks;

public class PlacementCheckTests
{
    // A pin under a third of the bone's diameter: Wheeless' Textbook of Orthopaedics, READ. The test bone measures 27.4 mm.
    [Fact]
    public void PinWidth_onAWideBone_passes() =>
        Assert.Equal(Verdict.Pass, Check(Bench.CaseOf(Bench.NearFar with { Pin = Bench.Pin with { DiameterMm = 7.9 } }), "pin-width").Verdict);

    [Fact]
    public void PinWidth_overAThirdOfANarrowBone_fails()
    {
        Case value = Bench.CaseOf(Bench.NearFar) with { Limb = Bench.TubeLimb with { BoneModel = Bench.Tube with { OuterDiameterMm = 14.7, InnerDiameterMm = 6.1 } } };
        Check width = Check(value, "pin-width");

        Assert.Equal(Verdict.Fail, width.Verdict);
        Assert.Contains("34 %", width.Message, StringComparison.Ordinal);
    }

    // At least 20 mm from the fracture: open tibia training module, READ.
    [Theory]
    [InlineData(20.1, Verdict.Pass)]
    [InlineData(19.3, Verdict.Caution)]
    public void PinToFracture_isMeasuredFromTheEdge(double nearMm, Verdict verdict) =>
        Assert.Equal(verdict, Check(Bench.CaseOf(Bench.NearFar with { NearMm = nearMm }), "pin-to-fracture").Verdict);

    [Fact]
    public void PinToFracture_ofATiltedPlane_isMeasuredWhereItComesNearest()
    {
        // Pins at 0°, plane tilted about them: its height at the bone's surface is tan 31° · 13.7 mm = 8.2 mm nearer on one side.
        Fracture tilted = Bench.Gap with { TiltDeg = 31, TiltAzimuthDeg = 0 };

        Assert.Contains("passes 19 mm", Check(Bench.CaseOf(Bench.NearFar, fracture: tilted), "pin-to-fracture").Message, StringComparison.Ordinal);
    }

    private static Check Check(Case value, string id) => Bench.Assess(value).Checks.Single(c => c.Id == id);
}
