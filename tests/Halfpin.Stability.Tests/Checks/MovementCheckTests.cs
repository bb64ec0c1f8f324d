using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Xunit;

namespace Halfpin.Stability.Tests.Checks;

public class MovementCheckTests
{
    [Fact]
    public void Alignment_isJudgedAtTheOverload() =>
        Assert.Contains("At 28 kg (overload)", Check(Bench.CaseOf(Bench.NearFar with { StandoffMm = 31 }, allowedKg: 3), "alignment").Message, StringComparison.Ordinal);

    [Fact]
    public void Alignment_namesItsChoiceOfLimitsAsOurs() => Assert.Equal("ASSUMED", Check(Bench.CaseOf(Bench.NearFar, allowedKg: 3), "alignment").Tag);

    [Fact]
    public void AxialMotion_ofATemporaryFrame_overAMillimetreIsACaution()
    {
        // 67 N/mm and less: 12 kg moves it more than 1 mm.
        Check motion = Check(Bench.CaseOf(Bench.NearFar with { StandoffMm = 61 }, allowedKg: 12), "axial-motion");

        Assert.Equal(Verdict.Caution, motion.Verdict);
        Assert.NotEmpty(motion.Cure);
    }

    [Fact]
    public void AxialMotion_ofADefinitiveFrameThatHardlyMoves_asksForMore()
    {
        Case value = Bench.CaseOf(Bench.NearFar with { StandoffMm = 19 }, allowedKg: 2) with { Purpose = Purpose.Definitive };

        Assert.Contains("yield more", Check(value, "axial-motion").Cure, StringComparison.Ordinal);
    }

    // What tissue may form is judged in a frame that stays, and only told of one that does not.
    [Theory]
    [InlineData(0.6, Purpose.Definitive, Verdict.Pass)]
    [InlineData(23, Purpose.Definitive, Verdict.Caution)]
    [InlineData(23, Purpose.Temporary, Verdict.Pass)]
    public void GapStrain_isJudgedByItsBand_inAFrameThatStays(double allowedKg, Purpose purpose, Verdict verdict) => Assert.Equal(
        verdict, Check(Bench.CaseOf(Bench.NearFar with { StandoffMm = 31 }, allowedKg, Bench.Gap with { GapMm = 6.1 }) with { Purpose = purpose }, "gap-strain").Verdict);

    [Fact]
    public void Shear_onAnObliquePlane_saysThatPartOfItIsAxial()
    {
        Case value = Bench.CaseOf(Bench.NearFar, allowedKg: 3, Bench.Gap with { TiltDeg = 33, TiltAzimuthDeg = 41 });

        Assert.Contains("tilted 33°", Check(value, "shear").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Shear_overOneAndAHalfMillimetresAtTheOverload_isACaution()
    {
        // 28 kg close the gap by some 3 mm; within a plane tilted by 40° that is sin 40° of it.
        Case value = Bench.CaseOf(Bench.NearFar with { StandoffMm = 52 }, allowedKg: 3, Bench.Gap with { TiltDeg = 40, TiltAzimuthDeg = 41 });

        Assert.Equal(Verdict.Caution, Check(value, "shear").Verdict);
    }

    private static Check Check(Case value, string id) => Bench.Assess(value).Checks.Single(c => c.Id == id);
}
