using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Reports.Words;

namespace Halfpin.Reports.Figures;

/// <summary>Stiffness and motion of a frame over a number that varies, a line for each value of the other one, with marks where a verdict changes. A drawing of its own.</summary>
public static class VariationFigure
{
    private const double PanelWidth = 250, PanelHeight = 170, Left = 52, Gap = 20, Top = 84, RowHeight = PanelHeight + 66, LineHeight = 18, Edge = 20;
    private const int PerRow = 3, Ticks = 4, LettersPerLine = 128, MostLines = 8, MostNotes = 24;
    private const double Width = (PerRow * (PanelWidth + Left)) + Edge + Gap;

    private const string Style = "text{font:13px sans-serif;fill:#1d1d1d}.title{font-weight:bold;font-size:15px}.head{font-weight:bold}.small,.tick{font-size:12px;fill:#555}"
        + ".ground{fill:#fff}.axis{stroke:#1d1d1d}.grid{stroke:#d9d9d9}.path{fill:none;stroke:#1f5a86;stroke-width:2}.dot{fill:#1f5a86}"
        + ".nominal{stroke:#777;stroke-dasharray:2 4}.change{stroke:#b4471f;stroke-dasharray:5 3}.mark{font-size:11px;fill:#b4471f}"
        + "@media (prefers-color-scheme:dark){text{fill:#e8e8e8}.small,.tick{fill:#b5b5b5}.ground{fill:#16181b}.axis{stroke:#e8e8e8}.grid{stroke:#3a3e44}"
        + ".path{stroke:#7fbbe6}.dot{fill:#7fbbe6}.nominal{stroke:#9a9a9a}.change{stroke:#f08c5f}.mark{fill:#f08c5f}}";

    private static readonly string[] _drawn = ["axialNPerMm", "apBendingNmPerDeg", "mlBendingNmPerDeg", "torsionNmPerDeg", "axialMm", "shearMm"];

    /// <summary>The plot of a report.</summary>
    /// <param name="report">The report.</param>
    /// <param name="words">How numbers and rules are called; null to take the words of their own names.</param>
    public static string Draw(VariationReport report, VariationWords? words = null)
    {
        words ??= VariationWords.Plain;
        (string Name, Func<VariationRow, double?> Of, double Most)[] panels = Panels(report);
        string[] notes = [.. Notes(report, words).SelectMany(Wrapped)];
        int rows = Math.Max(1, (panels.Length + PerRow - 1) / PerRow);
        double height = Top + (rows * RowHeight) + (LineHeight * (notes.Length + 1));
        Svg svg = new(Width, height);
        svg.Rect(0, 0, Width, height, "ground");
        string title = $"{report.Name}: over {string.Join(" and ", report.Over.Select(o => words.Inside(o.Name)))}";
        svg.Text(Edge, 28, title, "title");
        svg.Text(Edge, 48, report.Over.Length == 1 ? "Dotted: the case as it is. Dashed: a verdict changes here." : $"A line for each value of {words.Inside(report.Over[0].Name)}{words.InUnit(report.Over[0].Name)}, named at its end. Dotted: the case as it is.", "small");
        for (int i = 0; i < panels.Length; i++)
        {
            Panel(svg, report, words.Heading(report.Over[^1].Name), panels[i], Edge + Left + (i % PerRow * (PanelWidth + Left)), Top + (i / PerRow * RowHeight));
        }

        for (int i = 0; i < notes.Length; i++)
        {
            svg.Text(Edge, Top + (rows * RowHeight) + (LineHeight * (i + 0.5)), notes[i], "small");
        }

        return svg.FinishAlone(title, Style);
    }

    // Sizes of what is drawn; a quantity has the same scale at every fracture.
    private static (string Name, Func<VariationRow, double?> Of, double Most)[] Panels(VariationReport report)
    {
        VariedResult[] drawn = [.. VariedResult.AllOf(report).Where(v => _drawn.Contains(ResultNames.Read(v.Name).Quantity) && report.Rows.Any(r => v.Of(r) is not null))];
        double MostOf(string quantity) => drawn.Where(v => ResultNames.Read(v.Name).Quantity == quantity).Max(v => report.Rows.Max(r => Math.Abs(v.Of(r) ?? 0)));
        return [.. drawn.Select<VariedResult, (string, Func<VariationRow, double?>, double)>(v =>
        {
            (string label, string unit) = ResultWords.Of(v.Name);
            string shown = ResultNames.Read(v.Name).Fracture is null ? label : label.Replace(" at the load", "", StringComparison.Ordinal); // Room for the fracture.
            return ($"{shown}, {unit}", r => v.Of(r) is double value ? Math.Abs(value) : null, MostOf(ResultNames.Read(v.Name).Quantity));
        })];
    }

