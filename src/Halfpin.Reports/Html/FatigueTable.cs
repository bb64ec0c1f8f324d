using System.Globalization;
using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Words;
using static Halfpin.Reports.Html.ComparisonReport;

namespace Halfpin.Reports.Html;

/// <summary>How the pins stand the chosen load step after step.</summary>
internal static class FatigueTable
{
    private static readonly Column[] _columns = [new("Pin"), new("Stress of a step, MPa"), new("Of its strength"), new("Steps until it may break")];

    /// <summary>The table under a line to open it; nothing where no load is chosen or it is withheld.</summary>
    public static void Append(StringBuilder page, FrameAssessment f, FrameDrawing drawing)
    {
        if (f.Fatigue is not FatigueLife life || life.Pins[0].Value == 0)
        {
            return;
        }

        page.Append(CultureInfo.InvariantCulture, $"<details><summary>Pins in {Text(Count(life.Steps))} steps at the chosen load</summary>\n");
        HtmlTable.Append(page, "", _columns, life.Pins.Select(p => new Cell[]
        {
            new(p.Part, LimitWords.Of(p.Part, "fatigue", p.Place, drawing).Replace($"pin {p.Part}, fatigue ", "", StringComparison.Ordinal)),
            p.StressMPa.ToString("0", CultureInfo.InvariantCulture), Numbers.Percent(p.Value),
            new(Count(p.StepsToFailure), p.FewestSteps == p.MostSteps ? "" : $"{Count(p.FewestSteps)} – {Count(p.MostSteps)}"),
        }));
        page.Append("<p class=\"caption\">Nominal stress times the thread factor, on an S–N line with its scatter (MEMORY); below the steps of its middle those of its weak and strong end. Corrosion and loosening are not in it.</p></details>\n");
    }

    // Two figures: the scatter leaves no more. Null is ten million and more, 0 fewer than a thousand.
    private static string Count(double? steps)
    {
        if (steps is not double n || n == 0)
        {
            return steps is null ? "10 million and more" : "under 1000";
        }

        double unit = Math.Pow(10, Math.Max(0, Math.Floor(Math.Log10(n)) - 1)), rounded = Math.Round(n / unit) * unit;
        return rounded < 1e6
            ? rounded.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', '\u00a0')
            : (rounded / 1e6).ToString("0.##", CultureInfo.InvariantCulture) + " million";
    }
}
