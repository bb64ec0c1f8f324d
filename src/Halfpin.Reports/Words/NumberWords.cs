using System.Globalization;
using System.Text;

namespace Halfpin.Reports.Words;

/// <summary>Names of numbers as programs write them, unit at the end, put into words for people.</summary>
public static class NumberWords
{
    // Longest first, so that mm is not taken for the end of N/mm.
    private static readonly (string Suffix, string Unit)[] _units =
    [
        ("NPerMm2", "N/mm²"), ("NmPerDeg", "N·m/°"), ("NmPerRad", "N·m/rad"), ("MmolPerL", "mmol/L"), ("NPerMm", "N/mm"), ("Thousand", "thousand/µL"), ("Percent", "%"),
        ("MmHg", "mmHg"), ("Days", "days"), ("MPa", "MPa"), ("Deg", "°"), ("Min", "min"), ("Kg", "kg"), ("Nm", "N·m"), ("Mm", "mm"), ("2H", "in 2 h"), ("N", "N"), ("H", "h"), ("C", "°C"),
    ];

    /// <summary>The unit of a number by its name; empty when it has none.</summary>
    public static string Unit(string name) => Array.Find(_units, u => u.Suffix == SuffixOf(name)).Unit ?? "";

    /// <summary>A name in words without its unit, with a capital: "LengthMm" is "Length", "patientMassKg" is "Patient mass".</summary>
    public static string Label(string name)
    {
        StringBuilder words = new();
        foreach (char letter in name[..^SuffixOf(name).Length])
        {
            if (words.Length > 0 && char.IsUpper(letter))
            {
                words.Append(' ');
            }

            words.Append(words.Length == 0 ? char.ToUpperInvariant(letter) : char.ToLowerInvariant(letter));
        }

        return words.ToString();
    }

    /// <summary>
    /// A member or JSON Pointer as a label and a unit: "standoffMm" is Standoff in mm, "/fractures/1/gapMm" is Fractures 2, gap in mm. Lists are counted from 1, as people do.
    /// </summary>
    public static (string Label, string Unit) OfPath(string path)
    {
        string[] steps = path.Split('/', StringSplitOptions.RemoveEmptyEntries);
        if (steps.Length == 0)
        {
            return (path, "");
        }

        StringBuilder label = new(Label(steps[0]));
        foreach (string step in steps[1..])
        {
            label.Append(int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out int index) ? string.Create(CultureInfo.InvariantCulture, $" {index + 1}") : $", {Label(step).ToLowerInvariant()}");
        }

        return (label.ToString(), Unit(steps[^1]));
    }

    private static string SuffixOf(string name) =>
        Array.Find(_units, u => name.Length > u.Suffix.Length && name.EndsWith(u.Suffix, StringComparison.Ordinal) && EndsWord(name, u.Suffix.Length)).Suffix ?? "";

    // A capital inside an abbreviation is no unit.
    private static bool EndsWord(string name, int suffixLength) => char.IsLower(name[^(suffixLength + 1)]) || char.IsDigit(name[^(suffixLength + 1)]);
}
