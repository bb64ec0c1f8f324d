using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;

namespace Halfpin.Reports.Figures;

/// <summary>
/// A view square to the bone's axis, proximal up: which azimuth points to the reader's right and which toward the reader.
/// </summary>
/// <remarks>
/// Limb axes are those of a right limb. A left limb is its mirror image, so that what points to the reader's right changes sign:
/// seen from the front, medial lies to the right of a right leg's picture and to the left of a left leg's.
/// </remarks>
/// <param name="RightAzimuthDeg">Azimuth that points to the reader's right.</param>
/// <param name="TowardAzimuthDeg">Azimuth that points toward the reader.</param>
/// <param name="LeftWord">What lies to the reader's left.</param>
/// <param name="RightWord">What lies to the reader's right.</param>
internal sealed record View(double RightAzimuthDeg, double TowardAzimuthDeg, string LeftWord, string RightWord)
{
    /// <summary>Seen from the front.</summary>
    public static View Front(Side side) => side == Side.Right ? new(90, 0, "lateral", "medial") : new(-90, 0, "medial", "lateral");

    /// <summary>Seen from the medial side.</summary>
    public static View Medial(Side side) => side == Side.Right ? new(180, 90, "anterior", "posterior") : new(0, 90, "posterior", "anterior");

    /// <summary>Distance to the reader's right of the bone's axis, mm.</summary>
    public double Right(LimbPoint p) => Along(p, RightAzimuthDeg);

    /// <summary>Distance from the bone's axis toward the reader, mm.</summary>
    public double Toward(LimbPoint p) => Along(p, TowardAzimuthDeg);

    /// <summary>The bone's outline at a level: its edges to the reader's left (negative) and right, mm.</summary>
    public (double Left, double Right) Edges(BoneOutline outline)
    {
        int n = outline.OuterMm.Length;
        double[] across = [.. outline.OuterMm.Select((r, i) => r * Math.Cos(((i * 360.0 / n) - RightAzimuthDeg) * Math.PI / 180))];
        return (across.Min(), across.Max());
    }

    private static double Along(LimbPoint p, double azimuthDeg)
    {
        (double sin, double cos) = Math.SinCos(azimuthDeg * Math.PI / 180);
        return (p.XMm * cos) + (p.YMm * sin);
    }
}
