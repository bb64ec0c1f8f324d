using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Words;

namespace Halfpin.Reports.Figures;

/// <summary>
/// Bending stiffness by direction, seen from the foot with anterior up: the distance to the curve is the stiffness in that bending
/// plane. The bone's outline in the middle is there for orientation.
/// </summary>
public static class RoseFigure
{
    private const double Size = 380;
    private const double Radius = 140;
    private const double BoneShare = 0.22;

    // A label this near to the word of an axis gives way to it.
    private const double CrowdedDeg = 16;
    private const double LabelRoom = 54;

    public static string Draw(Case value, BoneDrawing bone, BendingRose rose, double scaleNmPerDeg, string title)
    {
        Svg svg = new(Size, Size);
        double c = Size / 2;
        (double X, double Y) At(double r, double azimuthDeg)
        {
            (double sin, double cos) = Math.SinCos(azimuthDeg * Math.PI / 180);
            (double right, double up) = SectionFigure.Plane(value.Limb.Side, new(r * cos, r * sin, 0));
            return (c + right, c - up);
        }

        svg.Line(c - Radius, c, c + Radius, c, "axis");
        svg.Line(c, c - Radius, c, c + Radius, "axis");
        svg.Circle(c, c, Radius, "ring");
        svg.Circle(c, c, Radius / 2, "ring");
        ImmutableArray<double> outer = bone.AtFracture.OuterMm;
        double perMm = BoneShare * Radius / outer.Max();
        svg.Polygon(outer.Select((r, i) => At(r * perMm, i * 360.0 / outer.Length)), "bone faint");
        ImmutableArray<double> half = rose.NmPerDegEvery5Deg;
        svg.Polygon(Enumerable.Range(0, 2 * half.Length).Select(i => At(Radius * half[i % half.Length] / scaleNmPerDeg, 5.0 * i)), "rose");
        (double x1, double y1) = At(Radius + 6, rose.WeakAzimuthDeg);
        (double x2, double y2) = At(-Radius - 6, rose.WeakAzimuthDeg);
        svg.Line(x1, y1, x2, y2, "weak");
        (string leftWord, string rightWord) = SectionFigure.SideWords(value.Limb.Side);
        svg.Text(c, c - Radius - 10, "anterior", "word", "middle");
        svg.Text(c, c + Radius + 20, "posterior", "word", "middle");
        svg.Text(2, c - 5, leftWord, "word");
        svg.Text(Size - 2, c - 5, rightWord, "word", "end");
        svg.Text(c + 4, c - Radius + 15, $"{Numbers.Length(scaleNmPerDeg)} N·m/deg", "label");
        svg.Text(c + 4, c - (Radius / 2) + 15, Numbers.Length(scaleNmPerDeg / 2), "label");
        WeakName(svg, rose.WeakAzimuthDeg, At);
        return svg.Finish(title, "figure rose-figure");
    }

    private static void WeakName(Svg svg, double azimuthDeg, Func<double, double, (double X, double Y)> at)
    {
        double fromAxis = Math.IEEERemainder(azimuthDeg, 90);
        double clear = Math.Abs(fromAxis) >= CrowdedDeg ? azimuthDeg : azimuthDeg - fromAxis + (fromAxis < 0 ? -CrowdedDeg : CrowdedDeg);
        (double x, double y) = at(Radius + 12, clear);
        bool right = x > Size / 2;

        // Beside the ring where there is room, else flush with the edge of the figure.
        (double beside, string anchor) = right ? (Math.Min(x, Size - LabelRoom), "start") : (Math.Max(x, LabelRoom), "end");
        svg.Text(beside, y + (y < Size / 2 ? -14 : 16), "weakest", "weak-name", anchor);
        svg.Text(beside, y + (y < Size / 2 ? 1 : 31), Numbers.Azimuth(azimuthDeg), "weak-name", anchor);
    }
}
