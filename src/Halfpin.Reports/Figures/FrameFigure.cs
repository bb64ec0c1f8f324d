using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;

namespace Halfpin.Reports.Figures;

/// <summary>A frame seen square to its first pins, proximal up: bone, fracture, pins, rods, clamps and the main dimensions.</summary>
internal static class FrameFigure
{
    private const double Width = 260, Height = 520;
    private const double MarginMm = 14;

    // A second plane is seen best when the eye stands a little round toward it.
    private const double TowardSecondPlane = 0.1;

    public static string Draw(Case value, BoneDrawing bone, FrameDrawing frame, string name)
    {
        View view = View.Of(bone, frame, Width, Height, MarginMm);
        Svg svg = new(Width, Height);
        Fracture fracture = value.Fractures[0];
        Bone(svg, view, bone, fracture);
        foreach (DrawnPin pin in frame.Pins)
        {
            Stroke(svg, view, pin.Tip, pin.Entry, pin.DiameterMm, "pin hidden");
        }

        foreach (DrawnRod rod in frame.Rods.OrderBy(r => view.Depth(r.From) + view.Depth(r.To)))
        {
            Stroke(svg, view, rod.From, rod.To, rod.DiameterMm, rod.IsLink ? "rod link" : "rod");
        }

        foreach (DrawnPin pin in frame.Pins)
        {
            Stroke(svg, view, pin.Entry, pin.OuterEnd, pin.DiameterMm, "pin");
        }

        foreach (DrawnClamp clamp in frame.Clamps)
        {
            (double x, double y) = view.At(clamp.OnRod);
            double half = 9 * view.Scale;
            svg.Rect(x - half, y - half, 2 * half, 2 * half, clamp.IsLoose ? "clamp loose" : "clamp", 2);
        }

        Dimensions(svg, view, bone, frame);
        return svg.Finish($"{name}: drawing of the frame on the bone, proximal end up", "figure frame");
    }

    private static void Bone(Svg svg, View view, BoneDrawing bone, Fracture fracture)
    {
        double slope = -Math.Tan(fracture.TiltDeg * Math.PI / 180) * Math.Cos((fracture.TiltAzimuthDeg - view.AzimuthDeg) * Math.PI / 180);
        (double Left, double Right, double Level)[] edges = [.. bone.Outlines.Select(view.Edges)];
        foreach (bool proximal in new[] { true, false })
        {
            double face = proximal ? bone.ProximalFaceMm : bone.DistalFaceMm;
            (double left, double right, _) = view.Edges(bone.AtFracture);
            double faceLeft = face - (slope * left), faceRight = face - (slope * right);
            List<(double, double)> outline = [];
            IEnumerable<(double Left, double Right, double Level)> own = edges.Where(e => proximal ? e.Level < Math.Min(faceLeft, faceRight) : e.Level > Math.Max(faceLeft, faceRight));
            (double Left, double Right, double Level)[] rows = [.. own];
            outline.AddRange(rows.Select(e => view.At(e.Left, e.Level)));
            IEnumerable<(double, double)> back = rows.Reverse().Select(e => view.At(e.Right, e.Level));
            (double, double)[] end = [view.At(left, faceLeft), view.At(right, faceRight)];
            svg.Polygon(proximal ? [.. outline, .. end, .. back] : [.. end.Reverse(), .. back.Reverse(), .. outline.AsEnumerable().Reverse()], "bone");
        }
    }

    private static void Stroke(Svg svg, View view, LimbPoint a, LimbPoint b, double diameterMm, string cssClass)
    {
        (double x1, double y1) = view.At(a);
        (double x2, double y2) = view.At(b);
        svg.Stroke(x1, y1, x2, y2, Math.Max(1.5, diameterMm * view.Scale), cssClass);
    }

