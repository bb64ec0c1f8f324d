using System.Globalization;
using Halfpin.Mechanics.Geometry;

namespace Halfpin.TestKit.CrossProgram;

/// <summary>Lines of a number and some components, as programs print them; all else is headings.</summary>
internal static class PrintedRows
{
    /// <summary>The components of each such line, in order: the first three, and the next three where there are six, else 0.</summary>
    /// <param name="lines">The print.</param>
    /// <param name="columns">Components to a line, three or six.</param>
    /// <param name="rows">How many lines there must be.</param>
    /// <exception cref="FormatException">There are more or fewer, or a component is not finite.</exception>
    public static (Vec3 First, Vec3 Second)[] Read(IEnumerable<string> lines, int columns, int rows)
    {
        List<(Vec3 First, Vec3 Second)> read = [];
        foreach (string line in lines)
        {
            string[] words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            if (words.Length == 1 + columns && int.TryParse(words[0], NumberStyles.None, CultureInfo.InvariantCulture, out _))
            {
                double[] v = [.. words.Skip(1).Select(Finite), 0, 0, 0];
                read.Add((new(v[0], v[1], v[2]), new(v[3], v[4], v[5])));
            }
        }

        return read.Count == rows ? [.. read] : throw new FormatException($"{read.Count} lines printed, {rows} asked for.");
    }

    private static double Finite(string word) =>
        double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value)
            ? value
            : throw new FormatException($"{word} printed for a number: is the deck held?");
}
