using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;

namespace Halfpin.Reports.Figures;

/// <summary>
/// Axial load over the closing of each fracture along an overload path, a panel for each on the same scales, as a drawing of its own with its
/// events listed below.
/// </summary>
public static class OverloadFigure
{
    private const double Width = 720, Top = 34, LineHeight = 18;
    private const int LettersPerLine = 98;

    private const string Style = ":root{background:#fff}text{font:13px sans-serif;fill:#1d1d1d}.title{font-weight:bold}.axis{stroke:#1d1d1d}.grid{stroke:#d9d9d9}"
        + ".path{fill:none;stroke:#1f5a86;stroke-width:2}.event{fill:#b4471f}.ground{fill:#fff}"
        + "@media screen and (prefers-color-scheme:dark){:root{background:#1a1f25}text{fill:#e7eaed}.axis{stroke:#e7eaed}.grid{stroke:#343c46}.path{stroke:#66c0c4}.event{fill:#f08f8a}.ground{fill:#1a1f25}}";

    /// <summary>The plot of a report that has a path.</summary>
    public static string Draw(OverloadReport report)
    {
        string title = $"{report.Name}: axial load over closing at {(report.Fractures.IsEmpty ? "the fracture" : "each fracture")}";
        ImmutableArray<OverloadPoint>[] paths = report.Fractures.IsEmpty ? [report.Path] : [.. report.Fractures.Select(f => f.Path)];
        int columns = Math.Min(paths.Length, 2), rows = (paths.Length + columns - 1) / columns;
        OverloadScale scale = OverloadScale.Of(paths);
        OverloadPanel[] panels = [.. paths.Select((_, i) => new OverloadPanel(Width / columns * (i % columns), Top + (OverloadPanel.Height(columns) * (i / columns)), Width / columns, columns, scale))];
        string[] notes = [.. Notes(report).SelectMany(Wrapped)];
        double notesAt = Top + (OverloadPanel.Height(columns) * rows), height = notesAt + (LineHeight * (notes.Length + 1));
        Svg svg = new(Width, height);
        svg.Rect(0, 0, Width, height, "ground");
        svg.Text(16, 22, title, "title");
        for (int f = 0; f < paths.Length; f++)
        {
            panels[f].Axes(svg, paths.Length == 1 ? "" : Heading(report.Fractures[f], f));
            panels[f].Path(svg, paths[f]);
            panels[f].Events(svg, Events(report, paths[f], f));
        }

        for (int i = 0; i < notes.Length; i++)
        {
            svg.Text(16, notesAt + (LineHeight * i), notes[i], "word");
        }

        return svg.FinishAlone(title, Style, Words(report));
    }

    /// <summary>What the plot shows, in words for those who do not see it.</summary>
    public static string Words(OverloadReport report)
    {
        IEnumerable<string> each = report.Fractures.IsEmpty
            ? [Closing("The fracture", report.Path, report.SetMm)]
            : report.Fractures.Select((f, i) => Closing($"Fracture {i + 1}", f.Path, f.SetMm));
        return string.Join(" ", each);
    }

    private static string Closing(string fracture, ImmutableArray<OverloadPoint> path, double? setMm)
    {
        OverloadPoint top = path.MaxBy(p => p.LoadN)!;
        string way = top.AxialMm > 0 ? "opens" : "closes", left = setMm is double set ? string.Create(CultureInfo.InvariantCulture, $"; {set:0.00} mm are left between its faces when the load is off") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{fracture} {way} by {Math.Abs(top.AxialMm):0.00} mm up to {top.LoadN:0} N{left}.");
    }

    private static string Heading(OverloadFracture fracture, int number) => string.Create(
        CultureInfo.InvariantCulture, $"Fracture {number + 1}{(fracture.SetMm is double set ? $", {set:0.00} mm left" : "")}");

    // Events of the way up stand on it and those of the way down on that, each at its load. What bone ends do is shown where they do it.
    private static IEnumerable<(double ClosingMm, double LoadN, int Number)> Events(OverloadReport report, ImmutableArray<OverloadPoint> path, int fracture)
    {
        int top = Enumerable.Range(0, path.Length).MaxBy(i => path[i].LoadN), segment = 1;
        for (int e = 0; e < report.Events.Length; e++)
        {
            double loadN = report.Events[e].LoadN;
            segment = report.Events[e].OnWayBack ? Math.Max(segment, top + 1) : segment;
            while (segment < path.Length - 1 && !Holds(path[segment - 1].LoadN, path[segment].LoadN, loadN))
            {
                segment++;
            }

            bool elsewhere = report.Events[e] is { Kind: OverloadEventKind.Contact } contact && !report.Fractures.IsEmpty && contact.Part != $"fracture {fracture + 1}";
            if (segment < path.Length && !elsewhere)
            {
                OverloadPoint a = path[segment - 1], b = path[segment];
                double share = a.LoadN == b.LoadN ? 0 : Math.Clamp((loadN - a.LoadN) / (b.LoadN - a.LoadN), 0, 1);
                yield return (-(((1 - share) * a.AxialMm) + (share * b.AxialMm)), loadN, e + 1);
            }
        }
    }

    private static bool Holds(double fromN, double toN, double loadN) => Math.Min(fromN, toN) <= loadN && loadN <= Math.Max(fromN, toN);

    private static IEnumerable<string> Notes(OverloadReport report)
    {
        for (int i = 0; i < report.Events.Length; i++)
        {
            yield return $"{i + 1}. {report.Events[i].Message}";
        }

        if (report.Ended is string ended)
        {
            yield return $"Incomplete. {ended}";
        }

        if (report.SetBefore is OverloadSet before)
        {
            yield return before.Message;
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
}
