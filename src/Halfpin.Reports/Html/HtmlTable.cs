using System.Text;
using static Halfpin.Reports.Html.ComparisonReport;

namespace Halfpin.Reports.Html;

/// <summary>A table that scrolls inside its own box and stacks on narrow screens. Texts are escaped here.</summary>
internal static class HtmlTable
{
    /// <summary>The text of a cell that has nothing to say; stacked tables leave it out.</summary>
    public const string Nothing = "–";

    /// <summary>Appends a table.</summary>
    /// <param name="page">The page so far.</param>
    /// <param name="caption">A line above the table; none when empty.</param>
    /// <param name="columns">The columns; the first names the rows.</param>
    /// <param name="rows">A cell for each column.</param>
    public static void Append(StringBuilder page, string caption, Column[] columns, IEnumerable<Cell[]> rows)
    {
        page.Append("<div class=\"scroll\"><table class=\"stack\">").Append(caption.Length > 0 ? $"<caption>{Text(caption)}</caption>" : "").Append("<thead><tr>");
        foreach (Column c in columns)
        {
            page.Append($"<th scope=\"col\"{(c.IsText ? " class=\"text\"" : "")}>{Text(c.Name)}</th>");
        }

        page.Append("</tr></thead><tbody>\n");
        foreach (Cell[] row in rows)
        {
            page.Append("<tr>");
            for (int i = 0; i < row.Length; i++)
            {
                string css = string.Join(' ', new[] { columns[i].IsText ? "text" : "", row[i].Text == Nothing ? "nothing" : "" }.Where(c => c.Length > 0));
                string name = i == 0 ? "" : $" data-name=\"{Text(columns[i].Name)}\"";
                page.Append($"<td{(css.Length > 0 ? $" class=\"{css}\"" : "")}{name}><span{(row[i].IsBest ? " class=\"best\"" : "")}>{Text(row[i].Text)}{(row[i].Small.Length > 0 ? $"<small>{Text(row[i].Small)}</small>" : "")}{row[i].Figure}</span></td>");
            }

            page.Append("</tr>\n");
        }

        page.Append("</tbody></table></div>\n");
    }
}

/// <summary>A column: its name with the unit, and whether it holds words rather than numbers.</summary>
internal sealed record Column(string Name, bool IsText = false);

/// <summary>A cell: its text, a smaller line below, a finished drawing, and whether it is the best of its column.</summary>
internal sealed record Cell(string Text, string Small = "", string Figure = "", bool IsBest = false)
{
    public static implicit operator Cell(string text) => new(text);
}
