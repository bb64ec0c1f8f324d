using Halfpin.Anatomy.Sections;

namespace Halfpin.Verification.Models;

/// <summary>
/// Quantities of a section by words: <c>area</c>, <c>centroid x|y</c>, <c>xx</c>, <c>yy</c>, <c>xy</c> (∫x², ∫y², ∫xy about the centroid of the outer
/// outline), <c>max</c>, <c>min</c> (principal), <c>torsion</c>.
/// </summary>
public static class RawSectionReading
{
    /// <summary>Reads a quantity by its words.</summary>
    public static double Read(RawSection section, string quantity)
    {
        (double[] x, double[] y) = Split(section.Outer);
        PolygonProperties p = OutlineIntegration.Polygon(x, y);
        PolygonProperties c = p.AboutCentroid();
        if (section.Inner is { } inner)
        {
            (double[] ix, double[] iy) = Split(inner);
            if (quantity == "torsion")
            {
                return OutlineIntegration.Torsion(x, y, ix, iy);
            }

            PolygonProperties hole = OutlineIntegration.Polygon(ix, iy).AboutCentroid();
            c = c with { AreaMm2 = c.AreaMm2 - hole.AreaMm2, XxMm4 = c.XxMm4 - hole.XxMm4, YyMm4 = c.YyMm4 - hole.YyMm4, XyMm4 = c.XyMm4 - hole.XyMm4 };
        }

        (double max, double min) = new BoneSection(c.AreaMm2, c.XxMm4, c.YyMm4, c.XyMm4, 0).PrincipalMm4();
        return quantity switch
        {
            "area" => c.AreaMm2,
            "centroid x" => p.CentroidXMm,
            "centroid y" => p.CentroidYMm,
            "xx" => c.XxMm4,
            "yy" => c.YyMm4,
            "xy" => c.XyMm4,
            "max" => max,
            "min" => min,
            _ => throw new ArgumentException($"Unknown quantity {quantity}.", nameof(quantity)),
        };
    }

    private static (double[] X, double[] Y) Split(IEnumerable<double> corners)
    {
        double[] all = [.. corners];
        return ([.. all.Where((_, i) => i % 2 == 0)], [.. all.Where((_, i) => i % 2 == 1)]);
    }
}
