using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Building;

namespace Halfpin.Planning.Kit;

/// <summary>What a clamp of a frame must be.</summary>
/// <param name="Id">The clamp.</param>
/// <param name="Joint">What it joins.</param>
/// <param name="OtherMm">Diameter of the pin or second rod.</param>
/// <param name="RodMm">Diameter of the rod.</param>
/// <param name="OpenSided">Whether it must go on a rod that is already mounted, or the case asks for one that can.</param>
internal sealed record ClampNeed(string Id, ClampJoint Joint, double OtherMm, double RodMm, bool OpenSided)
{
    public static ClampNeed Of(Clamp clamp, FrameLayout layout, BuildOrder order)
    {
        double rod = layout.Rod(clamp.Rod).DiameterMm, other = clamp.Pin is string pin ? layout.Pin(pin).DiameterMm : layout.Rod(clamp.OtherRod!).DiameterMm;
        bool open = clamp.OpenSided || order.OpenSided.Contains(clamp.Id);

        // Of two rods the thinner one is named first, whichever way the case has them.
        return clamp.Pin is not null
            ? new(clamp.Id, ClampJoint.PinToRod, other, rod, open)
            : new(clamp.Id, ClampJoint.RodToRod, Math.Min(rod, other), Math.Max(rod, other), open);
    }

    /// <summary>The clamp in words.</summary>
    public string Words => $"{(Joint == ClampJoint.PinToRod ? "Pin-to-rod clamp" : "Rod-to-rod clamp")} for {SizeWords.Fine(OtherMm)} on {SizeWords.Fine(RodMm)} mm{(OpenSided ? ", open-sided" : "")}";

    /// <summary>How well a clamp of the stock serves; null when it does not. Open-sided ones are kept for where they are needed.</summary>
    public double? Rank(StockClamp clamp)
    {
        bool fits = Fits(clamp, OtherMm, RodMm) || (Joint == ClampJoint.RodToRod && Fits(clamp, RodMm, OtherMm));
        return clamp.Joins != Joint || !fits || (OpenSided && !clamp.OpenSided) ? null : OpenSided == clamp.OpenSided ? 0 : 1;
    }

    private static bool Fits(StockClamp clamp, double otherMm, double rodMm) =>
        clamp.RodDiameterMm == rodMm && clamp.FromDiameterMm <= otherMm && otherMm <= clamp.ToDiameterMm;
}
