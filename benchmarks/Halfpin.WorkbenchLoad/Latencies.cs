using System.Globalization;

namespace Halfpin.WorkbenchLoad;

/// <summary>Times from a value sent to the answer shown or received, ms.</summary>
internal static class Latencies
{
    public static string Words(string what, IReadOnlyCollection<double> ms)
    {
        double[] sorted = [.. ms.Order()];
        double At(double share) => sorted.Length == 0 ? double.NaN : sorted[Math.Min(sorted.Length - 1, (int)(share * sorted.Length))];
        return string.Create(CultureInfo.InvariantCulture, $"{what}: {sorted.Length} answers, median {At(0.5):0.0} ms, 95 % {At(0.95):0.0} ms, most {At(1):0.0} ms");
    }
}
