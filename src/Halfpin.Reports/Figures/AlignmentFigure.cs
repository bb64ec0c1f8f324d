using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Reports.Words;

namespace Halfpin.Reports.Figures;

/// <summary>A deformity on its two views and square to its own plane, as a drawing of its own.</summary>
public static class AlignmentFigure
{
    private const double Width = 760, Height = 536, PanelWidth = 240, PanelTop = 112, HalfBone = 17, Bone = 118, Edge = 20, FractureY = PanelTop + Bone + 22;
    private const int LettersPerLine = 108, PanelHeight = 342;

    // Shift and length are drawn one to one in picture units and no farther than this, so that the drawing keeps its shape.
    private const double MostDrawn = 45;

    private const string Style = "text{font:13px sans-serif;fill:#1d1d1d}.title{font-weight:bold;font-size:15px}.head{font-weight:bold}.small{font-size:12px;fill:#555}"
        + ".ground{fill:#fff}.panel{fill:none;stroke:#d9d9d9}.bone{fill:#efe6d2;stroke:#8a7a55;stroke-width:1.2}.axis{stroke:#1f5a86;stroke-width:1.6}"
        + ".aim{stroke:#777;stroke-dasharray:4 4}.arc{fill:none;stroke:#b4471f;stroke-width:2}.angle{fill:#b4471f;font-weight:bold}"
        + "@media (prefers-color-scheme:dark){text{fill:#e8e8e8}.small{fill:#b5b5b5}.ground{fill:#16181b}.panel{stroke:#3a3e44}.bone{fill:#4a4437;stroke:#b5a67f}"
        + ".axis{stroke:#7fbbe6}.aim{stroke:#9a9a9a}.arc{stroke:#f08c5f}.angle{fill:#f08c5f}}";

    /// <summary>The drawing. Without a side a right leg is drawn.</summary>
    public static string Draw(AlignmentReport report)
    {
        Side side = report.Side ?? Side.Right;
        AlignmentMeasurement m = report.Measured;
        Svg svg = new(Width, Height);
        string title = $"Alignment, {(report.Side is null ? "drawn as a right leg (no side given)" : Directions.Leg(side))}";
        svg.Rect(0, 0, Width, Height, "ground");
        svg.Text(Edge, 30, title, "title");
        svg.Text(Edge, 52, $"True angle {Deg(report.TrueAngleDeg)} ({Deg(report.TrueAngleRange.Low)} to {Deg(report.TrueAngleRange.High)} with its error)", "word");
        svg.Text(Edge, 71, char.ToUpperInvariant(report.PlaneWords[0]) + report.PlaneWords[1..], "word");
        svg.Text(Edge, 90, Others(m), "small");

        View front = View.Front(side), medial = View.Medial(side);
        Panel(svg, 0, "From the front", front, m, $"{Deg(Math.Abs(m.ApDeg))} {(m.ApDeg >= 0 ? "varus" : "valgus")}");
        Panel(svg, 1, "From the medial side", medial, m, $"{Deg(Math.Abs(m.LateralDeg))} {(m.LateralDeg >= 0 ? "procurvatum" : "recurvatum")}");
        if (report.PlaneAzimuthDeg is double apex)
        {
            View square = new(apex, apex - 90, Directions.Of(apex + 180), Directions.Of(apex));
            Panel(svg, 2, "In the plane of deformity", square, m, $"{Deg(report.TrueAngleDeg)}, apex {Directions.Of(apex)}");
        }
        else
        {
            double left = Left(2);
            svg.Rect(left, PanelTop - 8, PanelWidth - 10, PanelHeight, "panel", 6);
            svg.Text(left + 10, PanelTop + 12, "Plane of deformity", "head");
            svg.Text(left + 10, PanelTop + 40, "Not shown: both angles may be", "word");
            svg.Text(left + 10, PanelTop + 58, "nothing within their error.", "word");
        }

        string[] words = [.. Lines("Not to scale: angles are true, shift and length in picture units. " + report.SafetyNote)];
        for (int i = 0; i < words.Length; i++)
        {
            svg.Text(Edge, PanelTop + PanelHeight + 16 + (17 * i), words[i], "small");
        }

        return svg.FinishAlone(title, Style);
    }

