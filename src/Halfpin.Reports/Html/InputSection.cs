using System.Globalization;
using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Reports.Words;
using static Halfpin.Reports.Html.ComparisonReport;

namespace Halfpin.Reports.Html;

/// <summary>Cautions, and every assumption with its source.</summary>
internal static class InputSection
{
    private static readonly Column[] _assumptions =
        [new("Assumption", IsText: true), new("Value", IsText: true), new("From", IsText: true), new("Source", IsText: true)];

    public static void Append(StringBuilder page, Case value, Assessment assessment)
    {
        page.Append("<section>\n<h2>Cautions that always hold</h2>\n<ul class=\"words\">\n");
        foreach (string caution in Safety.Cautions)
        {
            page.Append(CultureInfo.InvariantCulture, $"<li>{Text(caution)}</li>\n");
        }

        page.Append("</ul>\n</section>\n<h2>What the model assumes</h2>\n<div class=\"assumptions\">\n");
        HtmlTable.Append(page, "", _assumptions, assessment.Assumptions.Select(a => new Cell[] { a.Name, a.Value, a.FromCase ? "the case" : "default", $"{a.Source} [{a.Tag}]" }));
        page.Append(CultureInfo.InvariantCulture, $"</div>\n<p class=\"caption\">READ: seen in the source. MEMORY: known, not seen. DERIVED: computed. ASSUMED: our choice. GIVEN: set by the case. Load looked at: {Text(CaseWords.Load(value.Loading))}.</p>\n");
        foreach (string warning in assessment.Warnings)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p class=\"caption\">{Text(warning)}</p>\n");
        }
    }
}
