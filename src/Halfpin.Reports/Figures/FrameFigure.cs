using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Words;

namespace Halfpin.Reports.Figures;

/// <summary>
/// A frame in one view, proximal up: bone, fracture, wounds, pins, rods and clamps with their names, and how far the pins of one
/// plane stand from the fracture's edges.
/// </summary>
internal sealed class FrameFigure
{
    /// <summary>Height of every view; levels lie at the same height in all of them.</summary>
    public const double Height = 560;

    private const double ScaleMargin = 44;
    private const double WordRoom = 30, SideRoom = 26, DimensionRoom = 94, LeastWidth = 180;
    private const double ClampMm = 15;
    private const int WoundPoints = 12;

    private readonly Case _case;
    private readonly BoneDrawing _bone;
    private readonly FrameDrawing _frame;
    private readonly View _view;
    private readonly DrawnPin[] _sized;
    private readonly bool _sizesLeft;
    private readonly double _scale, _axisX;
    private readonly Svg _svg;

    private FrameFigure(Case value, BoneDrawing bone, FrameDrawing frame, View view, DrawnPin[] sized, double leastWidth)
    {
        (_case, _bone, _frame, _view, _sized) = (value, bone, frame, view, sized);
        _scale = (Height - WordRoom - ScaleMargin) / bone.LengthMm;
        double[] parts = [.. frame.Rods.SelectMany(r => new[] { r.From, r.To }).Concat(frame.Pins.Select(p => p.OuterEnd)).Select(view.Right)];
        double left = Math.Min(bone.Outlines.Min(o => view.Edges(o).Left), parts.DefaultIfEmpty(0).Min());
        double right = Math.Max(bone.Outlines.Max(o => view.Edges(o).Right), parts.DefaultIfEmpty(0).Max());

        // Sizes stand on the side that the frame leaves free.
        _sizesLeft = parts.DefaultIfEmpty(0).Average() >= 0;
        double roomLeft = sized.Length > 0 && _sizesLeft ? DimensionRoom : SideRoom, roomRight = sized.Length > 0 && !_sizesLeft ? DimensionRoom : SideRoom;
        double width = ((right - left) * _scale) + roomLeft + roomRight;
        double spare = Math.Max(0, leastWidth - width);
        Width = width + spare;
        _axisX = roomLeft + (spare / 2) - (left * _scale);
        _svg = new(Width, Height);
    }

    /// <summary>Width in the same units as <see cref="Height"/>.</summary>
    public double Width { get; }

    /// <summary>
    /// Two views of each frame: from the front with the sizes of the first plane of pins, from the medial side with those of the
    /// second. Each view is equally wide for all frames, so that a page draws them all to one scale.
    /// </summary>
    public static ImmutableArray<(FrameFigure Front, FrameFigure Medial)> Of(Case value, BoneDrawing bone, ImmutableArray<FrameDrawing> frames)
    {
        FrameFigure Front(FrameDrawing frame, double least) => new(value, bone, frame, View.Front(value.Limb.Side), Plane(frame, 0), least);
        FrameFigure Medial(FrameDrawing frame, double least) => new(value, bone, frame, View.Medial(value.Limb.Side), Plane(frame, 1), least);
        double front = frames.Max(f => Front(f, LeastWidth).Width), medial = frames.Max(f => Medial(f, LeastWidth).Width);
        return [.. frames.Select(f => (Front(f, front), Medial(f, medial)))];
    }

    private static DrawnPin[] Plane(FrameDrawing frame, int plane)
    {
        double[] azimuths = [.. frame.Pins.Select(p => p.Part.AzimuthDeg).Distinct()];
        return plane < azimuths.Length ? [.. frame.Pins.Where(p => p.Part.AzimuthDeg == azimuths[plane])] : [];
    }

    /// <summary>The drawing.</summary>
    /// <param name="title">What it shows, for those who cannot see it.</param>
    public string Draw(string title)
    {
        (double Toward, Action Draw)[] parts = [.. Parts().OrderBy(p => p.Toward)];
        foreach ((double _, Action draw) in parts.Where(p => p.Toward < 0))
        {
            draw();
        }

        Bone();
        foreach (DrawnPin pin in _frame.Pins)
        {
            Stroke(pin.Tip, pin.Entry, pin.Part.DiameterMm, "pin hidden");
        }

        Wounds();
        foreach ((double _, Action draw) in parts.Where(p => p.Toward >= 0))
        {
            draw();
        }

        Names();
        Sizes();
        _svg.Text(6, Height - 8, _view.LeftWord, "word");
        _svg.Text(Width - 6, Height - 8, _view.RightWord, "word", "end");
        return _svg.Finish(title, "figure frame");
    }

