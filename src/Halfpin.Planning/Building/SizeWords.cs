using System.Globalization;
using Halfpin.Domain.Frames;

namespace Halfpin.Planning.Building;

/// <summary>Sizes and places in words.</summary>
internal static class SizeWords
{
    /// <summary>A length, mm, to a tenth where it is not whole.</summary>
    public static string Fine(double valueMm) => valueMm.ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>A length, mm, or an angle, degrees, as whole number for the theatre.</summary>
    public static string Whole(double value) => Math.Round(value, MidpointRounding.AwayFromZero).ToString("0", CultureInfo.InvariantCulture);

    /// <summary>A length, mm, in the whole millimetres that are there, as checks tell it.</summary>
    public static string Full(double valueMm) => Math.Floor(valueMm + 1e-9).ToString("0", CultureInfo.InvariantCulture);

    /// <summary>A tip in words.</summary>
    public static string Of(PinTip tip) => tip == PinTip.SelfDrilling ? "self-drilling" : "for a drilled hole";

    /// <summary>An azimuth as an angle from a straight direction; alike on both sides of the body.</summary>
    public static string Azimuth(double azimuthDeg)
    {
        double turned = Math.Round(Math.IEEERemainder(azimuthDeg, 360), MidpointRounding.AwayFromZero), size = Math.Abs(turned);
        string side = turned < 0 ? "lateral" : "medial";
        return size switch
        {
            0 => "straight anterior",
            90 => $"straight {side}",
            180 => "straight posterior",
            < 90 => $"{Whole(size)}° {side} of straight anterior",
            _ => $"{Whole(180 - size)}° {side} of straight posterior",
        };
    }

    /// <summary>A level by the nearer joint line.</summary>
    public static string Level(double levelMm, double lengthMm) => levelMm <= lengthMm / 2
        ? $"{Whole(levelMm)} mm below the knee joint line"
        : $"{Whole(lengthMm - levelMm)} mm above the ankle joint line";

    /// <summary>Words in a row: "a", "a and b", "a, b and c".</summary>
    public static string List(IReadOnlyList<string> words) => words.Count switch
    {
        0 => "",
        1 => words[0],
        _ => $"{string.Join(", ", words.Take(words.Count - 1))} and {words[^1]}",
    };

    /// <summary>A kind of part with ids: "pin p1", "pins p1 and p2".</summary>
    public static string Named(string kind, IReadOnlyList<string> ids) => $"{kind}{(ids.Count == 1 ? "" : "s")} {List(ids)}";
}