    private static void Dimensions(Svg svg, View view, BoneDrawing bone, FrameDrawing frame)
    {
        DrawnRod[] rods = [.. frame.Rods.Where(r => !r.IsLink)];
        DrawnPin? lowest = frame.Pins.Where(p => Math.Abs(p.AzimuthDeg - frame.Pins[0].AzimuthDeg) < 1).MaxBy(p => p.LevelMm);
        if (lowest is null || rods.Length == 0)
        {
            return;
        }

        DrawnClamp? clamp = frame.Clamps.Where(c => Math.Abs(c.OnMember.ZMm - lowest.Entry.ZMm) < 8).MinBy(c => Distance(c.OnRod, lowest.Entry));
        if (clamp is not null)
        {
            (double x1, double y1) = view.At(lowest.Entry);
            (double x2, _) = view.At(clamp.OnRod);
            double y = y1 + (24 * view.Scale);
            Measure(svg, x1, y, x2, y, $"{Distance(clamp.OnRod, lowest.Entry).ToString("0", CultureInfo.InvariantCulture)} mm");
        }

        foreach (bool near in new[] { true, false })
        {
            DrawnPin[] proximal = [.. frame.Pins.Where(p => p.LevelMm < bone.ProximalFaceMm && Math.Abs(p.AzimuthDeg - frame.Pins[0].AzimuthDeg) < 1)];
            if (proximal.Length > 0)
            {
                DrawnPin pin = near ? proximal.MaxBy(p => p.LevelMm)! : proximal.MinBy(p => p.LevelMm)!;
                (double x, double y) = view.At(pin.Tip);
                double face = view.At(0, bone.ProximalFaceMm).Y, at = Math.Min(x, view.LeftEdge(bone)) - (near ? 10 : 30) + 4;
                Measure(svg, at, y, at, face, $"{(bone.ProximalFaceMm - pin.LevelMm).ToString("0", CultureInfo.InvariantCulture)}");
            }
        }
    }

    private static void Measure(Svg svg, double x1, double y1, double x2, double y2, string text)
    {
        bool level = Math.Abs(y1 - y2) < 0.1;
        svg.Line(x1, y1, x2, y2, "dimension");
        (double dx, double dy) = level ? (0, 3) : (3, 0);
        svg.Line(x1 - dx, y1 - dy, x1 + dx, y1 + dy, "dimension");
        svg.Line(x2 - dx, y2 - dy, x2 + dx, y2 + dy, "dimension");
        if (level)
        {
            svg.Text((x1 + x2) / 2, y1 + 13, text, "label", "middle");
        }
        else
        {
            svg.Text(x1 - 4, ((y1 + y2) / 2) + 4, text, "label", "end");
        }
    }

    private static double Distance(LimbPoint a, LimbPoint b) =>
        Math.Sqrt(Math.Pow(a.XMm - b.XMm, 2) + Math.Pow(a.YMm - b.YMm, 2) + Math.Pow(a.ZMm - b.ZMm, 2));

    /// <summary>A parallel projection: horizontal axis along an azimuth, vertical axis along the bone.</summary>
    private sealed record View(double AzimuthDeg, double Scale, double OriginX, double OriginY)
    {
        public static View Of(BoneDrawing bone, FrameDrawing frame, double width, double height, double marginMm)
        {
            double first = frame.Pins[0].AzimuthDeg;
            double second = frame.Pins.Select(p => p.AzimuthDeg).MaxBy(a => Math.Abs(Math.IEEERemainder(a - first, 360)));
            double azimuth = first + (TowardSecondPlane * Math.IEEERemainder(second - first, 360));
            View unit = new(azimuth, 1, 0, 0);
            double left = bone.Outlines.Min(o => unit.Edges(o).Left) - 34;
            double right = frame.Rods.SelectMany(r => new[] { r.From, r.To }).Concat(frame.Pins.Select(p => p.OuterEnd)).Max(p => unit.At(p).X) + marginMm;
            double scale = Math.Min(width / (right - left), height / (bone.LengthMm + (2 * marginMm)));
            return new(azimuth, scale, (width / 2) - (scale * (left + right) / 2), (height - (scale * bone.LengthMm)) / 2);
        }

        public (double X, double Y) At(double horizontalMm, double levelMm) => (OriginX + (Scale * horizontalMm), OriginY + (Scale * levelMm));

        public (double X, double Y) At(LimbPoint p)
        {
            (double sin, double cos) = Math.SinCos(AzimuthDeg * Math.PI / 180);
            return At((p.XMm * cos) + (p.YMm * sin), -p.ZMm);
        }

        public double Depth(LimbPoint p)
        {
            (double sin, double cos) = Math.SinCos(AzimuthDeg * Math.PI / 180);
            return (p.YMm * cos) - (p.XMm * sin);
        }

        public (double Left, double Right, double Level) Edges(BoneOutline outline)
        {
            double left = 0, right = 0;
            int n = outline.OuterMm.Length;
            for (int i = 0; i < n; i++)
            {
                double h = outline.OuterMm[i] * Math.Cos((i * 2 * Math.PI / n) - (AzimuthDeg * Math.PI / 180));
                left = Math.Min(left, h);
                right = Math.Max(right, h);
            }

            return (left, right, outline.LevelMm);
        }

        public double LeftEdge(BoneDrawing bone) => At(Edges(bone.AtFracture).Left, 0).X;
    }
}
