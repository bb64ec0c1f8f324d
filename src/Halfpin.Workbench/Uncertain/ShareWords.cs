using System.Globalization;

namespace Halfpin.Workbench.Uncertain;

/// <summary>Shares of samples in words.</summary>
internal static class ShareWords
{
    /// <summary>In per cent. Estimates may fall a little below nothing; what is not quite none or all never reads so.</summary>
    public static string Percent(double share) => share is > 0 and < 0.005 ? "under 1 %" : share is > 0.995 and < 1 ? "over 99 %" : string.Create(CultureInfo.InvariantCulture, $"{100 * Math.Max(0, share):0} %");
}
