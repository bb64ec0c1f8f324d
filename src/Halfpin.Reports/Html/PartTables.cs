using System.Text;
using Halfpin.Domain.Drawings;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Words;

namespace Halfpin.Reports.Html;

/// <summary>The sizes of what is drawn: every pin with its clamps, every rod.</summary>
internal static class PartTables
{
    private static readonly Column[] _pins =
    [
        new("Pin"), new("Level, mm"), new("To fracture edge, mm"), new("Azimuth", IsText: true), new("Diameter / core / thread, mm"), new("Material", IsText: true), new("Bone surface to rod axis, mm", IsText: true),
    ];

    private static readonly Column[] _rods =
    [
        new("Rod"), new("Diameter, mm"), new("Length, mm"), new("Material", IsText: true), new("Tied to", IsText: true),
    ];

    public static void Append(StringBuilder page, BoneDrawing bone, FrameDrawing frame)
    {
        HtmlTable.Append(page, "Pins; level along the bone from the knee's joint line, rod distance along the pin", _pins, frame.Pins.Select(p => Row(p, bone, frame)));
        if (!frame.Rods.IsEmpty)
        {
            HtmlTable.Append(page, "Rods", _rods, frame.Rods.Select(r => Row(r, frame)));
        }
    }

    private static Cell[] Row(DrawnPin pin, BoneDrawing bone, FrameDrawing frame)
    {
        double edgeMm = bone.Fractures.Min(f => pin.Part.LevelMm < f.Outline.LevelMm ? f.ProximalFaceMm - pin.Part.LevelMm : pin.Part.LevelMm - f.DistalFaceMm);
        string[] held = [.. frame.Clamps.Where(c => c.Part.Pin == pin.Part.Id).Select(c => $"{Numbers.Length(Distance(pin.Entry, c.OnMember))} to {c.Part.Rod}{Clamp(c)}")];
        return
        [
            pin.Part.Id, Numbers.Length(pin.Part.LevelMm), Numbers.Length(edgeMm), $"{Numbers.Azimuth(pin.Part.AzimuthDeg)}\u00a0{Direction(pin.Part)}",
            PartWords.Diameter(pin.Part), pin.Part.Material, held.Length == 0 ? "no clamp" : string.Join("; ", held),
        ];
    }

    private static Cell[] Row(DrawnRod rod, FrameDrawing frame) =>
    [
        new(rod.Part.Id, rod.IsCrossLink ? "cross-link" : ""), PartWords.Diameter(rod.Part), Numbers.Length(Math.Round(Distance(rod.From, rod.To))), rod.Part.Material,
        Tied(rod, frame),
    ];

    // Pins name the rods that hold them; what is left is which rods hold each other.
    private static string Tied(DrawnRod rod, FrameDrawing frame)
    {
        string id = rod.Part.Id, pins = frame.Clamps.Count(c => c.Part.Pin is not null && c.Part.Rod == id) is int n and > 0 ? n == 1 ? "1 pin" : $"{n} pins" : "";
        IEnumerable<string> rods = frame.Clamps.Where(c => c.Part.OtherRod is not null && (c.Part.Rod == id || c.Part.OtherRod == id))
            .Select(c => $"{(c.Part.Rod == id ? c.Part.OtherRod : c.Part.Rod)}{Clamp(c)}");
        return string.Join(", ", rods.Prepend(pins).Where(t => t.Length > 0));
    }

    private static string Direction(Pin pin) => pin.TiltDeg == 0 ? Directions.Of(pin.AzimuthDeg)
        : $"{Directions.Of(pin.AzimuthDeg)}, outer end {Numbers.Length(Math.Abs(pin.TiltDeg))}° {(pin.TiltDeg > 0 ? "proximal" : "distal")}";

    private static string Clamp(DrawnClamp c) => $" ({c.Part.Id}{Loose(c)})";

    private static string Loose(DrawnClamp c) => c.Part.State == ClampState.Loose ? ", loose" : "";

    private static double Distance(LimbPoint a, LimbPoint b) =>
        Math.Sqrt(Math.Pow(a.XMm - b.XMm, 2) + Math.Pow(a.YMm - b.YMm, 2) + Math.Pow(a.ZMm - b.ZMm, 2));
}
