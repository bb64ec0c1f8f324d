using System.Collections.Immutable;
using System.Globalization;

namespace Halfpin.Workbench.Plots;

/// <summary>A scale with round ticks that holds all of some values. Places on it are shares of its length, 0 to 1.</summary>
/// <param name="From">Value at its beginning.</param>
/// <param name="To">Value at its end.</param>
/// <param name="Ticks">Round values on it.</param>
public sealed record PlotScale(double From, double To, ImmutableArray<PlotTick> Ticks)
{
    private const int Intervals = 4;

    /// <summary>A scale from the round value below the least to the one above the greatest.</summary>
    /// <param name="values">The values; finite.</param>
    /// <param name="fromZero">True to begin at 0.</param>
    public static PlotScale Of(IEnumerable<double> values, bool fromZero)
    {
        double[] all = [.. values];
        double least = fromZero || all.Length == 0 ? Math.Min(0, all.DefaultIfEmpty(0).Min()) : all.Min(), most = all.DefaultIfEmpty(1).Max();
        if (most - least < 1e-9 * Math.Max(1, Math.Abs(most)))
        {
            (least, most) = fromZero && most > 0 ? (0, most) : (least - 1, most + 1);
        }

        double step = Step(most - least);
        int first = (int)Math.Floor((least / step) + 1e-9), last = (int)Math.Ceiling((most / step) - 1e-9);
        double from = first * step, to = last * step;
        return new(from, to, [.. Enumerable.Range(first, last - first + 1).Select(i => new PlotTick((i * step - from) / (to - from), (i * step).ToString("0.######", CultureInfo.InvariantCulture)))]);
    }

    /// <summary>Where a value lies.</summary>
    public double At(double value) => (value - From) / (To - From);

    // 1, 2 or 5 times a power of ten.
    private static double Step(double range)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(range / Intervals))), share = range / Intervals / power;
        return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
    }
}

/// <summary>A tick of a scale.</summary>
/// <param name="At">Where, 0 to 1.</param>
/// <param name="Text">Its value.</param>
public sealed record PlotTick(double At, string Text);