    private static void Panel(Svg svg, VariationReport report, string axis, (string Name, Func<VariationRow, double?> Of, double Most) drawn, double left, double top)
    {
        (string name, Func<VariationRow, double?> of, double most) = drawn;
        VariedNumber over = report.Over[^1];
        double width = PanelWidth - Gap, bottom = top + PanelHeight, step = Step(most), to = Math.Max(step, step * Math.Ceiling(most / step));
        double X(double value) => left + ((value - over.From) / (over.To - over.From) * width);
        double Y(double value) => bottom - (value / to * PanelHeight);
        svg.Text(left - 34, top - 10, name, "head");
        for (int i = 0; i * step <= to + (step / 2); i++)
        {
            svg.Line(left, Y(i * step), left + width, Y(i * step), "grid");
            svg.Text(left - 6, Y(i * step) + 4, Text(i * step), "tick", "end");
        }

        svg.Line(left, bottom, left + width, bottom, "axis");
        foreach (double at in (double[])[over.From, (over.From + over.To) / 2, over.To])
        {
            svg.Text(X(at), bottom + 17, Text(at), "tick", "middle");
        }

        svg.Text(left + width, bottom + 34, axis, "tick", "end");
        if (over.Nominal >= over.From && over.Nominal <= over.To)
        {
            svg.Line(X(over.Nominal), top, X(over.Nominal), bottom, "nominal");
        }

        if (report.Over.Length == 1)
        {
            Changes(svg, report, X, top, bottom);
        }

        foreach (VariationRow[] line in Lines(report))
        {
            Draw(svg, report, line, of, X, Y);
        }
    }

    private static void Changes(Svg svg, VariationReport report, Func<double, double> x, double top, double bottom)
    {
        int n = 0;
        foreach (IGrouping<int, VerdictChange> at in report.Changes.GroupBy(c => c.Row))
        {
            double px = x((at.First().After + at.First().By) / 2);
            svg.Line(px, top, px, bottom, "change");
            svg.Text(px + 3, top + 10 + (11 * (n % 3)), string.Join(",", at.Select(_ => (++n).ToString(CultureInfo.InvariantCulture))), "mark");
        }
    }

    // A line breaks where a row has no value; a value alone is a dot.
    private static void Draw(Svg svg, VariationReport report, VariationRow[] rows, Func<VariationRow, double?> of, Func<double, double> x, Func<double, double> y)
    {
        string over = report.Over[^1].Name;
        List<(double X, double Y)> run = [];
        void End()
        {
            if (run.Count > 1)
            {
                svg.Polyline([.. run], "path");
            }
            else if (run.Count == 1)
            {
                svg.Circle(run[0].X, run[0].Y, 3, "dot");
            }

            run.Clear();
        }

        foreach (VariationRow row in rows)
        {
            if (of(row) is double value)
            {
                run.Add((x(row.Values[over]), y(value)));
            }
            else
            {
                End();
            }
        }

        if (report.Over.Length > 1 && run.Count > 0)
        {
            svg.Text(run[^1].X + 2, run[^1].Y + 4, Text(rows[0].Values[report.Over[0].Name]), "mark");
        }

        End();
    }

    // With many values of the other number, some of them, first and last among them.
    private static IEnumerable<VariationRow[]> Lines(VariationReport report)
    {
        if (report.Over.Length == 1)
        {
            return [[.. report.Rows]];
        }

        VariationRow[][] all = [.. report.Rows.GroupBy(r => r.Values[report.Over[0].Name]).Select(g => g.ToArray())];
        int shown = Math.Min(all.Length, MostLines);
        return Enumerable.Range(0, shown).Select(i => all[shown == 1 ? 0 : i * (all.Length - 1) / (shown - 1)]);
    }

    private static IEnumerable<string> Notes(VariationReport report, VariationWords words)
    {
        string last = report.Over[^1].Name;
        foreach ((VerdictChange c, int i) in report.Changes.Take(MostNotes).Select((c, i) => (c, i)))
        {
            string other = report.Over.Length == 1 ? "" : $", {words.With(report.Over[0].Name, Text(report.Rows[c.Row].Values[report.Over[0].Name]))}";
            yield return $"{i + 1}. {words.Check(c.Check)}: {Word(c.From)} to {Word(c.To)} {VariationWords.Between(c, words.With(last, $"{Text(c.After)} and {Text(c.By)}"))}{other}.";
        }

        if (report.Changes.Length > MostNotes)
        {
            yield return $"… and {report.Changes.Length - MostNotes} more changes; the table has them all.";
        }

        foreach (IGrouping<string, VariationRow> missing in report.Rows.Where(r => r.Reason is not null).GroupBy(r => r.Reason!).Take(3))
        {
            yield return $"{missing.Count()} of {report.Rows.Length} rows without all results, such as {words.With(last, Text(missing.First().Values[last]))}: {missing.Key}";
        }

        foreach (string assumption in report.Assumptions)
        {
            yield return assumption;
        }

        yield return report.SafetyNote;
    }

    private static IEnumerable<string> Wrapped(string text)
    {
        string line = "";
        foreach (string word in text.Split(' '))
        {
            if (line.Length > 0 && line.Length + word.Length >= LettersPerLine)
            {
                yield return line;
                line = "    ";
            }

            line += (line.Trim().Length > 0 ? " " : "") + word;
        }

        yield return line;
    }

    // 1, 2 or 5 times a power of ten, for about four ticks.
    private static double Step(double range)
    {
        if (!(range > 0))
        {
            return 1;
        }

        double power = Math.Pow(10, Math.Floor(Math.Log10(range / Ticks))), share = range / Ticks / power;
        return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
    }

    private static string Word(Verdict? verdict) => verdict?.ToString().ToLowerInvariant() ?? "not applied";

    private static string Text(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}
