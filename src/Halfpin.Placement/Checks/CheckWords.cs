using System.Globalization;

namespace Halfpin.Placement.Checks;

/// <summary>Numbers and lists for the sentences of checks.</summary>
internal static class CheckWords
{
    public const string NoSource = "Common practice, no source";

    public static string Text(double value, string format = "0") => value.ToString(format, CultureInfo.InvariantCulture);

    public static string Mm(double value) => $"{Text(Math.Floor(value + 1e-9))} mm";

    public static string Deg(double value) => $"{Text(Math.Round(value) + 0.0)}°";

    /// <summary>A sentence's first letter.</summary>
    public static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    /// <summary>One, two and three.</summary>
    public static string List(IEnumerable<string> items)
    {
        string[] all = [.. items.Distinct()];
        return all.Length < 2 ? string.Concat(all) : $"{string.Join(", ", all[..^1])} and {all[^1]}";
    }
}
