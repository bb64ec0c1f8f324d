using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Placement;
using Halfpin.Planning.Building;

namespace Halfpin.Planning.Kit;

/// <summary>What a pin of a frame needs.</summary>
/// <param name="Part">The pin.</param>
/// <param name="Layout">The frame.</param>
/// <param name="TailMm">What is left beyond its outermost clamp.</param>
internal sealed record PinNeed(Pin Part, FrameLayout Layout, double TailMm)
{
    private const double RoundingMm = 1e-9;

    /// <summary>How its length comes about with a tip, before any is taken.</summary>
    public PinLength With(PinTip tip)
    {
        PlacedPin placed = Layout.Placed(Part);
        LaidClamp? outermost = Layout.OnPin(Part.Id).MaxBy(c => c.At.AlongMemberMm + c.HalfBodyMm);
        double tipMm = KitAllowances.TipMm(tip), standoff = outermost is null ? 0 : Layout.StandoffMm(outermost), half = outermost?.HalfBodyMm ?? 0;
        double reach = tipMm + placed.ChordMm + standoff + half;

        // A length that the case gives stands where it reaches through the clamp; its tail is what is left.
        double tail = Part.LengthMm is double own && own >= reach ? own - reach : TailMm;
        return new()
        {
            Pin = Part.Id,
            Tip = tip,
            TipMm = tipMm,
            ChordMm = placed.ChordMm,
            StandoffMm = standoff,
            HalfClampMm = half,
            TailMm = tail,
            NeededMm = reach + tail,
            ThreadFromMm = placed.ChordMm + KitAllowances.ThreadFromMm,
            ThreadToMm = placed.ChordMm + KitAllowances.ThreadToMm,
            SoftTissueMm = Layout.SoftTissueMm(Part),
        };
    }

    /// <summary>True when the case gives a length that does not reach through the outermost clamp.</summary>
    public bool OwnIsShort => Part.LengthMm is double own && With(Part.Tip ?? PinTip.Predrilled) is var p && own < p.NeededMm - p.TailMm;

    /// <summary>The length without a stock: the case's own, or rounded up.</summary>
    public PinLength Unstocked()
    {
        PinLength p = With(Part.Tip ?? PinTip.Predrilled);
        return Taken(p, Part.LengthMm is double && !OwnIsShort ? p.NeededMm : KitAllowances.RoundedUpMm(p.NeededMm), Part.ThreadLengthMm);
    }

    /// <summary>The length with a pin of the stock.</summary>
    public PinLength With(StockPin pin) => Taken(With(pin.Tip), pin.LengthMm, pin.ThreadLengthMm);

    /// <summary>
    /// How well a pin of the stock serves; null when it does not. The shortest that is long enough, then the one with least thread
    /// outside the bone; where the case is silent about the tip, one for a drilled hole.
    /// </summary>
    public double? Rank(StockPin pin)
    {
        if (pin.DiameterMm != Part.DiameterMm || pin.Material != Part.Material || (Part.Tip is PinTip tip && tip != pin.Tip))
        {
            return null;
        }

        PinLength p = With(pin);
        const double PerTip = 1e6, PerMm = 1e3;
        return pin.LengthMm < p.NeededMm - RoundingMm || pin.ThreadLengthMm < p.ThreadFromMm - RoundingMm
            ? null
            : ((Part.Tip is null && pin.Tip == PinTip.SelfDrilling ? 1 : 0) * PerTip) + (pin.LengthMm * PerMm) + pin.ThreadLengthMm;
    }

    // The length allows for a tip past the far cortex; how much thread stands out is told with the tip where the case puts it, as the
    // check of thread does.
    private PinLength Taken(PinLength p, double lengthMm, double? threadMm) => p with
    {
        LengthMm = lengthMm,
        ThreadLengthMm = threadMm,
        ExposedThreadMm = threadMm is double thread ? Math.Max(0, thread - p.ChordMm - Part.TipBeyondMm) : null,
    };
}
