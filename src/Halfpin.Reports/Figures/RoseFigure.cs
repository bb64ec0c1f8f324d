using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;

namespace Halfpin.Reports.Figures;

/// <summary>
/// The bone's section at the fracture seen from proximal, anterior up, with the pins' directions and, round it, bending
/// stiffness by direction: the distance to the curve is the stiffness in that bending plane.
/// </summary>
internal static class RoseFigure
{
    private const double Size = 240;
    private const double Radius = 92;
    private const double SectionShare = 0.3;

    // A wound is an arc this far out from the bone's farthest corner.
    private const double WoundShare = 1.12;
    private const int WoundPoints = 24;

    public static string Draw(Case value, BoneDrawing bone, FrameDrawing frame, FrameAssessment assessment, double scaleNmPerDeg)
    {
        Svg svg = new(Size, Size);
        double c = Size / 2;

        // Seen from proximal with anterior up, medial lies to the left of a right limb and to the right of a left one.
        double medial = value.Limb.Side == Side.Right ? -1 : 1;
        (double X, double Y) At(double r, double azimuthDeg)
        {
            (double sin, double cos) = Math.SinCos(azimuthDeg * Math.PI / 180);
            return (c + (medial * r * sin), c - (r * cos));
        }

        svg.Circle(c, c, Radius, "ring");
        svg.Circle(c, c, Radius / 2, "ring");
        svg.Text(c + 3, c - Radius + 11, scaleNmPerDeg.ToString("0", CultureInfo.InvariantCulture), "label");
        foreach ((string name, double azimuth) in new[] { ("ant", 0.0), ("med", 90.0), ("post", 180.0), ("lat", -90.0) })
        {
            (double x, double y) = At(Radius + 14, azimuth);
            svg.Text(x, y + 4, name, "label", "middle");
        }

        double largest = bone.AtFracture.OuterMm.Max();
        double perMm = SectionShare * Radius / largest;
        foreach (DrawnPin pin in frame.Pins.DistinctBy(p => p.AzimuthDeg))
        {
            (double x1, double y1) = At(-largest * perMm, pin.AzimuthDeg);
            (double x2, double y2) = At(Radius * 0.62, pin.AzimuthDeg);
            svg.Stroke(x1, y1, x2, y2, 2, "pin");
        }

        svg.Polygon(Ring(bone.AtFracture.OuterMm, perMm, At), "bone");
        svg.Polygon(Ring(bone.AtFracture.CanalMm, perMm, At), "canal");
        foreach (Wound wound in value.Wounds.Where(w => w.FromLevelMm <= bone.DistalFaceMm && w.ToLevelMm >= bone.ProximalFaceMm))
        {
            double sweep = ((wound.ToAzimuthDeg - wound.FromAzimuthDeg) % 360 + 360) % 360;
            svg.Polyline(Enumerable.Range(0, WoundPoints + 1).Select(i => At(largest * perMm * WoundShare, wound.FromAzimuthDeg + (sweep * i / WoundPoints))), "wound");
        }

        if (assessment.BendingRose is BendingRose rose)
        {
            ImmutableArray<double> half = rose.NmPerDegEvery5Deg;
            svg.Polygon(Enumerable.Range(0, 2 * half.Length).Select(i => At(Radius * half[i % half.Length] / scaleNmPerDeg, 5.0 * i)), "rose");
            double weak = Radius * rose.WeakNmPerDeg / scaleNmPerDeg;
            (double x1, double y1) = At(weak, rose.WeakAzimuthDeg);
            (double x2, double y2) = At(-weak, rose.WeakAzimuthDeg);
            svg.Line(x1, y1, x2, y2, "weak");
        }

        return svg.Finish(
            $"{assessment.Name}: bending stiffness by direction" + (assessment.BendingRose is BendingRose r
                ? string.Create(CultureInfo.InvariantCulture, $", weakest {r.WeakNmPerDeg:0.0} newton metres per degree at {r.WeakAzimuthDeg:0} degrees") : ""),
            "figure rose-figure");
    }

    private static IEnumerable<(double X, double Y)> Ring(ImmutableArray<double> radii, double perMm, Func<double, double, (double X, double Y)> at) =>
        radii.Select((r, i) => at(r * perMm, i * 360.0 / radii.Length));
}
