using System.Collections.Immutable;
using Halfpin.Workbench.Plots;

namespace Halfpin.Workbench.Searches;

/// <summary>The frames to choose from as points over two of their numbers.</summary>
/// <param name="X">Number to the right.</param>
/// <param name="Y">Number upwards.</param>
/// <param name="Across">Its scale.</param>
/// <param name="Up">Its scale.</param>
/// <param name="Points">The points; a choice without one of the numbers has none.</param>
public sealed record ChoicePlot(ChoiceAxis X, ChoiceAxis Y, PlotScale Across, PlotScale Up, ImmutableArray<ChoicePoint> Points)
{
    // Points nearer than these, as shares of the plot, would hide each other and are drawn side by side.
    private const double ApartAcross = 0.035;
    private const double ApartUp = 0.08;

    /// <summary>The plot of choices over two numbers.</summary>
    public static ChoicePlot Of(ImmutableArray<Choice> choices, ChoiceAxis x, ChoiceAxis y)
    {
        (Choice Choice, double X, double Y)[] placed = [.. choices.Where(c => x.Of(c) is not null && y.Of(c) is not null).Select(c => (c, x.Of(c)!.Value, y.Of(c)!.Value))];
        PlotScale across = PlotScale.Of(placed.Select(p => p.X), fromZero: false), up = PlotScale.Of(placed.Select(p => p.Y), fromZero: false);
        List<ChoicePoint> points = [];
        foreach ((Choice choice, double px, double py) in placed)
        {
            (double right, double above) = (across.At(px), up.At(py));
            int beside = points.Count(p => Math.Abs(p.Right - right) < ApartAcross && Math.Abs(p.Above - above) < ApartUp);
            points.Add(new(choice, right, above, beside));
        }

        return new(x, y, across, up, [.. points]);
    }
}

/// <summary>A choice on the plot.</summary>
/// <param name="Choice">The choice.</param>
/// <param name="Right">Where from the left, 0 to 1.</param>
/// <param name="Above">Where from below, 0 to 1.</param>
/// <param name="Beside">How many points before it lie in the same place; it is drawn as many widths to the right.</param>
public sealed record ChoicePoint(Choice Choice, double Right, double Above, int Beside);
