using Halfpin.Domain.Cases;

namespace Halfpin.Studies.Sampling;

/// <summary>Turns evenly spread numbers into values of an input.</summary>
public static class SpreadSampling
{
    /// <summary>The value below which a share of an input's values lies. The input's parameters are those its distribution needs.</summary>
    /// <param name="input">The input.</param>
    /// <param name="share">In (0, 1).</param>
    public static double Quantile(this UncertainInput input, double share)
    {
        double low = input.Low ?? double.NegativeInfinity, high = input.High ?? double.PositiveInfinity;
        return input.Distribution switch
        {
            Spread.Uniform => low + (share * (high - low)),
            Spread.LogUniform => low * Math.Pow(high / low, share),
            Spread.Triangular => Triangular(low, input.Mode!.Value, high, share),
            _ => Math.Clamp(input.Mean!.Value + (input.StandardDeviation!.Value * StandardNormal(share)), low, high),
        };
    }

    private static double Triangular(double low, double mode, double high, double share) => share * (high - low) < mode - low
        ? low + Math.Sqrt(share * (high - low) * (mode - low))
        : high - Math.Sqrt((1 - share) * (high - low) * (high - mode));

    /// <summary>The standard normal value below which a share lies: Acklam's rational approximation (MEMORY hi), relative error below 1.2e-9.</summary>
    public static double StandardNormal(double share)
    {
        const double Tail = 0.02425;
        if (share < Tail)
        {
            return OfTail(Math.Sqrt(-2 * Math.Log(share)));
        }

        if (share > 1 - Tail)
        {
            return -OfTail(Math.Sqrt(-2 * Math.Log(1 - share)));
        }

        double q = share - 0.5, r = q * q;
        return ((((((((((-3.969683028665376e+01 * r) + 2.209460984245205e+02) * r) - 2.759285104469687e+02) * r) + 1.383577518672690e+02) * r) - 3.066479806614716e+01) * r) + 2.506628277459239e+00) * q
            / ((((((((((-5.447609879822406e+01 * r) + 1.615858368580409e+02) * r) - 1.556989798598866e+02) * r) + 6.680131188771972e+01) * r) - 1.328068155288572e+01) * r) + 1);
    }

    private static double OfTail(double q) =>
        ((((((((((-7.784894002430293e-03 * q) - 3.223964580411365e-01) * q) - 2.400758277161838e+00) * q) - 2.549732539343734e+00) * q) + 4.374664141464968e+00) * q) + 2.938163982698783e+00)
        / ((((((((7.784695709041462e-03 * q) + 3.224671290700398e-01) * q) + 2.445134137142996e+00) * q) + 3.754408661907416e+00) * q) + 1);
}