    private IEnumerable<(double Toward, Action Draw)> Parts()
    {
        foreach (DrawnPin pin in _frame.Pins)
        {
            yield return (Middle(pin.Entry, pin.OuterEnd), () => Stroke(pin.Entry, pin.OuterEnd, pin.Part.DiameterMm, "pin"));
        }

        foreach (DrawnRod rod in _frame.Rods)
        {
            yield return (Middle(rod.From, rod.To), () => Stroke(rod.From, rod.To, rod.Part.DiameterMm, rod.IsCrossLink ? "rod link" : "rod"));
        }

        // A clamp hides the rod it holds, whichever is nearer.
        const double Over = 8;
        double half = ClampMm / 2 * _scale;
        foreach (DrawnClamp clamp in _frame.Clamps)
        {
            (double x, double y) = At(clamp.OnRod);
            yield return (_view.Toward(clamp.OnRod) + Over, () => _svg.Rect(x - half, y - half, 2 * half, 2 * half, clamp.Part.State == ClampState.Loose ? "clamp loose" : "clamp", 3));
        }
    }

    private void Bone()
    {
        // Fragments from proximal, each between the distal face of the fracture above it and the proximal face of the one below.
        for (int fragment = 0; fragment <= _bone.Fractures.Length; fragment++)
        {
            Face? above = fragment > 0 ? FaceOf(fragment - 1, _bone.Fractures[fragment - 1].DistalFaceMm) : null;
            Face? below = fragment < _bone.Fractures.Length ? FaceOf(fragment, _bone.Fractures[fragment].ProximalFaceMm) : null;
            BoneOutline[] rows = [.. _bone.Outlines.Where(o => !(o.LevelMm <= above?.LowestMm) && !(o.LevelMm >= below?.HighestMm))];
            _svg.Polygon(
                [
                    .. above is Face a ? [At(a.Left, a.LeftMm)] : Array.Empty<(double, double)>(),
                    .. rows.Select(o => At(_view.Edges(o).Left, o.LevelMm)),
                    .. below is Face b ? [At(b.Left, b.LeftMm), At(b.Right, b.RightMm)] : Array.Empty<(double, double)>(),
                    .. rows.Reverse().Select(o => At(_view.Edges(o).Right, o.LevelMm)),
                    .. above is Face c ? [At(c.Right, c.RightMm)] : Array.Empty<(double, double)>(),
                ],
                "bone");
        }
    }

    // A face as a line across the view. Its plane slopes down, distally, toward the fracture's tilt azimuth.
    private Face FaceOf(int number, double levelMm)
    {
        Fracture fracture = _case.Fractures[number];
        double slope = Math.Tan(fracture.TiltDeg * Math.PI / 180) * Math.Cos((fracture.TiltAzimuthDeg - _view.RightAzimuthDeg) * Math.PI / 180);
        (double left, double right) = _view.Edges(_bone.Fractures[number].Outline);
        return new(left, right, levelMm + (slope * left), levelMm + (slope * right));
    }

    private void Wounds()
    {
        foreach (Wound wound in _case.Wounds)
        {
            double sweep = Sweep(wound);
            double[] seen = [.. Enumerable.Range(0, WoundPoints + 1).Select(i => wound.FromAzimuthDeg + (sweep * i / WoundPoints)).Where(a => Math.Cos((a - _view.TowardAzimuthDeg) * Math.PI / 180) > 0)];
            if (seen.Length > 1)
            {
                (double, double)[] Edge(double levelMm) => [.. seen.Select(a => At(Surface(levelMm, a) * Math.Cos((a - _view.RightAzimuthDeg) * Math.PI / 180), levelMm))];
                _svg.Polygon([.. Edge(wound.FromLevelMm), .. Edge(wound.ToLevelMm).Reverse()], "wound-area");
            }
        }
    }

