using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Xunit;

namespace Halfpin.Placement.Tests.Checks;

public class BoneCheckTests
{
    // A pin under a third of the bone's diameter: Wheeless' Textbook of Orthopaedics, READ. The test bone measures 27.4 mm.
    // Up to a quarter is good (MEMORY).
    [Theory]
    [InlineData(6.8, Verdict.Pass)]
    [InlineData(7.9, Verdict.Caution)]
    public void PinWidth_onAWideBone_isGoodUpToAQuarter(double diameterMm, Verdict verdict) => Assert.Equal(
        verdict, Bench.Check(Bench.CaseOf(Bench.NearFar with { Pin = Bench.NearFar.Pin with { DiameterMm = diameterMm } }, Bench.SyntheticBone), "pin-width").Verdict);

    [Fact]
    public void PinWidth_overAThirdOfANarrowBone_fails()
    {
        Check width = Bench.Check(Bench.CaseOf(Bench.NearFar, Bench.SyntheticBone with { BoneModel = Bench.Tube with { OuterDiameterMm = 14.7, InnerDiameterMm = 6.1 } }), "pin-width");

        Assert.Equal(Verdict.Fail, width.Verdict);
        Assert.Contains("34 %", width.Message, StringComparison.Ordinal);
    }

    // At least 20 mm from the fracture: open tibia training module, READ.
    [Theory]
    [InlineData(20.1, Verdict.Pass)]
    [InlineData(19.3, Verdict.Caution)]
    public void PinToFracture_isMeasuredFromTheEdge(double nearMm, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.CaseOf(Bench.NearFar with { NearMm = nearMm }), "pin-to-fracture").Verdict);

    [Fact]
    public void PinToFracture_ofATiltedPlane_isMeasuredWhereItComesNearest()
    {
        // Pins at 0°, plane tilted about them: its height at the bone's surface is tan 31° · 13.7 mm = 8.2 mm nearer on one side.
        Fracture tilted = Bench.Gap with { TiltDeg = 31, TiltAzimuthDeg = 0 };

        Assert.Contains("passes 19 mm", Bench.Check(Bench.CaseOf(Bench.NearFar with { AzimuthDeg = 0 }, Bench.SyntheticBone, tilted), "pin-to-fracture").Message, StringComparison.Ordinal);
    }

    // Knee capsule to 14 mm (DeCoster et al., READ) with a margin of 1; the pin's own radius of 2.5 mm counts.
    [Theory]
    [InlineData(17.6, Verdict.Pass)]
    [InlineData(17.4, Verdict.Fail)]
    public void Joint_atTheKnee_isMeasuredFromThePinsSurface(double levelMm, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.WithPin(Bench.CaseOf(Bench.NearFar), 0, p => p with { LevelMm = levelMm }), "joint").Verdict);

    // Tibiofibular recess of the ankle to 23.6 mm (MRI series, READ): pins that leave the bone laterally keep 25 mm.
    [Theory]
    [InlineData(352 - 27.4, Verdict.Fail)]
    [InlineData(352 - 28.1, Verdict.Caution)]
    [InlineData(352 - 33.1, Verdict.Pass)]
    public void Joint_atTheAnkle_countsTheSyndesmosisWhereThePinLeavesLaterally(double levelMm, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.WithPin(Bench.CaseOf(Bench.NearFar), 3, p => p with { LevelMm = levelMm }), "joint").Verdict);

    [Fact]
    public void Joint_ofATiltedPin_countsTheEndThatLiesNearer()
    {
        Case level = Bench.WithPin(Bench.CaseOf(Bench.NearFar), 0, p => p with { LevelMm = 26.3 });
        Case tilted = Bench.WithPin(Bench.CaseOf(Bench.NearFar), 0, p => p with { LevelMm = 26.3, TiltDeg = 33 });

        Assert.Equal((Verdict.Pass, Verdict.Fail), (Bench.Check(level, "joint").Verdict, Bench.Check(tilted, "joint").Verdict));
    }

    // Thread in both cortices, not in the skin (MEMORY). Chord of the tube 27.4 mm.
    [Theory]
    [InlineData(22.1, Verdict.Caution, "before it holds the near cortex")]
    [InlineData(29.7, Verdict.Pass, "hold both cortices")]
    [InlineData(41.3, Verdict.Caution, "13 mm of thread, at p1")]
    public void Thread_mustHoldTheNearCortexAndEndThere(double threadMm, Verdict verdict, string words)
    {
        Check thread = Bench.Check(Bench.CaseOf(Bench.NearFar with { Pin = Bench.NearFar.Pin with { ThreadLengthMm = threadMm } }, Bench.SyntheticBone), "thread");

        Assert.Equal(verdict, thread.Verdict);
        Assert.Contains(words, thread.Message, StringComparison.Ordinal);
    }

    // Three pin diameters of bone between the edges of two holes (MEMORY): 15 mm for 5 mm pins, so 20 between axes. Less than one fails (ASSUMED).
    [Theory]
    [InlineData(20.2, Verdict.Pass)]
    [InlineData(19.7, Verdict.Caution)]
    [InlineData(10.2, Verdict.Caution)]
    [InlineData(9.7, Verdict.Fail)]
    public void PinSpacing_countsBoneBetweenHoles(double apartMm, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.CaseOf(Bench.NearFar with { NearMm = 97 - apartMm }), "pin-spacing").Verdict);

    [Theory]
    [InlineData(40.4, Verdict.Pass)]
    [InlineData(39.1, Verdict.Caution)]
    public void PinSpread_below40Mm_isCautioned(double spanMm, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(Bench.CaseOf(Bench.NearFar with { NearMm = 97 - spanMm }), "pin-spread").Verdict);

    // Two gaps of 3 mm leave 71 mm between, of which 31 lie 20 mm from both; 40 mm are asked where there is room for them.
    [Theory]
    [InlineData(204, 26.4, Verdict.Pass)]
    [InlineData(204, 25.6, Verdict.Caution)]
    [InlineData(229, 40.3, Verdict.Pass)]
    [InlineData(229, 39.7, Verdict.Caution)]
    public void PinSpread_betweenTwoFractures_asksForNoMoreThanThereIsRoomFor(double lowerMm, double spanMm, Verdict verdict) =>
        Assert.Equal(verdict, Bench.Check(TwoPinsBetween(lowerMm, spanMm), "pin-spread").Verdict);

    [Fact]
    public void PinSpread_withLittleRoomBetween_saysHowMuch() =>
        Assert.Contains("26 mm in the middle fragment (room for 31 mm)", Bench.Check(TwoPinsBetween(204, 25.6), "pin-spread").Message, StringComparison.Ordinal);

    [Fact]
    public void PinSpread_withLittleRoomBetween_asksForWhatThereIsRoomFor() =>
        Assert.Contains("middle fragment over at least 26 mm", Bench.Check(TwoPinsBetween(204, 25.6), "pin-spread").Cure, StringComparison.Ordinal);

    // 51 mm between leave room for 11 mm 20 mm from both: no lever to speak of, however well it is used (ASSUMED: 20 mm).
    [Fact]
    public void PinSpread_withNoRoomForALever_isCautionedAndSaysSo()
    {
        Check spread = Bench.Check(TwoPinsBetween(184, 12.3), "pin-spread");

        Assert.Equal(Verdict.Caution, spread.Verdict);
        Assert.Equal("ASSUMED", spread.Tag);
        Assert.Contains("middle fragment has room for 11 mm at most", spread.Cure, StringComparison.Ordinal);
    }

    [Fact]
    public void PinCount_whenAClampIsOff_countsItsPinNot()
    {
        Case value = Bench.With(Bench.CaseOf(Bench.NearFar), p => p with { Clamps = p.Clamps.SetItem(3, p.Clamps[3] with { State = Domain.Frames.ClampState.Off }) });
        Check count = Bench.Check(value, "pin-count");

        Assert.Equal(Verdict.Fail, count.Verdict);
        Assert.Contains("distal fragment is held by one pin", count.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, Verdict.Fail)]
    [InlineData(1, Verdict.Caution)]
    [InlineData(2, Verdict.Pass)]
    public void PinCount_ofAMiddleFragment_countsItsPins(int middle, Verdict verdict)
    {
        Case two = Bench.CaseOf(Bench.NearFar) with { Fractures = [Bench.Gap with { LevelMm = 131, GapMm = 3 }, Bench.Gap with { LevelMm = 229, GapMm = 3 }] };
        Case value = Bench.With(two, p => p with
        {
            Pins = [.. p.Pins, .. Enumerable.Range(0, middle).Select(i => p.Pins[0] with { Id = $"m{i}", LevelMm = 164 + (37 * i) })],
            Clamps = [.. p.Clamps, .. Enumerable.Range(0, middle).Select(i => new Domain.Frames.Clamp { Id = $"cm{i}", Pin = $"m{i}", Rod = "r1" })],
        });

        Assert.Equal(verdict, Bench.Check(value, "pin-count").Verdict);
    }

    [Fact]
    public void Thread_thatReachesTheSkin_isSaidTo() =>
        Assert.Contains("comes through the skin", Bench.Check(Bench.CaseOf(Bench.NearFar with { Pin = Bench.NearFar.Pin with { ThreadLengthMm = 47 } }), "thread").Message, StringComparison.Ordinal);

    [Fact]
    public void PinToFracture_namesEveryPinThatIsTooNear() =>
        Assert.Matches("p2 passes .* p3 passes ", Bench.Check(Bench.CaseOf(Bench.NearFar with { NearMm = 15 }), "pin-to-fracture").Message);

    // Two pins about the middle of the fragment between transverse fractures at 130 mm and at another level.
    private static Case TwoPinsBetween(double lowerMm, double spanMm)
    {
        Case two = Bench.CaseOf(Bench.NearFar) with { Fractures = [Bench.Gap with { LevelMm = 130, GapMm = 3 }, Bench.Gap with { LevelMm = lowerMm, GapMm = 3 }] };
        double middle = (130 + lowerMm) / 2;
        return Bench.With(two, p => p with
        {
            Pins = [.. p.Pins, .. new[] { -spanMm / 2, spanMm / 2 }.Select((d, i) => p.Pins[0] with { Id = $"m{i}", LevelMm = middle + d })],
            Clamps = [.. p.Clamps, .. Enumerable.Range(0, 2).Select(i => new Domain.Frames.Clamp { Id = $"cm{i}", Pin = $"m{i}", Rod = "r1" })],
        });
    }
}
