using System.Collections.Immutable;
using System.Globalization;

namespace Halfpin.Workbench.Plots;

/// <summary>A scale with round ticks that holds all its values: even steps, or powers of ten.</summary>
public sealed record PlotScale
{
    private const int WantedTicks = 5, MostPowers = 7;

    private readonly bool _powers;

    private PlotScale(bool powers, ImmutableArray<double> ticks) => (_powers, Ticks) = (powers, ticks);

    /// <summary>The ticks, rising; the first and last are the scale's ends.</summary>
    public ImmutableArray<double> Ticks { get; }

    /// <summary>Steps of 1, 2 or 5 times a power of ten.</summary>
    public static PlotScale Linear(ReadOnlySpan<double> values)
    {
        (double low, double high) = Ends(values);
        double range = high > low ? high - low : 1, power = Math.Pow(10, Math.Floor(Math.Log10(range / WantedTicks))), share = range / WantedTicks / power;
        double step = power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
        long first = (long)Math.Floor((low / step) + 1e-9), last = Math.Max(first + 1, (long)Math.Ceiling((high / step) - 1e-9));
        return new(false, [.. Enumerable.Range(0, (int)(last - first + 1)).Select(i => (first + i) * step)]);
    }

    /// <summary>Whole powers of ten, for values above 0; what lies more than seven powers below the greatest is drawn at the lower end.</summary>
    public static PlotScale Powers(ReadOnlySpan<double> values)
    {
        (double low, double high) = Ends(values);
        int last = (int)Math.Ceiling(Math.Log10(high) - 1e-9), first = Math.Min(last - 1, (int)Math.Floor(Math.Log10(Math.Max(low, double.Epsilon)) + 1e-9));
        first = Math.Max(first, last - MostPowers);
        return new(true, [.. Enumerable.Range(first, last - first + 1).Select(p => Math.Pow(10, p))]);
    }

    /// <summary>Where a value stands between the scale's ends, from 0 to 1.</summary>
    public double Share(double value)
    {
        double from = On(Ticks[0]), to = On(Ticks[^1]);
        return Math.Clamp((On(value) - from) / (to - from), 0, 1);
    }

    /// <summary>A tick's words.</summary>
    public static string Words(double tick) => Math.Abs(tick) is > 0 and < 0.001 or >= 1e6
        ? tick.ToString("0.##E0", CultureInfo.InvariantCulture)
        : Math.Round(tick, 9).ToString("0.#########", CultureInfo.InvariantCulture).Replace('-', '−');

    private double On(double value) => _powers ? Math.Log10(Math.Max(value, double.Epsilon)) : value;

    private static (double Low, double High) Ends(ReadOnlySpan<double> values)
    {
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        foreach (double v in values)
        {
            (low, high) = (Math.Min(low, v), Math.Max(high, v));
        }

        return (low, high);
    }
}
