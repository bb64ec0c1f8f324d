using System.Collections.Immutable;
using System.Globalization;

namespace Halfpin.Workbench.Plots;

/// <summary>A scale with round ticks that holds all of some values. Places on it are shares of its length, 0 to 1.</summary>
/// <param name="From">Value at its beginning.</param>
/// <param name="To">Value at its end.</param>
/// <param name="Ticks">Round values on it.</param>
public sealed record PlotScale(double From, double To, ImmutableArray<PlotTick> Ticks)
{
    private const int Intervals = 4, MostPowers = 7;
    private const double Nothing = 1e-9, Alike_unitless = 1e-6;

    private bool IsOfPowers { get; init; }

    /// <summary>A scale from the round value below the least to the one above the greatest.</summary>
    /// <param name="values">The values; finite.</param>
    /// <param name="fromZero">True to begin at 0.</param>
    public static PlotScale Of(IEnumerable<double> values, bool fromZero)
    {
        double[] all = [.. values];
        double least = fromZero || all.Length == 0 ? Math.Min(0, all.DefaultIfEmpty(0).Min()) : all.Min(), most = Math.Max(fromZero ? 0 : double.MinValue, all.DefaultIfEmpty(1).Max());
        double size = Math.Max(Math.Abs(least), Math.Abs(most));
        if (size < Nothing || most - least < Alike_unitless * size)
        {
            // Below what any quantity here means, or closer together than ticks can be told apart.
            double around = Math.Max(1, Alike_unitless * size);
            (least, most) = fromZero && least >= 0 ? (0, 1) : (least - around, most + around);
        }

        double step = Step(most - least);
        int first = (int)Math.Floor((least / step) + 1e-9), last = (int)Math.Ceiling((most / step) - 1e-9);
        double from = first * step, to = last * step;
        return new(from, to, [.. Enumerable.Range(first, last - first + 1).Select(i => new PlotTick((i * step - from) / (to - from), Words(Math.Round(i * step, 9))))]);
    }

    /// <summary>A scale of whole powers of ten, for values above 0; what lies more than seven powers below the greatest is at the lower end.</summary>
    public static PlotScale Powers(IEnumerable<double> values)
    {
        double[] all = [.. values];
        int last = (int)Math.Ceiling(Math.Log10(all.Max()) - 1e-9), first = Math.Min(last - 1, (int)Math.Floor(Math.Log10(Math.Max(all.Min(), double.Epsilon)) + 1e-9));
        first = Math.Max(first, last - MostPowers);
        return new(Math.Pow(10, first), Math.Pow(10, last), [.. Enumerable.Range(first, last - first + 1).Select(i => new PlotTick((double)(i - first) / (last - first), Words(Math.Pow(10, i))))]) { IsOfPowers = true };
    }

    /// <summary>Where a value lies.</summary>
    public double At(double value) => IsOfPowers
        ? Math.Clamp(Math.Log10(Math.Max(value, double.Epsilon) / From) / Math.Log10(To / From), 0, 1)
        : (value - From) / (To - From);

    private static string Words(double tick) => Math.Abs(tick) is > 0 and < 0.001 or >= 1e6
        ? tick.ToString("0.##E0", CultureInfo.InvariantCulture)
        : tick.ToString("0.#########", CultureInfo.InvariantCulture).Replace('-', '−');

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
