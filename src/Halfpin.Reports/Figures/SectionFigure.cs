using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Words;

namespace Halfpin.Reports.Figures;

/// <summary>
/// The bone at the fracture and the frame round it, seen from the foot with anterior up, so that medial lies on the same side as in
/// the view from the front. All frames of a case are drawn to one scale.
/// </summary>
internal sealed class SectionFigure
{
    private const double Size = 380, Margin = 40;
    private const int WoundPoints = 24;

    // A wound is an arc this far outside the bone.
    private const double WoundOffMm = 2.5;
    private const double ScaleBarMm = 20;

    // A rod drawn with a larger radius has room for a name of two letters.
    private const double RoomForName = 10;

    private readonly Case _case;
    private readonly BoneDrawing _bone;
    private readonly double _scale, _centreX, _centreY;

    /// <summary>A figure that has room for all of the given frames.</summary>
    public SectionFigure(Case value, BoneDrawing bone, IEnumerable<FrameDrawing> frames)
    {
        (_case, _bone) = (value, bone);
        (double Right, double Up)[] parts = [.. frames.SelectMany(f => f.Pins.Select(p => p.OuterEnd).Concat(f.Pins.Select(p => p.Tip)).Concat(f.Rods.SelectMany(r => r.IsCrossLink ? [r.From, r.To] : new[] { AtFracture(r) })))
            .Select(p => Plane(value.Limb.Side, p)), .. Ring(bone.AtFracture.OuterMm, WoundOffMm).Select(p => Plane(value.Limb.Side, p))];
        double left = parts.Min(p => p.Right), right = parts.Max(p => p.Right), down = parts.Min(p => p.Up), up = parts.Max(p => p.Up);
        _scale = (Size - (2 * Margin)) / Math.Max(right - left, up - down);
        (_centreX, _centreY) = ((Size / 2) - (_scale * (left + right) / 2), (Size / 2) + (_scale * (down + up) / 2));
    }

    /// <summary>The drawing of one frame.</summary>
    public string Draw(FrameDrawing frame, string title)
    {
        Svg svg = new(Size, Size);
        svg.Line(_centreX, 20, _centreX, Size - 20, "axis");
        svg.Line(8, _centreY, Size - 8, _centreY, "axis");
        svg.Polygon(Ring(_bone.AtFracture.OuterMm, 0).Select(At), "bone");
        svg.Polygon(Ring(_bone.AtFracture.CanalMm, 0).Select(At), "canal");
        foreach (DrawnRod rod in frame.Rods.Where(r => r.IsCrossLink))
        {
            Stroke(svg, rod.From, rod.To, rod.Part.DiameterMm, "rod link below");
        }

        foreach (DrawnPin pin in Planes(frame))
        {
            Stroke(svg, pin.Tip, pin.Entry, pin.Part.DiameterMm, "pin hidden");
            Stroke(svg, pin.Entry, pin.OuterEnd, pin.Part.DiameterMm, "pin");
        }

        foreach (Wound wound in _case.Wounds.Where(w => w.FromLevelMm <= _bone.Fractures[0].DistalFaceMm && w.ToLevelMm >= _bone.Fractures[0].ProximalFaceMm))
        {
            svg.Polyline(Arc(wound), "wound");
        }

        foreach (DrawnRod rod in frame.Rods.Where(r => !r.IsCrossLink))
        {
            (double x, double y) = At(AtFracture(rod));
            svg.Circle(x, y, Math.Max(3, rod.Part.DiameterMm / 2 * _scale), "rod-end");
        }

        Names(svg, frame);
        return svg.Finish(title, "figure section-figure");
    }

