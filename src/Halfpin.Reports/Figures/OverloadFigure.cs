using System.Globalization;
using Halfpin.Domain.Assessments;

namespace Halfpin.Reports.Figures;

/// <summary>Axial load over the closing of the fracture along an overload path, as a drawing of its own with its events listed below.</summary>
public static class OverloadFigure
{
    private const double Width = 720, PlotHeight = 400, Left = 64, Right = 20, Top = 48, Bottom = 48, LineHeight = 18;
    private const int Ticks = 5, LettersPerLine = 98;

    private const string Style = ":root{background:#fff}text{font:13px sans-serif;fill:#1d1d1d}.title{font-weight:bold}.axis{stroke:#1d1d1d}.grid{stroke:#d9d9d9}"
        + ".path{fill:none;stroke:#1f5a86;stroke-width:2}.event{fill:#b4471f}.ground{fill:#fff}"
        + "@media screen and (prefers-color-scheme:dark){:root{background:#1a1f25}text{fill:#e7eaed}.axis{stroke:#e7eaed}.grid{stroke:#343c46}.path{stroke:#66c0c4}.event{fill:#f08f8a}.ground{fill:#1a1f25}}";

    /// <summary>The plot of a report that has a path.</summary>
    public static string Draw(OverloadReport report)
    {
        string title = $"{report.Name}: axial load over closing at {(report.Fractures.IsEmpty ? "the fracture" : "fracture 1")}";
        string[] notes = [.. Notes(report).SelectMany(Wrapped)];
        double height = Top + PlotHeight + Bottom + (LineHeight * (notes.Length + 1));
        Svg svg = new(Width, height);
        svg.Rect(0, 0, Width, height, "ground");
        double[] closing = [.. report.Path.Select(p => -p.AxialMm)];
        double least = Math.Min(0, closing.Min()), stepMm = Step(closing.Max() - least), stepN = Step(report.Path.Max(p => p.LoadN));
        double fromMm = stepMm * Math.Floor(least / stepMm), toMm = Math.Max(fromMm + stepMm, stepMm * Math.Ceiling(closing.Max() / stepMm));
        double toN = Math.Max(stepN, stepN * Math.Ceiling(report.Path.Max(p => p.LoadN) / stepN));
        double X(double mm) => Left + ((mm - fromMm) / (toMm - fromMm) * (Width - Left - Right));
        double Y(double n) => Top + PlotHeight - (n / toN * PlotHeight);

        svg.Text(Left, 22, title, "title");
        for (int i = 0; fromMm + (i * stepMm) <= toMm + (stepMm / 2); i++)
        {
            double mm = fromMm + (i * stepMm);
            svg.Line(X(mm), Top, X(mm), Y(0), "grid");
            svg.Text(X(mm), Y(0) + 18, Text(mm), "tick", "middle");
        }

        for (int i = 0; i * stepN <= toN + (stepN / 2); i++)
        {
            svg.Line(Left, Y(i * stepN), Width - Right, Y(i * stepN), "grid");
            svg.Text(Left - 6, Y(i * stepN) + 4, Text(i * stepN), "tick", "end");
        }

        svg.Line(Left, Y(0), Width - Right, Y(0), "axis");
        svg.Line(X(0), Top, X(0), Y(0), "axis");
        svg.Text(Width - Right, Y(0) + 38, "closing, mm", "word", "end");
        svg.Text(Left, Top - 8, "load, N", "word", "middle");
        svg.Polyline(report.Path.Select((p, i) => (X(closing[i]), Y(p.LoadN))), "path");
        Events(svg, report, X, Y);
        for (int i = 0; i < notes.Length; i++)
        {
            svg.Text(Left, Top + PlotHeight + Bottom + (LineHeight * (i + 1)), notes[i], "word");
        }

        return svg.FinishAlone(title, Style);
    }

    // Events of the way up stand on it and those of the way down on that, each at its load.
    private static void Events(Svg svg, OverloadReport report, Func<double, double> x, Func<double, double> y)
    {
        int top = Enumerable.Range(0, report.Path.Length).MaxBy(i => report.Path[i].LoadN), segment = 1;
        for (int e = 0; e < report.Events.Length; e++)
        {
            double loadN = report.Events[e].LoadN;
            segment = report.Events[e].OnWayBack ? Math.Max(segment, top + 1) : segment;
            while (segment < report.Path.Length - 1 && !Holds(report.Path[segment - 1].LoadN, report.Path[segment].LoadN, loadN))
            {
                segment++;
            }

            if (segment < report.Path.Length)
            {
                OverloadPoint a = report.Path[segment - 1], b = report.Path[segment];
                double share = a.LoadN == b.LoadN ? 0 : Math.Clamp((loadN - a.LoadN) / (b.LoadN - a.LoadN), 0, 1);
                double px = x(-(((1 - share) * a.AxialMm) + (share * b.AxialMm))), py = y(loadN);
                svg.Circle(px, py, 4, "event");
                svg.Text(px + 7, py + 14, (e + 1).ToString(CultureInfo.InvariantCulture), "number");
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

    // 1, 2 or 5 times a power of ten, for about five ticks.
    private static double Step(double range)
    {
        if (!(range > 0))
        {
            return 1;
        }

        double power = Math.Pow(10, Math.Floor(Math.Log10(range / Ticks))), share = range / Ticks / power;
        return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
    }

    private static string Text(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
