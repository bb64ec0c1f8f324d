using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Xunit;

namespace Halfpin.Planning.Tests.Kit;

public class PinLengthTests
{
    // Handbook practice.md §6: tip 2 mm, chord, standoff, half of a 20 mm clamp, tail 15 mm (all MEMORY): 2 + 27.4 + 47.3 + 10 + 15.
    [Fact]
    public void Length_ofAPredrilledPin_isTheSumOfItsPartsRoundedUpToTheStep()
    {
        PinLength p = Cases.Tube.With(Cases.NearFar).Kit().PinLengths[0];

        Assert.Equal(101.7, p.NeededMm, 1e-9);
        Assert.Equal(110, p.LengthMm);
        Assert.Equal(p.NeededMm, p.TipMm + p.ChordMm + p.StandoffMm + p.HalfClampMm + p.TailMm, 1e-9);
    }

    // A self-drilling tip is lodged in the far cortex, not through it (MEMORY): 27.4 + 47.3 + 10 + 15.
    [Fact]
    public void Length_ofASelfDrillingPin_endsAtTheFarSurface()
    {
        Case value = Parts(p => p with { Tip = PinTip.SelfDrilling });

        Assert.Equal(99.7, value.Kit().PinLengths[0].NeededMm, 1e-9);
        Assert.Equal(100, value.Kit().PinLengths[0].LengthMm);
    }

    // Across a tube a pin tilted by t crosses D/cos t of bone.
    [Fact]
    public void Length_ofATiltedPin_growsWithItsChord()
    {
        Case value = Parts(p => p.Id == "p2" ? p with { TiltDeg = 17 } : p);

        Assert.Equal(27.4 / Math.Cos(17 * Math.PI / 180), value.Kit().PinLengths[1].ChordMm, 1e-6);
    }

    [Fact]
    public void Length_withTwoRods_reachesTheOuterOne()
    {
        DoubleRod twin = new() { Placement = PinPlacement.FarFar, FarMm = 103, AzimuthDeg = 0, StandoffMm = 47.3, RodSpacingMm = 31, Pin = Cases.Pin, Rod = Cases.Rod };

        Assert.Equal(132.7, Cases.Tube.With(twin).Kit().PinLengths[0].NeededMm, 1e-9);
    }

    [Fact]
    public void Length_ofTheCaseItself_standsAndItsTailIsWhatIsLeft()
    {
        PinLength p = Parts(q => q with { LengthMm = 137 }).Kit().PinLengths[0];

        Assert.Equal(137, p.LengthMm);
        Assert.Equal(137 - 2 - 27.4 - 47.3 - 10, p.TailMm, 1e-9);
    }

    // 27.4 + 47.3 + 5 reach the rod but not through half a clamp.
    [Fact]
    public void Length_ofTheCaseTooShortForItsClamp_isReplacedAndSaid()
    {
        KitReport kit = Parts(q => q.Id == "p3" ? q with { LengthMm = 81 } : q).Kit();

        Assert.Equal(110, kit.PinLengths[2].LengthMm);
        Assert.Contains(kit.Cautions, c => c.Text.Contains("pin p3 81 mm", StringComparison.Ordinal));
    }

    [Fact]
    public void ClampBody_ofTheCase_replacesTheAllowance()
    {
        Case value = Cases.Tube.With(Cases.NearFar);
        Parts parts = value.PartsOf();

        Assert.Equal(13.5, value.With(parts with { Clamps = [.. parts.Clamps.Select(c => c with { BodyLengthMm = 27 })] }).Kit().PinLengths[0].HalfClampMm);
    }

    // 41 mm of thread, tip flush as the case has it, 27.4 mm in bone: 13.6 mm outside, the same as the check says.
    [Fact]
    public void Thread_longerThanTheBone_isFlaggedWithWhatStandsOut()
    {
        KitReport kit = Parts(q => q with { CoreDiameterMm = 4.1, ThreadLengthMm = 41 }).Kit();

        Assert.Equal(13.6, kit.PinLengths[0].ExposedThreadMm!.Value, 1e-9);
        Assert.Contains("p1 by 13 mm", kit.Items[0].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Thread_shorterThanTheBoneWants_isFlagged()
    {
        KitReport kit = Parts(q => q with { CoreDiameterMm = 4.1, ThreadLengthMm = 23 }).Kit();

        Assert.Contains("too short for the bone at p1 (wants 30 mm)", kit.Items[0].Reason, StringComparison.Ordinal);
        Assert.Equal(0, kit.PinLengths[0].ExposedThreadMm);
    }

    // Handbook practice.md §6: thread at least chord + 2–5 mm (MEMORY).
    [Fact]
    public void Thread_thatNobodyGives_isWantedByTheBone()
    {
        PinLength p = Cases.Tube.With(Cases.NearFar).Kit().PinLengths[0];

        Assert.Null(p.ThreadLengthMm);
        Assert.Equal((29.4, 32.4), (Math.Round(p.ThreadFromMm, 9), Math.Round(p.ThreadToMm, 9)));
    }

    private static Case Parts(Func<Pin, Pin> change)
    {
        Case value = Cases.Tube.With(Cases.NearFar);
        Parts parts = value.PartsOf();
        return value.With(parts with { Pins = [.. parts.Pins.Select(change)] });
    }
}
