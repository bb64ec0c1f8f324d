using CsCheck;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Kit;
using Xunit;

namespace Halfpin.Planning.Tests.Kit;

public class KitTests
{
    // 2 · 103 + 7 mm between the far pins, 15 mm of overhang at both ends: 243, rounded up.
    [Fact]
    public void Rod_ofANearFarFrame_spansItsClampsWithOverhang()
    {
        KitItem rod = Assert.Single(Cases.Tube.With(Cases.NearFar).Kit().Items, i => i.Kind == KitKind.Rod);

        Assert.Equal(250, rod.LengthMm);
        Assert.Equal(["r1"], rod.Parts);
    }

    // Handbook: a 3.5 mm drill for a 5 mm half-pin, common practice; others thinner than the core.
    [Theory]
    [InlineData(5, null, 3.5)]
    [InlineData(5, 4.3, 3.5)]
    [InlineData(5, 3.4, 3.0)]
    [InlineData(6, 5.1, 5.0)]
    [InlineData(6, null, 4.5)]
    [InlineData(4, 3.0, 2.5)]
    public void Drill_byDiameterAndCore_isThinnerThanTheCore(double diameter, double? core, double drill)
    {
        Case value = Cases.Tube.With(Cases.NearFar with { Pin = Cases.Pin with { DiameterMm = diameter, CoreDiameterMm = core, ThreadLengthMm = core is null ? null : 33 } });

        Assert.Equal(drill, Assert.Single(value.Kit().Items, i => i.Tool == ToolKind.Drill).DiameterMm);
        Assert.Equal(drill, Assert.Single(value.Kit().Items, i => i.Tool == ToolKind.DrillSleeve).DiameterMm);
    }

    [Fact]
    public void Tools_forSelfDrillingPins_haveNoDrill()
    {
        Case value = Cases.Tube.With(Cases.NearFar);
        Parts parts = value.PartsOf();
        KitReport kit = value.With(parts with { Pins = [.. parts.Pins.Select(p => p with { Tip = PinTip.SelfDrilling })] }).Kit();

        Assert.DoesNotContain(kit.Items, i => i.Tool is ToolKind.Drill or ToolKind.DrillSleeve);
        Assert.Contains(kit.Items, i => i.Tool == ToolKind.Trocar);
    }

    [Fact]
    public void SecondRod_onStandingPins_needsOpenSidedClampsAtItsInnerPins() =>
        Assert.Equal(["c6", "c7"], Assert.Single(Cases.Example.Kit("double-rod").Items, i => i.OpenSided == true).Parts);

    [Fact]
    public void CrossLinks_betweenMountedRods_needOpenSidedClamps() =>
        Assert.Equal(["x1", "x2", "x3", "x4"], Assert.Single(Cases.Example.Kit("two-plane").Items, i => i.OpenSided == true).Parts);

    [Fact]
    public void SingleRod_loadedOnTheTable_needsNoOpenSidedClamp() => Assert.DoesNotContain(Cases.Example.Kit("near-far").Items, i => i.OpenSided == true);

    [Fact]
    public void Clamp_thatTheCaseWantsOpenSided_isListedSo()
    {
        Case value = Cases.Tube.With(Cases.NearFar);
        Parts parts = value.PartsOf();

        Assert.Equal(["c2"], Assert.Single(value.With(parts with { Clamps = [.. parts.Clamps.Select(c => c.Id == "c2" ? c with { OpenSided = true } : c)] }).Kit().Items, i => i.OpenSided == true).Parts);
    }

    [Fact]
    public void ClampThatIsOff_isNotInTheKit()
    {
        Case value = Cases.Tube.With(Cases.NearFar);
        Parts parts = value.PartsOf();
        KitReport kit = value.With(parts with { Clamps = [.. parts.Clamps.Select(c => c.Id == "c2" ? c with { State = ClampState.Off } : c)] }).Kit();

        Assert.DoesNotContain(kit.Items, i => i.Parts.Contains("c2"));
        Assert.Contains(kit.Cautions, c => c.Text.Contains("No clamp holds pin p2", StringComparison.Ordinal));
    }

    [Fact]
    public void Mechanism_stillHasItsKit()
    {
        string loose = Cases.Segmental.Frames.First(f => Cases.Segmental.Kit(f.Id).Status == FrameStatus.Mechanism).Id;
        KitReport kit = Cases.Segmental.Kit(loose);

        Assert.NotNull(kit.Diagnosis);
        Assert.NotEmpty(kit.Items);
    }

    // The whole point of a kit: nothing in it is too short, with and without a stock.
    [Fact]
    public void AnyFrame_kit_isNeverTooShort() => Frames.Any.Sample(value =>
    {
        foreach (Stock? stock in new[] { null, Cases.DemoStock })
        {
            FrameKit kit = FrameKit.Of(value, value.PartsOf(), stock);
            foreach (PinLength p in kit.Lengths.Where(p => p.LengthMm is not null))
            {
                // From the geometry itself: tip to the outermost clamp's axis and half a clamp more.
                Pin pin = kit.Layout.Pin(p.Pin);
                double outermost = kit.Layout.OnPin(p.Pin).Max(c => c.At.AlongMemberMm);
                Assert.True(p.LengthMm >= outermost - kit.Layout.Placed(pin).FarSurfaceMm + 10 - 1e-9, $"{p.Pin} {p.LengthMm}");
                Assert.True(stock is null || p.ThreadLengthMm >= p.ChordMm + p.TipMm - 1e-9);
            }

            foreach (Rod rod in kit.Layout.Parts.Rods.Where(r => !kit.Shortages.Any(s => s.Parts.Contains(r.Id))))
            {
                double[] along = [.. kit.Layout.Clamps.Where(c => c.Part.Rod == rod.Id).Select(c => c.At.AlongRodMm), .. kit.Layout.Clamps.Where(c => c.Part.OtherRod == rod.Id).Select(c => c.At.AlongMemberMm)];
                double length = kit.Items.First(i => i.Kind == KitKind.Rod && i.Parts.Contains(rod.Id)).LengthMm!.Value;
                Assert.True(length >= along.Max() - along.Min() + 20 - 1e-9, $"{rod.Id} {length}");
            }

            Assert.Equal(value.PartsOf().Clamps.Length, kit.Items.Where(i => i.Kind == KitKind.Clamp).Sum(i => i.Quantity));
        }
    }, iter: 60);

    [Fact]
    public void AnyFrame_onTheOtherLeg_hasTheSameKit() => Frames.Any.Sample(value =>
    {
        Case other = value with { Limb = value.Limb with { Side = value.Limb.Side == Side.Left ? Side.Right : Side.Left } };

        return FrameKit.Of(value, value.PartsOf(), null).Items.Select(Line).SequenceEqual(FrameKit.Of(other, other.PartsOf(), null).Items.Select(Line));
    }, iter: 40);

    private static string Line(KitItem i) => $"{i.Kind} {i.Description} {i.LengthMm} {i.Quantity} {string.Join(' ', i.Parts)} {i.Reason}";
}
