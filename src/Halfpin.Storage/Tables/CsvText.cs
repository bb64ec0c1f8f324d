using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using nietras.SeparatedValues;

namespace Halfpin.Storage.Tables;

/// <summary>A short table as CSV in memory: comma, point decimal, numbers in full, empty cells for what is missing.</summary>
public static class CsvText
{
    /// <summary>The table.</summary>
    /// <param name="columns">Names of the columns, each once, units at their ends.</param>
    /// <param name="rows">The rows, each with a cell for every column: a number, a word or null.</param>
    public static string Of(ImmutableArray<string> columns, IEnumerable<IReadOnlyList<object?>> rows)
    {
        StringBuilder text = new();
        using (SepWriter writer = Sep.New(',').Writer(o => o with { CultureInfo = CultureInfo.InvariantCulture, Escape = true }).To(new StringWriter(text, CultureInfo.InvariantCulture) { NewLine = "\n" }))
        {
            foreach (IReadOnlyList<object?> cells in rows)
            {
                using SepWriter.Row row = writer.NewRow();
                for (int c = 0; c < columns.Length; c++)
                {
                    row[columns[c]].Set(cells[c] switch
                    {
                        null => "",
                        double number => double.IsFinite(number) ? number.ToString("R", CultureInfo.InvariantCulture) : "",
                        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
                        object word => word.ToString() ?? "",
                    });
                }
            }
        }

        return text.ToString();
    }
}
