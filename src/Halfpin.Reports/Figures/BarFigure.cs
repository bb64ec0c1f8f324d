namespace Halfpin.Reports.Figures;

/// <summary>A bar for a table cell: a value and the band around it, on a common scale.</summary>
internal static class BarFigure
{
    private const double Width = 120, Height = 14;

    public static string Draw(string title, double value, double most, (double Low, double High)? band)
    {
        Svg svg = new(Width, Height);
        double X(double v) => most > 0 ? Math.Min(1, v / most) * Width : 0;
        svg.Rect(0, 3, Width, 8, "track", 2);
        svg.Rect(0, 3, X(value), 8, "bar", 2);
        if (band is (double low, double high))
        {
            svg.Line(X(low), 7, X(high), 7, "whisker");
            svg.Line(X(low), 4, X(low), 10, "whisker");
            svg.Line(X(high), 4, X(high), 10, "whisker");
        }

        return svg.Finish(title, "bar-figure");
    }
}
