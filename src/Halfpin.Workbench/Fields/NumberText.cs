using System.Globalization;

namespace Halfpin.Workbench.Fields;

/// <summary>Reads numbers as people type them: with a decimal comma or point, a true minus sign, a unit after it, or as a small sum or product.</summary>
public static class NumberText
{
    private static readonly string[] _units = ["N·m/deg", "N·m/°", "N·m", "Nm", "N/mm", "MPa", "mm", "deg", "kg", "°", "%", "h", "min", "N"];

    /// <summary>The number; null when the text is none.</summary>
    public static double? Read(string? text)
    {
        string bare = (text ?? "").Trim().Replace('−', '-').Replace(',', '.').Replace('×', '*');
        foreach (string unit in _units.Where(u => bare.EndsWith(u, StringComparison.OrdinalIgnoreCase)))
        {
            bare = bare[..^unit.Length].Trim();
            break;
        }

        foreach (char sign in "*/+")
        {
            int at = bare.LastIndexOf(sign);
            if (at > 0 && One(bare[..at]) is double a && One(bare[(at + 1)..]) is double b)
            {
                double result = sign switch { '*' => a * b, '/' => a / b, _ => a + b };
                return double.IsFinite(result) ? result : null;
            }
        }

        int minus = bare.LastIndexOf('-');
        return One(bare) ?? (minus > 0 && One(bare[..minus]) is double from && One(bare[(minus + 1)..]) is double less ? from - less : null);
    }

    /// <summary>A number as it is shown in a field.</summary>
    public static string Write(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    private static double? One(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value) ? value : null;
}