    private static void Panel(Svg svg, int place, string head, View view, AlignmentMeasurement m, string label)
    {
        double left = Left(place), x = left + ((PanelWidth - 10) / 2);
        svg.Rect(left, PanelTop - 8, PanelWidth - 10, PanelHeight, "panel", 6);
        svg.Text(left + 10, PanelTop + 12, head, "head");

        // The distal axis toward the foot, in the view: across to the reader's right for one down.
        double slope = Along(view, -Tan(m.LateralDeg), Tan(m.ApDeg));
        double across = Drawn(Along(view, m.LateralShiftMm ?? 0, m.ApShiftMm ?? 0)), down = Drawn(m.LengthMm ?? 0);
        double length = Math.Sqrt(1 + (slope * slope)), ux = slope / length, uy = 1 / length;
        double startX = x + across, startY = FractureY + down, endX = startX + (Bone * ux), endY = startY + (Bone * uy);
        svg.Polygon([(x - HalfBone - 4, FractureY - Bone + 20), (x + HalfBone + 4, FractureY - Bone + 20), (x + HalfBone, FractureY), (x - HalfBone, FractureY)], "bone");
        svg.Polygon(
            [
                (startX - (HalfBone * uy), startY + (HalfBone * ux)), (startX + (HalfBone * uy), startY - (HalfBone * ux)),
                (endX + ((HalfBone - 3) * uy), endY - ((HalfBone - 3) * ux)), (endX - ((HalfBone - 3) * uy), endY + ((HalfBone - 3) * ux)),
            ], "bone");
        svg.Line(x, FractureY - Bone + 12, x, FractureY, "axis");
        svg.Line(startX, startY, startX, startY + Bone + 6, "aim");
        svg.Line(startX, startY, endX + (8 * ux), endY + (8 * uy), "axis");
        double angle = Math.Atan(slope), radius = Bone - 22;
        if (Math.Abs(angle) > 0.01)
        {
            svg.Polyline(Enumerable.Range(0, 25).Select(i => angle * i / 24).Select(a => (startX + (radius * Math.Sin(a)), startY + (radius * Math.Cos(a)))), "arc");
        }

        double wordsY = PanelTop + PanelHeight - 44;
        svg.Text(x, wordsY, label, "angle", "middle");
        svg.Text(left + 10, wordsY + 22, $"← {view.LeftWord}", "small");
        svg.Text(left + PanelWidth - 20, wordsY + 22, $"{view.RightWord} →", "small", "end");
    }

    private static double Along(View view, double anterior, double medial)
    {
        (double sin, double cos) = Math.SinCos(view.RightAzimuthDeg * Math.PI / 180);
        return (anterior * cos) + (medial * sin);
    }

    private static string Others(AlignmentMeasurement m)
    {
        List<string> all = [];
        if (m.RotationDeg is double rotation)
        {
            all.Add($"rotation {Deg(Math.Abs(rotation))} {(rotation >= 0 ? "external" : "internal")}");
        }

        if (m is { ApShiftMm: double ap, LateralShiftMm: double lateral })
        {
            all.Add($"distal end {Mm(Math.Abs(ap))} {(ap >= 0 ? "medial" : "lateral")} and {Mm(Math.Abs(lateral))} {(lateral >= 0 ? "anterior" : "posterior")}");
        }

        if (m.LengthMm is double length)
        {
            all.Add($"{Mm(Math.Abs(length))} {(length < 0 ? "short" : "long")}");
        }

        return all.Count == 0 ? "Rotation, shift and length not given." : $"Not in the angles: {string.Join("; ", all)}.";
    }

    private static IEnumerable<string> Lines(string text)
    {
        string line = "";
        foreach (string word in text.Split(' '))
        {
            if (line.Length + word.Length >= LettersPerLine)
            {
                yield return line;
                line = "";
            }

            line += (line.Length > 0 ? " " : "") + word;
        }

        yield return line;
    }

    private static double Left(int place) => Edge + (place * PanelWidth);

    private static double Drawn(double mm) => Math.Clamp(mm, -MostDrawn, MostDrawn);

    private static double Tan(double deg) => Math.Tan(deg * Math.PI / 180);

    private static string Deg(double value) => value.ToString("0.0", CultureInfo.InvariantCulture) + "°";

    private static string Mm(double value) => value.ToString("0.#", CultureInfo.InvariantCulture) + " mm";
}
