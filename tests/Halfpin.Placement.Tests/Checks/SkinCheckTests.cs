using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Xunit;

namespace Halfpin.Placement.Tests.Checks;

public class SkinCheckTests
{
    private static readonly Wound _front = new() { FromLevelMm = 160, ToLevelMm = 203, FromAzimuthDeg = -50, ToAzimuthDeg = -10 };

    // Common practice (MEMORY): at 30 mm a swollen limb leaves no room for skin and dressing; 20 mm between rod and skin is the least.
    [Theory]
    [InlineData(30, Verdict.Fail)]
    [InlineData(36, Verdict.Fail)]
    [InlineData(43, Verdict.Caution)]
    [InlineData(53, Verdict.Pass)]
    public void SkinRoom_byStandoff_fallsWithTheRodsDistance(double standoffMm, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.CaseOf(Bench.NearFar with { StandoffMm = standoffMm }), "skin-room").Verdict);

    [Fact]
    public void SkinRoom_movedOutByItsCure_passes()
    {
        Check caution = Bench.Check(Bench.CaseOf(Bench.NearFar with { StandoffMm = 43 }), "skin-room");
        double farther = double.Parse(caution.Cure.Split(' ')[2], System.Globalization.CultureInfo.InvariantCulture);

        Assert.Equal(Verdict.Pass, Bench.Check(Bench.CaseOf(Bench.NearFar with { StandoffMm = 43 + farther }), "skin-room").Verdict);
    }

    [Fact]
    public void SkinRoom_inObesity_isLess()
    {
        Limb obese = Bench.Leg with { SoftTissue = new() { Habitus = Habitus.Obese, ThicknessMm = 19 } };

        Assert.Equal(Verdict.Caution, Bench.Check(Bench.CaseOf(Bench.NearFar, obese), "skin-room").Verdict);
    }

    // 20 mm from the wound's edge (MEMORY), along the skin.
    [Theory]
    [InlineData(18, Verdict.Fail)]
    [InlineData(-19, Verdict.Fail)]
    [InlineData(200, Verdict.Pass)]
    public void Wound_pinInIt_fails(double toAzimuthDeg, Verdict verdict)
    {
        // Pins at 47°; the wound is turned so that its second edge lies past, short of, or far from them.
        Wound wound = _front with { FromLevelMm = 120, ToLevelMm = 160, FromAzimuthDeg = toAzimuthDeg == 200 ? -160 : 30, ToAzimuthDeg = toAzimuthDeg == 200 ? -120 : toAzimuthDeg < 0 ? 179 : 60 };

        Assert.Equal(verdict, Bench.Check(Bench.CaseOf(Bench.NearFar) with { Wounds = [wound] }, "wound").Verdict);
    }

    [Fact]
    public void Wound_acrossTheBack_holdsWhatLiesBetweenItsEdges()
    {
        Wound back = _front with { FromAzimuthDeg = 150, ToAzimuthDeg = -150 };

        Assert.Equal((0, 0, 40), (SkinArea.OffDeg(back, 180), SkinArea.OffDeg(back, -170), SkinArea.OffDeg(back, 110)));
    }

    // By hand: 12 mm along the bone and 20° round a skin of 30 mm: √(12² + (20π/180·30)²) = 15.93 mm.
    [Fact]
    public void SkinArea_distance_isRolledOutFlat() =>
        Assert.Equal(15.93, SkinArea.DistanceMm(_front, 148, 10, 30), 0.01);

    [Fact]
    public void WoundAccess_rodInFrontOfTheWound_isCautioned()
    {
        Case over = Bench.CaseOf(Bench.NearFar with { AzimuthDeg = -20 }) with { Wounds = [_front] }, beside = Bench.CaseOf(Bench.NearFar with { AzimuthDeg = 60 }) with { Wounds = [_front] };

        Assert.Equal((Verdict.Caution, Verdict.Pass), (Bench.Check(over, "wound-access").Verdict, Bench.Check(beside, "wound-access").Verdict));
    }

    // 30 mm from a planned plate's incision, 20 from others (MEMORY).
    [Theory]
    [InlineData(IncisionPurpose.Plate, Verdict.Caution)]
    [InlineData(IncisionPurpose.Fasciotomy, Verdict.Pass)]
    public void Incision_for_keepsItsOwnDistance(IncisionPurpose purpose, Verdict verdict)
    {
        // The near proximal pin stands at 145.5 mm with a radius of 2.5: the incision begins 25 mm below its edge.
        PlannedIncision incision = new() { For = purpose, FromLevelMm = 173, ToLevelMm = 190, FromAzimuthDeg = 20, ToAzimuthDeg = 80 };

        Case value = Bench.WithPin(Bench.CaseOf(Bench.NearFar), 2, p => p with { LevelMm = 240 });
        Assert.Equal(verdict, Bench.Check(value with { PlannedIncisions = [incision] }, "incision").Verdict);
    }

    [Fact]
    public void SyntheticBone_hasNoRulesOfAnatomy() =>
        Assert.DoesNotContain(Bench.Checks(Bench.CaseOf(Bench.NearFar, Bench.SyntheticBone)), c => c.Id is "corridor" or "way-in" or "tip" or "joint" or "skin-room" or "other-leg");
}
