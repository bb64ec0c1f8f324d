using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;

namespace Halfpin.Studies.Uncertainty;

/// <summary>A frame that is ranked against another.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Held">Samples in which it can be built and holds.</param>
/// <param name="Reasons">The first reason of each kind why it does not.</param>
internal sealed record RankedFrame(string Id, long Held, ImmutableArray<FailureReason> Reasons);

/// <summary>Which samples of two frames could not be compared, and why.</summary>
internal static class LostPairs
{
    /// <summary>In a sentence; null when none were lost.</summary>
    /// <param name="own">The frame.</param>
    /// <param name="other">The one it is ranked against.</param>
    /// <param name="pairs">Samples with both.</param>
    /// <param name="samples">Samples of each.</param>
    public static string? Words(RankedFrame own, RankedFrame other, long pairs, long samples)
    {
        if (pairs == samples)
        {
            return null;
        }

        RankedFrame[] frames = [other, own];
        RankedFrame[] never = [.. frames.Where(f => f.Held == 0)];
        if (never.Length > 0)
        {
            return string.Join(" ", never.Select(f => $"{f.Id} {Ends(f)}: {f.Reasons[0].Example}")) + " No share of samples is told.";
        }

        string lost = string.Join(" ", frames.Where(f => f.Held < samples).Select(f => Text($"{f.Id} cannot be built or holds nothing in {samples - f.Held}: {f.Reasons[0].Example}")));
        return pairs == 0
            ? Text($"No sample of {samples} has both frames, so no share is told. {lost}")
            : Text($"Both frames hold in {pairs} of {samples} samples; shares are of these. {lost}");
    }

    private static string Ends(RankedFrame frame) => frame.Reasons[0].Status == FrameStatus.Invalid ? "cannot be built" : "holds nothing";

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
