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
    [InlineData(36, 12, "posterior tibial vessels and tibial nerve")]
    [InlineData(27, 19, "posterior tibial vessels and tibial nerve")]
    [InlineData(44, 100, "anterior tibial vessels and deep peroneal nerve")]
    [InlineData(7, 45, "common peroneal nerve")]
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

    // Whatever a pin's place, doing what the cure says brings it into a safe corridor.
    [Fact]
    public void Corridor_afterWhatTheCureSays_passes() => Gen.Select(Gen.Double[16, 336], Gen.Double[-180, 180]).Sample((level, azimuth) =>
    {
        Pin pin = PinAt(level, azimuth);
        PinMove move = PinMove.For(_bone, pin)!.Value;
        Pin moved = pin with { AzimuthDeg = move.AzimuthDeg, LevelMm = pin.LevelMm + move.AlongMm };
        Assert.True(PinPassage.Entry(_bone, moved, PlacedPin.Place(_bone, moved)) <= CorridorGrade.Safe);
    }, iter: 300);

    // The nearest turn: a pin that is well placed is not moved.
    [Fact]
    public void Cure_ofAPinInAPreferredSector_movesNothing() => Assert.Equal(new PinMove(45, 0), PinMove.For(_bone, PinAt(150, 45)));

    [Fact]
    public void Corridor_whenOnlyThePinsEdgeReachesTheCapsule_saysWhichLevelAndMovesItAlong()
    {
        // At 17 mm of 352 (4.8 %) the axis is graded by the metaphysis, its edge 4.5 mm higher by the capsule.
        Domain.Assessments.Check check = Bench.Check(Bench.WithPin(Bench.CaseOf(Bench.NearFar), 0, p => p with { LevelMm = 17, AzimuthDeg = 50 }), "corridor");

        Assert.Contains("p1 (50°, its edge at 12 mm)", check.Message, StringComparison.Ordinal);
        Assert.Contains("Move p1", check.Cure, StringComparison.Ordinal);
        Assert.Contains("distally", check.Cure, StringComparison.Ordinal);
    }

    [Fact]
    public void Corridor_namesEveryPinThatIsNotSafe()
    {
        Domain.Assessments.Check check = Bench.Check(Bench.CaseOf(Bench.NearFar with { AzimuthDeg = -60 }), "corridor");

        Assert.All(new[] { "p1", "p2", "p3", "p4" }, p => Assert.Contains(p, check.Message, StringComparison.Ordinal));
    }

    // The saphenous nerve and vein cross the medial face above the ankle, hit in 10 of 10 medial plates (Mirza et al. 2010, READ; place ESTIMATE).
    [Fact]
    public void Corridor_aboveTheAnkle_namesTheSaphenousNerveEvenInThePreferredSector()
    {
        Domain.Assessments.Check[] checks = Bench.Checks(Bench.WithPin(Bench.CaseOf(Bench.NearFar), 3, p => p with { LevelMm = 317, AzimuthDeg = 60 }));

        Assert.Contains("saphenous", checks.Single(c => c.Id == "corridor").Message, StringComparison.Ordinal);
    }

    // A nerve or vein under the skin is spread aside, a bundle on the bone is not.
    [Theory]
    [InlineData(320, 75, Verdict.Caution)]
    [InlineData(299, -27, Verdict.Fail)]
    public void WayIn_throughWhatLiesUnderTheSkin_isACautionAndThroughABundleAFailure(double levelMm, double azimuthDeg, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.WithPin(Bench.CaseOf(Bench.NearFar), 3, p => p with { LevelMm = levelMm, AzimuthDeg = azimuthDeg }), "way-in").Verdict);

    // Radius of the fibula 12 mm at its head, 6 mm in the shaft (six adults, MEASURED).
    [Theory]
    [InlineData(8, 12)]
    [InlineData(50, 6)]
    public void Fibula_byLevel_isAsThickAsMeasured(double percent, double radiusMm) =>
        Assert.Equal(radiusMm, Anatomy.Corridors.TibiaStructure.All.Single(s => s.Name == "fibula").At(3.5 * percent, 350)!.RadiusMm, 9);

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
