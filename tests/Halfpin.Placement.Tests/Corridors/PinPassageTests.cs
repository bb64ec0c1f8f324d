using CsCheck;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Placement.Corridors;
using Xunit;

namespace Halfpin.Placement.Tests.Corridors;

public class PinPassageTests
{
    private static readonly TibiaShape _bone = new(350);

    private static readonly Gen<Pin> _pins = Gen.Select(Gen.Double[20, 330], Gen.Double[-180, 180], Gen.Double[-15, 15]).Select((level, azimuth, tilt) => PinAt(level, azimuth, tilt))
        .Where(p => !double.IsNaN(PlacedPin.Place(_bone, p).ChordMm));

    // Windows of entry in which a straight pin points at a structure, derived in the handbook from the courses (exit within 20°).
    [Theory]
    [InlineData(25, 35, "anterior tibial vessels and deep peroneal nerve")]
    [InlineData(25, 70, "anterior tibial vessels and deep peroneal nerve")]
    [InlineData(50, 85, "anterior tibial vessels and deep peroneal nerve")]
    [InlineData(70, 110, "anterior tibial vessels and deep peroneal nerve")]
    [InlineData(40, -15, "posterior tibial vessels and tibial nerve")]
    public void Behind_inAnExitWindow_namesTheStructure(double percent, double azimuthDeg, string structure)
    {
        Pin pin = PinAt(3.5 * percent, azimuthDeg);

        Assert.Contains(structure, PinPassage.Behind(_bone, PlacedPin.Place(_bone, pin)));
    }

    [Fact]
    public void Behind_straightFromTheMedialSideLow_isNotTheAnteriorTibialBundle() =>
        Assert.DoesNotContain("anterior tibial vessels and deep peroneal nerve", PinPassage.Behind(_bone, PlacedPin.Place(_bone, PinAt(301, 45))));

    // The anterior tibial bundle lies in front of the tibia at 85 % (O'Leary et al., READ; place ESTIMATE): a pin from −27° runs into it.
    [Fact]
    public void Near_pinThroughACrossingVessel_meetsIt()
    {
        Pin pin = PinAt(0.85 * 350, -27);
        PlacedPin placed = PlacedPin.Place(_bone, pin);

        Assert.True(PinPassage.Near(_bone, pin, placed, placed.SurfaceMm, placed.SurfaceMm + 20, 5)[0].GapMm < 0);
    }

    [Fact]
    public void Entry_ofATiltedPin_isGradedWhereItEntersNotWhereItCrossesTheAxis()
    {
        // At 17° of the front 15.8 % is safe ground and below 4 % nothing is; the tilted pin crosses the axis at 21 mm and enters above 14 mm.
        Pin pin = PinAt(21, 40) with { TiltDeg = 30 };

        Assert.Equal(CorridorGrade.Avoid, PinPassage.Entry(_bone, pin, PlacedPin.Place(_bone, pin)));
    }

    [Fact]
    public void Entry_ofAThickerPin_isNeverBetter() => _pins.Sample(pin =>
    {
        PlacedPin placed = PlacedPin.Place(_bone, pin);
        Assert.True(PinPassage.Entry(_bone, pin with { DiameterMm = pin.DiameterMm + 2.3 }, placed) >= PinPassage.Entry(_bone, pin, placed));
    });

    [Fact]
    public void Checks_ofAMirroredLimb_areTheSame() => Gen.Select(Gen.Double[-180, 180], Gen.Double[30, 80], Gen.Double[22, 60]).Sample((azimuth, standoff, near) =>
    {
        Case right = Bench.CaseOf(Bench.NearFar with { AzimuthDeg = azimuth, StandoffMm = standoff, NearMm = near });
        Assert.Equal(Bench.Checks(right), Bench.Checks(right with { Limb = right.Limb with { Side = Side.Left } }));
    }, iter: 40);

    // Whatever the frame, turning a pin by its cure to the preferred sector never makes the verdict on corridors worse.
    [Fact]
    public void Corridor_afterTurningEveryPinToThePreferredSector_passes() => Gen.Select(Gen.Double[-180, 180], Gen.Double[25, 60]).Sample((azimuth, near) =>
    {
        Case value = Bench.CaseOf(Bench.NearFar with { AzimuthDeg = azimuth, NearMm = near });
        Case turned = Bench.CaseOf(Bench.NearFar with { AzimuthDeg = 45, NearMm = near });
        Assert.True(Bench.Check(turned, "corridor").Verdict <= Bench.Check(value, "corridor").Verdict);
        Assert.Equal(Verdict.Pass, Bench.Check(turned, "corridor").Verdict);
    }, iter: 40);

    [Theory]
    [InlineData(0, Verdict.Pass)]
    [InlineData(3.1, Verdict.Caution)]
    [InlineData(5.2, Verdict.Fail)]
    public void Tip_beyondTheFarCortex_isJudgedByMillimetres(double beyondMm, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.WithPin(Bench.CaseOf(Bench.NearFar), 2, p => p with { TipBeyondMm = beyondMm }), "tip").Verdict);

    [Fact]
    public void Tip_thatEndsInTheCanal_isAFault()
    {
        Case value = Bench.WithPin(Bench.CaseOf(Bench.NearFar), 2, p => p with { TipBeyondMm = -9 });

        Assert.Equal("/frames/0/parts/pins/2/tipBeyondMm", Assert.Single(PlacementRules.Check(value)).Pointer);
    }

    [Fact]
    public void Corridor_inForbiddenGround_failsAndSaysWhereToTurn()
    {
        Domain.Assessments.Check check = Bench.Check(Bench.CaseOf(Bench.NearFar with { AzimuthDeg = 170 }), "corridor");

        Assert.Equal(Verdict.Fail, check.Verdict);
        Assert.Contains("Turn p1 to", check.Cure, StringComparison.Ordinal);
    }

    private static Pin PinAt(double levelMm, double azimuthDeg, double tiltDeg = 0) =>
        new() { Id = "p", LevelMm = levelMm, AzimuthDeg = azimuthDeg, TiltDeg = tiltDeg, DiameterMm = 5, Material = "steel" };
}
