using System.Collections.Immutable;

namespace Halfpin.Workbench.Plots;

/// <summary>A line over a scale, with what it says in words.</summary>
/// <param name="Title">What is shown.</param>
/// <param name="XWords">What runs across, with its unit.</param>
/// <param name="YWords">Unit of what runs upwards.</param>
/// <param name="X">Scale across.</param>
/// <param name="Y">Scale upwards.</param>
/// <param name="Points">The line's points.</param>
/// <param name="Mark">A value upwards to hold the line against; null for none.</param>
/// <param name="MarkWords">What that value is.</param>
/// <param name="Summary">The whole line in words.</param>
public sealed record Plot(
    string Title, string XWords, string YWords, PlotScale X, PlotScale Y, ImmutableArray<(double X, double Y)> Points, double? Mark, string MarkWords, string Summary);
