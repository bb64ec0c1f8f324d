using Halfpin.Domain.Frames;

namespace Halfpin.Reports.Words;

/// <summary>A construct in words.</summary>
public static class ConstructWords
{
    /// <summary>All that makes it, in a line.</summary>
    public static string Line(Construct c)
    {
        string kind = c switch
        {
            SingleRod => "single rod",
            DoubleRod d => $"double rod {Whole(d.RodSpacingMm)} mm apart",
            TwoPlane v => $"V with its second plane at {Whole(v.SecondAzimuthDeg)}°, {v.CrossLinks} cross-links",
            _ => "frame",
        };
        string pins = c.NearMm is double near ? $"{Whole(near)} and {Whole(c.FarMm)} mm" : $"{Whole(c.FarMm / 2)} and {Whole(c.FarMm)} mm";
        return $"{kind}, {c.PinsPerFragment} pins a fragment{(c is TwoPlane ? " and plane" : "")} between {pins} from the fracture at {Whole(c.AzimuthDeg)}°, {Numbers.Length(c.Pin.DiameterMm)} mm {c.Pin.Material} pins, {Numbers.Length(c.Rod.DiameterMm)} mm {c.Rod.Material} rod at {Whole(c.StandoffMm)} mm";
    }

    /// <summary>A short name for lists: layout, pins and rod.</summary>
    public static string Name(Construct c)
    {
        string kind = c switch { SingleRod => "One rod", DoubleRod => "Two rods", TwoPlane => "V", _ => "Frame" };
        int pins = 2 * c.PinsPerFragment * (c is TwoPlane ? 2 : 1);
        return $"{kind}, {pins} pins of {Numbers.Length(c.Pin.DiameterMm)} mm, {Whole(c.StandoffMm)} mm out at {Whole(c.AzimuthDeg)}°";
    }

    private static string Whole(double value) => Numbers.Kg(value);
}