    private void Names()
    {
        const double Off = 15;
        foreach (DrawnPin pin in _frame.Pins)
        {
            (double x, double y) = At(pin.OuterEnd);
            (double entryX, double entryY) = At(pin.Entry);
            double length = Math.Max(1e-6, Math.Sqrt(Math.Pow(x - entryX, 2) + Math.Pow(y - entryY, 2)));

            // Seen nearly end-on, a pin hides behind its clamps: its name stands beside them, away from the sizes.
            double beside = (ClampMm / 2 * _scale) + Off;
            (double dx, double dy) = length < 2 * Off ? (_sizesLeft ? beside : -beside, 0) : (Off * (x - entryX) / length, Off * (y - entryY) / length);
            _svg.Text(x + dx, y + dy + 4, pin.Part.Id, "name", "middle");
        }

        foreach (DrawnRod rod in _frame.Rods)
        {
            (double x1, double y1) = At(rod.From);
            (double x2, double y2) = At(rod.To);
            if (rod.IsCrossLink)
            {
                _svg.Text((x1 + x2) / 2, Math.Min(y1, y2) - 9, rod.Part.Id, "name", "middle");
            }
            else
            {
                _svg.Text(y1 < y2 ? x1 : x2, Math.Min(y1, y2) - 9, rod.Part.Id, "name", "middle");
            }
        }
    }

    private void Sizes()
    {
        foreach (bool proximal in new[] { true, false })
        {
            double faceMm = proximal ? _bone.ProximalFaceMm : _bone.DistalFaceMm;
            double[] distances = [.. _sized.Where(p => proximal ? p.Part.LevelMm < faceMm : p.Part.LevelMm > faceMm).Select(p => Math.Abs(faceMm - p.Part.LevelMm)).Order()];
            if (distances.Length == 0)
            {
                continue;
            }

            // Nearest and farthest, each on a line of its own.
            double[] ends = distances.Length == 1 ? [distances[0]] : [distances[0], distances[^1]];
            for (int i = 0; i < ends.Length; i++)
            {
                double level = proximal ? faceMm - ends[i] : faceMm + ends[i];
                (double left, double right) = _view.Edges(_bone.Outlines.MinBy(o => Math.Abs(o.LevelMm - level))!);
                (double fractureLeft, double fractureRight) = _view.Edges(_bone.Fractures[proximal ? 0 : ^1].Outline);
                double edge = _sizesLeft ? Math.Min(left, fractureLeft) : Math.Max(right, fractureRight), off = 10 + (42 * i);
                double x = At(edge, 0).X + (_sizesLeft ? -off : off);
                Measure(x, At(0, level).Y, At(0, faceMm).Y, Numbers.Length(ends[i]));
            }
        }
    }

    private void Measure(double x, double y1, double y2, string text)
    {
        _svg.Line(x, y1, x, y2, "dimension");
        _svg.Line(x - 3, y1, x + 3, y1, "dimension");
        _svg.Line(x - 3, y2, x + 3, y2, "dimension");
        _svg.Text(x + (_sizesLeft ? -4 : 4), ((y1 + y2) / 2) + 4, text, "label", _sizesLeft ? "end" : "start");
    }

    private void Stroke(LimbPoint a, LimbPoint b, double diameterMm, string cssClass)
    {
        (double x1, double y1) = At(a);
        (double x2, double y2) = At(b);
        _svg.Stroke(x1, y1, x2, y2, Math.Max(2, diameterMm * _scale), cssClass);
    }

    private double Surface(double levelMm, double azimuthDeg)
    {
        BoneOutline outline = _bone.Outlines.MinBy(o => Math.Abs(o.LevelMm - levelMm))!;
        int n = outline.OuterMm.Length;
        return outline.OuterMm[(((int)Math.Round(azimuthDeg * n / 360) % n) + n) % n];
    }

    private double Middle(LimbPoint a, LimbPoint b) => (_view.Toward(a) + _view.Toward(b)) / 2;

    private (double X, double Y) At(LimbPoint p) => At(_view.Right(p), -p.ZMm);

    private (double X, double Y) At(double rightMm, double levelMm) => (_axisX + (_scale * rightMm), (ScaleMargin / 2) + (_scale * levelMm));

    private readonly record struct Face(double Left, double Right, double LeftMm, double RightMm)
    {
        public double HighestMm => Math.Min(LeftMm, RightMm);

        public double LowestMm => Math.Max(LeftMm, RightMm);
    }

    /// <summary>Degrees from a wound's first edge to its second with rising azimuth.</summary>
    internal static double Sweep(Wound wound) => (((wound.ToAzimuthDeg - wound.FromAzimuthDeg) % 360) + 360) % 360;
}
