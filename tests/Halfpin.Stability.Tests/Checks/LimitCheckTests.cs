using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Materials;
using Xunit;

namespace Halfpin.Stability.Tests.Checks;

public class LimitCheckTests
{
    [Fact]
    public void FullWeight_isNeverAPass()
    {
        // A frame far stiffer than any that is built.
        Construct stout = Bench.NearFar with { StandoffMm = 8, PinsPerFragment = 5, Placement = PinPlacement.Even, Pin = Bench.Pin with { DiameterMm = 8 }, Rod = Bench.Rod with { DiameterMm = 20, Material = "steel" } };

        Assert.Equal(Verdict.Caution, Check(Bench.CaseOf(stout, allowedKg: 3), "full-weight").Verdict);
    }

    [Fact]
    public void FullWeight_namesTheLoadFromWhichStepsTire()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 3));

        Assert.Contains($"repeated steps pass the fatigue limit of pin {f.FatigueFrom!.Part}", f.Checks.Single(c => c.Id == "full-weight").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FatigueFrom_isTheLoadAtWhichFatigueIsFullyUsed()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 3));
        double atThreeKg = f.Utilisation.Where(u => u.Check == "fatigue").Max(u => u.Value);

        Assert.Equal(3 / atThreeKg, f.FatigueFrom!.LoadKg, 1e-9);
    }

    [Fact]
    public void Overload_withNoWeightAllowed_isStillJudged()
    {
        // 35.3 % of 71 kg: 25 kg, of which nothing was chosen.
        Check pin = Check(Bench.CaseOf(Bench.NearFar), "pin-yield");

        Assert.Contains("at 25 kg (overload)", pin.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("chosen", pin.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ClampThatSlipsAtTheLowEndOfItsBand_isACaution()
    {
        Case value = Bench.CaseOf(Bench.NearFar, allowedKg: 24);
        Check slip = Check(value, "clamp-slip");

        Assert.Equal(Verdict.Caution, slip.Verdict);
        Assert.Contains("worse end of what is uncertain", slip.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ClampWhoseSlipMomentWasMeasured_isNotJudgedByTheBand()
    {
        Case value = Bench.CaseOf(Bench.NearFar, allowedKg: 24) with { Model = new() { Clamp = new Domain.Modelling.SpringClamp { SlipMomentNm = 8.3 } } };

        Assert.DoesNotContain("worse end", Check(value, "clamp-slip").Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("steel", "READ")]
    [InlineData("steel-annealed", "MEMORY")]
    [InlineData("own", "GIVEN")]
    public void PinYield_carriesTheTagOfItsMaterial(string material, string tag)
    {
        Case value = Bench.CaseOf(Bench.NearFar with { Pin = Bench.Pin with { Material = material } }, allowedKg: 3) with
        {
            Materials = [new() { Id = "own", YoungsModulusMPa = 187_300, PoissonRatio = 0.29, YieldMPa = 713 }],
        };

        Assert.Equal(tag, Check(value, "pin-yield").Tag);
    }

    [Fact]
    public void MaterialWithoutAFatigueLimit_isACautionAndNoFatigueCheck()
    {
        Case value = Bench.CaseOf(Bench.NearFar with { Pin = Bench.Pin with { Material = "own" } }, allowedKg: 3) with
        {
            Materials = [new() { Id = "own", YoungsModulusMPa = 187_300, PoissonRatio = 0.29, YieldMPa = 713 }],
        };
        FrameAssessment f = Bench.Assess(value);

        Assert.Equal(Verdict.Caution, f.Checks.Single(c => c.Id == "no-fatigue-limit").Verdict);
        Assert.DoesNotContain(f.Checks, c => c.Id == "pin-fatigue");
        Assert.Null(f.FatigueFrom);
    }

    [Fact]
    public void EveryBuiltInPinMaterial_hasAFatigueLimit() =>
        Assert.All(BuiltInMaterials.All.Where(m => m.Material.Id is not "carbon"), m => Assert.NotNull(m.Material.FatigueLimitMPa));

    private static Check Check(Case value, string id) => Bench.Assess(value).Checks.Single(c => c.Id == id);
}
