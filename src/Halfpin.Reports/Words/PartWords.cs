using Halfpin.Domain.Assessments;
using Halfpin.Domain.Drawings;
using Halfpin.Domain.Frames;

namespace Halfpin.Reports.Words;

/// <summary>The parts of a frame counted and sized in words.</summary>
public static class PartWords
{
    /// <summary>How many of each, cross-links apart from the rods they tie.</summary>
    public static string Count(Kit kit, FrameDrawing drawing)
    {
        int links = drawing.Rods.Count(r => r.IsCrossLink);
        string tied = links == 0 ? "" : $" + {Number(links, "cross-link")}";
        return $"{Number(kit.Pins, "pin")}, {Number(kit.Rods - links, "rod")}{tied}, {Number(kit.Clamps, "clamp")}";
    }

    /// <summary>Diameter of a pin; where it bends with its thread, also the thread's core diameter and length.</summary>
    public static string Diameter(Pin pin) => Numbers.Length(pin.DiameterMm)
        + (pin.CoreDiameterMm is double core ? $"\u00a0/\u00a0{Numbers.Length(core)}\u00a0/\u00a0{Numbers.Length(pin.ThreadLengthMm ?? double.NaN)}" : "");

    /// <summary>Diameter of a rod, with its bore where it is hollow.</summary>
    public static string Diameter(Rod rod) => Numbers.Length(rod.DiameterMm) + (rod.InnerDiameterMm > 0 ? $", bore {Numbers.Length(rod.InnerDiameterMm)}" : "");

    private static string Number(int count, string what) => $"{count} {what}{(count == 1 ? "" : "s")}";
}
