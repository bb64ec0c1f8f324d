using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;

namespace Halfpin.Reports.Figures;

/// <summary>The scales that all panels of an overload plot share: closing from left to right, load upwards.</summary>
/// <param name="FromMm">Closing at the left edge.</param>
/// <param name="StepMm">Between two grid lines.</param>
/// <param name="ToMm">Closing at the right edge.</param>
/// <param name="StepN">Between two grid lines.</param>
/// <param name="ToN">Load at the upper edge.</param>
internal sealed record OverloadScale(double FromMm, double StepMm, double ToMm, double StepN, double ToN)
{
    private const int Ticks = 5;

    public static OverloadScale Of(ImmutableArray<OverloadPoint>[] paths)
    {
        double[] closing = [.. paths.SelectMany(p => p).Select(p => -p.AxialMm)];
        double mostN = paths[0].Max(p => p.LoadN), least = Math.Min(0, closing.Min()), stepMm = Step(closing.Max() - least), stepN = Step(mostN);
        double fromMm = stepMm * Math.Floor(least / stepMm);
        return new(
            fromMm, stepMm, Math.Max(fromMm + stepMm, stepMm * Math.Ceiling(closing.Max() / stepMm)),
            stepN, Math.Max(stepN, stepN * Math.Ceiling(mostN / stepN)));
    }

    // 1, 2 or 5 times a power of ten, for about five ticks.
    private static double Step(double range)
    {
        if (!(range > 0))
        {
            return 1;
        }

        double power = Math.Pow(10, Math.Floor(Math.Log10(range / Ticks))), share = range / Ticks / power;
        return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
    }
}

/// <summary>One panel of an overload plot.</summary>
/// <param name="x">Left edge of its place.</param>
/// <param name="y">Upper edge of its place.</param>
/// <param name="width">Width of its place.</param>
/// <param name="columns">Panels in a row.</param>
/// <param name="scale">The scales.</param>
internal sealed class OverloadPanel(double x, double y, double width, int columns, OverloadScale scale)
{
    private const double Left = 64, Right = 20, Above = 34, Below = 64, Near = 9, LetterWidth = 8;

    private readonly double _bottom = y + Above + PlotHeight(columns);

    /// <summary>Height of a panel's place.</summary>
    public static double Height(int columns) => Above + PlotHeight(columns) + Below;

    /// <summary>Grid, axes and their names.</summary>
    public void Axes(Svg svg, string heading)
    {
        if (heading.Length > 0)
        {
            svg.Text(x + Left + 44, y + 22, heading, "title");
        }

        for (int i = 0; scale.FromMm + (i * scale.StepMm) <= scale.ToMm + (scale.StepMm / 2); i++)
        {
            double mm = scale.FromMm + (i * scale.StepMm);
            svg.Line(X(mm), y + Above, X(mm), _bottom, "grid");
            svg.Text(X(mm), _bottom + 18, Text(mm), "tick", "middle");
        }

        for (int i = 0; i * scale.StepN <= scale.ToN + (scale.StepN / 2); i++)
        {
            svg.Line(X(scale.FromMm), Y(i * scale.StepN), X(scale.ToMm), Y(i * scale.StepN), "grid");
            svg.Text(X(scale.FromMm) - 6, Y(i * scale.StepN) + 4, Text(i * scale.StepN), "tick", "end");
        }

        svg.Line(X(scale.FromMm), _bottom, X(scale.ToMm), _bottom, "axis");
        svg.Line(X(0), y + Above, X(0), _bottom, "axis");
        svg.Text(X(scale.ToMm), _bottom + 36, "closing, mm", "word", "end");
        svg.Text(X(scale.FromMm), y + 22, "load, N", "word", "middle");
    }

    /// <summary>The path.</summary>
    public void Path(Svg svg, ImmutableArray<OverloadPoint> path) => svg.Polyline(path.Select(p => (X(-p.AxialMm), Y(p.LoadN))), "path");

    /// <summary>Marks of events with their numbers; those that fall on each other share one.</summary>
    public void Events(Svg svg, IEnumerable<(double ClosingMm, double LoadN, int Number)> events)
    {
        List<(double X, double Y, string Numbers)> marks = [];
        foreach ((double closingMm, double loadN, int number) in events)
        {
            (double atX, double atY, string text) = (X(closingMm), Y(loadN), number.ToString(CultureInfo.InvariantCulture));
            int same = marks.FindIndex(m => Math.Abs(m.X - atX) < Near && Math.Abs(m.Y - atY) < Near);
            if (same < 0)
            {
                marks.Add((atX, atY, text));
            }
            else
            {
                marks[same] = marks[same] with { Numbers = $"{marks[same].Numbers}, {text}" };
            }
        }

        foreach ((double atX, double atY, string numbers) in marks)
        {
            // Below the path on its right, but not over the edge.
            bool onLeft = atX + 7 + (LetterWidth * numbers.Length) > x + width;
            svg.Circle(atX, atY, 4, "event");
            svg.Text(onLeft ? atX - 7 : atX + 7, onLeft ? atY - 6 : atY + 14, numbers, "number", onLeft ? "end" : "start");
        }
    }

    private static double PlotHeight(int columns) => columns == 1 ? 400 : 230;

    private double X(double mm) => x + Left + ((mm - scale.FromMm) / (scale.ToMm - scale.FromMm) * (width - Left - Right));

    private double Y(double n) => _bottom - (n / scale.ToN * PlotHeight(columns));

    private static string Text(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
