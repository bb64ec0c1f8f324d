namespace Halfpin.Anatomy.Sections;

/// <summary>Properties of an outline given as a closed polygon.</summary>
/// <param name="AreaMm2">Enclosed area; positive when the corners run anticlockwise.</param>
/// <param name="CentroidXMm">Centroid.</param>
/// <param name="CentroidYMm">Centroid.</param>
/// <param name="XxMm4">∫x²dA about the origin.</param>
/// <param name="YyMm4">∫y²dA about the origin.</param>
/// <param name="XyMm4">∫xy dA about the origin.</param>
public readonly record struct PolygonProperties(
    double AreaMm2, double CentroidXMm, double CentroidYMm, double XxMm4, double YyMm4, double XyMm4)
{
    /// <summary>The same with the second moments about the centroid.</summary>
    public PolygonProperties AboutCentroid() => this with
    {
        XxMm4 = XxMm4 - (AreaMm2 * CentroidXMm * CentroidXMm),
        YyMm4 = YyMm4 - (AreaMm2 * CentroidYMm * CentroidYMm),
        XyMm4 = XyMm4 - (AreaMm2 * CentroidXMm * CentroidYMm),
    };
}

/// <summary>Section properties from outlines.</summary>
public static class OutlineIntegration
{
    /// <summary>
    /// Area, centroid and second moments of a polygon by the boundary sums that follow from Green's theorem, with
    /// c = xᵢyᵢ₊₁ − xᵢ₊₁yᵢ: A = ½Σc, ∫x² = Σc(xᵢ² + xᵢxᵢ₊₁ + xᵢ₊₁²)/12, ∫xy = Σc(2xᵢyᵢ + xᵢyᵢ₊₁ + xᵢ₊₁yᵢ + 2xᵢ₊₁yᵢ₊₁)/24.
    /// Exact for the polygon.
    /// </summary>
    /// <param name="x">Corners, mm, anticlockwise, at least three; the last joins the first.</param>
    /// <param name="y">Corners, mm.</param>
    public static PolygonProperties Polygon(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        double a = 0, sx = 0, sy = 0, xx = 0, yy = 0, xy = 0;
        for (int i = 0; i < x.Length; i++)
        {
            int j = i + 1 == x.Length ? 0 : i + 1;
            double c = (x[i] * y[j]) - (x[j] * y[i]);
            a += c;
            sx += c * (x[i] + x[j]);
            sy += c * (y[i] + y[j]);
            xx += c * ((x[i] * x[i]) + (x[i] * x[j]) + (x[j] * x[j]));
            yy += c * ((y[i] * y[i]) + (y[i] * y[j]) + (y[j] * y[j]));
            xy += c * ((2 * x[i] * y[i]) + (x[i] * y[j]) + (x[j] * y[i]) + (2 * x[j] * y[j]));
        }

        return new(a / 2, sx / (3 * a), sy / (3 * a), xx / 12, yy / 12, xy / 24);
    }

    /// <summary>
    /// Torsion constant of a hollow section between two outlines with the same number of corners, corner i facing corner i.
    /// </summary>
    /// <remarks>
    /// Bredt's second formula on the line midway in the wall, 4A²/∮ds/t (Timoshenko and Goodier, Theory of Elasticity, 3rd ed., art. 115),
    /// plus ¼∮t³ds for the wall's own twist. The addition is of higher order in t and makes the sum exact for a round tube of
    /// any wall thickness; a free strip would have ⅓.
    /// </remarks>
    public static double Torsion(ReadOnlySpan<double> outerX, ReadOnlySpan<double> outerY, ReadOnlySpan<double> innerX, ReadOnlySpan<double> innerY)
    {
        double doubleArea = 0, flow = 0, wall = 0;
        for (int i = 0; i < outerX.Length; i++)
        {
            int j = i + 1 == outerX.Length ? 0 : i + 1;
            double xi = (outerX[i] + innerX[i]) / 2, yi = (outerY[i] + innerY[i]) / 2;
            double xj = (outerX[j] + innerX[j]) / 2, yj = (outerY[j] + innerY[j]) / 2;
            double ds = Math.Sqrt(((xj - xi) * (xj - xi)) + ((yj - yi) * (yj - yi)));

            // Wall thickness at right angles to the middle line, from the area of the quadrilateral between the outlines.
            double area = Math.Abs(
                ((outerX[j] - innerX[i]) * (outerY[i] - innerY[j])) - ((outerX[i] - innerX[j]) * (outerY[j] - innerY[i]))) / 2;
            double t = area / ds;
            doubleArea += (xi * yj) - (xj * yi);
            flow += ds / t;
            wall += t * t * t * ds;
        }

        return (doubleArea * doubleArea / flow) + (wall / 4);
    }
}
