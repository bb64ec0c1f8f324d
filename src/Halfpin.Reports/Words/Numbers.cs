using System.Globalization;

namespace Halfpin.Reports.Words;

/// <summary>Numbers for reading, with no more figures than the model's inputs bear; the assessment's JSON keeps them all.</summary>
public static class Numbers
{
    /// <summary>Two significant figures below 10, whole numbers of at most three above. 0 is an intended freedom.</summary>
    public static string Stiffness(double value) => value == 0 ? "free" : TwoOrWhole(value);

    /// <summary>Millimetres of motion or degrees of rotation, without sign: two decimals, one from 10 on.</summary>
    public static string Motion(double value) => Text(Math.Abs(value), Math.Abs(value) < 9.995 ? "0.00" : "0.0");

    /// <summary>A share in percent, two significant figures. What is below its limit never reads 100 %.</summary>
    public static string Percent(double share)
    {
        double percent = 100 * share;
        return percent is > 99 and < 100 ? "99 %" : percent < 1 ? "under 1 %" : $"{Significant(percent, 2)} %";
    }

    /// <summary>A load in whole kilograms.</summary>
    public static string Kg(double value) => Text(value, "0");

    /// <summary>A length in millimetres, whole unless it is given finer than that.</summary>
    public static string Length(double valueMm) => Text(valueMm, "0.#");

    /// <summary>An azimuth in whole degrees, with a minus sign for the lateral side.</summary>
    public static string Azimuth(double valueDeg) => Text(Math.Round(valueDeg), "0°").Replace('-', '−');

    private static string TwoOrWhole(double value) => value < 9.95 ? Significant(value, 2) : Significant(value, 3, leastStep: 1);

    // Rounded once: to the figures wanted, but never finer than the least step.
    private static string Significant(double value, int figures, double leastStep = 0)
    {
        if (value <= 0)
        {
            return "0";
        }

        int before = (int)Math.Floor(Math.Log10(value)) + 1;
        double step = Math.Max(leastStep, Math.Pow(10, before - figures));
        double rounded = Math.Round(value / step) * step;
        int decimals = leastStep > 0 ? 0 : Math.Max(0, figures - 1 - (int)Math.Floor(Math.Log10(rounded) + 1e-9));
        return rounded.ToString($"F{decimals}", CultureInfo.InvariantCulture);
    }

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
