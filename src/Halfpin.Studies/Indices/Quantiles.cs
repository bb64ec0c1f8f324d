namespace Halfpin.Studies.Indices;

/// <summary>Quantiles and shares with their intervals.</summary>
public static class Quantiles
{
    // Standard normal quantile of a two-sided 95 % interval.
    private const double Z95 = 1.959963984540054;

    /// <summary>The value below which a share of sorted values lies, straight between neighbours.</summary>
    public static double OfSorted(ReadOnlySpan<double> sorted, double share)
    {
        double at = share * (sorted.Length - 1);
        int k = Math.Clamp((int)at, 0, sorted.Length - 1), next = Math.Min(k + 1, sorted.Length - 1);
        return sorted[k] + ((at - k) * (sorted[next] - sorted[k]));
    }

    /// <summary>
    /// The 95 % interval of a quantile, from the sorted values whose ranks bound it: binomial, in the normal approximation. It takes the values as
    /// independent, which is on the wide side for values that fill their space evenly.
    /// </summary>
    public static (double Low, double High) IntervalOf(ReadOnlySpan<double> sorted, double share)
    {
        double n = sorted.Length, spread = Z95 * Math.Sqrt(n * share * (1 - share));
        int low = Math.Clamp((int)Math.Floor((n * share) - spread), 0, sorted.Length - 1);
        int high = Math.Clamp((int)Math.Ceiling((n * share) + spread), 0, sorted.Length - 1);
        return (sorted[low], sorted[high]);
    }

    /// <summary>The 95 % interval of a share by Wilson's score (J. Am. Stat. Assoc. 22 (1927) 209; MEMORY hi).</summary>
    public static (double Low, double High) ShareInterval(long successes, long trials)
    {
        if (trials == 0)
        {
            return (0, 1);
        }

        double n = trials, p = successes / n, z2 = Z95 * Z95;
        double middle = (p + (z2 / (2 * n))) / (1 + (z2 / n));
        double half = Z95 / (1 + (z2 / n)) * Math.Sqrt((p * (1 - p) / n) + (z2 / (4 * n * n)));
        return (Math.Max(0, middle - half), Math.Min(1, middle + half));
    }
}