    private void Names(Svg svg, FrameDrawing frame)
    {
        foreach (DrawnPin pin in Planes(frame))
        {
            double off = 14 + (pin.Part.DiameterMm / 2 * _scale);
            (double x1, double y1) = At(pin.Entry);
            (double x2, double y2) = At(pin.OuterEnd);
            double length = Math.Max(1e-6, Math.Sqrt(Math.Pow(x2 - x1, 2) + Math.Pow(y2 - y1, 2)));
            svg.Text(x2 + (off * (x2 - x1) / length), y2 + (off * (y2 - y1) / length) + 4, Numbers.Azimuth(pin.Part.AzimuthDeg), "name", "middle");
        }

        foreach (DrawnRod rod in frame.Rods.Where(r => !r.IsCrossLink))
        {
            (double x, double y) = At(AtFracture(rod));
            double radius = rod.Part.DiameterMm / 2 * _scale;
            bool rightward = x >= _centreX;
            if (radius > RoomForName && rod.Part.Id.Length < 3)
            {
                svg.Text(x, y + 4.5, rod.Part.Id, "name within", "middle");
            }
            else
            {
                svg.Text(x + (rightward ? radius + 6 : -radius - 6), y + 16, rod.Part.Id, "name", rightward ? "start" : "end");
            }
        }

        (string leftWord, string rightWord) = SideWords(_case.Limb.Side);
        svg.Text(_centreX + 14, 14, "anterior", "word");
        svg.Text(_centreX, Size - 6, "posterior", "word", "middle");
        svg.Text(2, _centreY + 21, leftWord, "word");
        svg.Text(Size - 2, _centreY + 21, rightWord, "word", "end");

        // The corner farthest from the word below the bone.
        double bar = ScaleBarMm * _scale, at = _centreX > Size / 2 ? Margin / 2 : Size - (Margin / 2) - bar;
        svg.Line(at, Size - 14, at + bar, Size - 14, "dimension");
        svg.Line(at, Size - 17, at, Size - 11, "dimension");
        svg.Line(at + bar, Size - 17, at + bar, Size - 11, "dimension");
        svg.Text(at + (bar / 2), Size - 20, $"{Numbers.Length(ScaleBarMm)} mm", "label", "middle");
    }

    // Pins of one plane lie behind each other; the one that reaches farthest shows them all.
    private static IEnumerable<DrawnPin> Planes(FrameDrawing frame) =>
        frame.Pins.GroupBy(p => p.Part.AzimuthDeg).Select(g => g.MaxBy(p => Math.Sqrt((p.OuterEnd.XMm * p.OuterEnd.XMm) + (p.OuterEnd.YMm * p.OuterEnd.YMm)))!);

    // Where a rod passes the fracture's level, or its end nearest to it.
    private LimbPoint AtFracture(DrawnRod rod)
    {
        double z = -_bone.AtFracture.LevelMm, rise = rod.To.ZMm - rod.From.ZMm;
        double share = Math.Abs(rise) < 1e-6 ? 0.5 : Math.Clamp((z - rod.From.ZMm) / rise, 0, 1);
        return new(rod.From.XMm + (share * (rod.To.XMm - rod.From.XMm)), rod.From.YMm + (share * (rod.To.YMm - rod.From.YMm)), z);
    }

    private static IEnumerable<LimbPoint> Ring(IReadOnlyList<double> radiiMm, double offMm) => radiiMm.Select((r, i) => Polar(r + offMm, i * 360.0 / radiiMm.Count));

    private IEnumerable<(double X, double Y)> Arc(Wound wound)
    {
        IReadOnlyList<double> outer = _bone.AtFracture.OuterMm;
        double sweep = FrameFigure.Sweep(wound);
        return Enumerable.Range(0, WoundPoints + 1).Select(i => wound.FromAzimuthDeg + (sweep * i / WoundPoints))
            .Select(a => At(Polar(outer[(((int)Math.Round(a * outer.Count / 360) % outer.Count) + outer.Count) % outer.Count] + WoundOffMm, a)));
    }

    private static LimbPoint Polar(double radiusMm, double azimuthDeg)
    {
        (double sin, double cos) = Math.SinCos(azimuthDeg * Math.PI / 180);
        return new(radiusMm * cos, radiusMm * sin, 0);
    }

    private void Stroke(Svg svg, LimbPoint a, LimbPoint b, double diameterMm, string cssClass)
    {
        (double x1, double y1) = At(a);
        (double x2, double y2) = At(b);
        svg.Stroke(x1, y1, x2, y2, Math.Max(2, diameterMm * _scale), cssClass);
    }

    private (double X, double Y) At(LimbPoint p)
    {
        (double right, double up) = Plane(_case.Limb.Side, p);
        return (_centreX + (_scale * right), _centreY - (_scale * up));
    }

    /// <summary>What lies to the reader's left and right.</summary>
    internal static (string Left, string Right) SideWords(Side side) => (View.Front(side).LeftWord, View.Front(side).RightWord);

    /// <summary>A point in the plane of the picture, mm to the reader's right and up: seen from the foot, anterior up.</summary>
    internal static (double Right, double Up) Plane(Side side, LimbPoint p) => (View.Front(side).Right(p), p.XMm);
}
