using System.Globalization;
using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using static Halfpin.Reports.Html.ComparisonReport;

namespace Halfpin.Reports.Html;

/// <summary>Cautions, and every assumption with its source.</summary>
internal static class InputSection
{
    public static void Append(StringBuilder page, Case value, Assessment assessment)
    {
        page.Append("<h2>Cautions that always hold</h2>\n<ul class=\"words\">\n");
        foreach (string caution in Safety.Cautions)
        {
            page.Append(CultureInfo.InvariantCulture, $"<li>{Text(caution)}</li>\n");
        }

        page.Append("</ul>\n<h2>What the model assumes</h2>\n<div class=\"scroll\"><table class=\"stack\"><thead><tr><th scope=\"col\">Assumption</th><th scope=\"col\" class=\"text\">Value</th><th scope=\"col\" class=\"text\">From</th><th scope=\"col\" class=\"text\">Source</th></tr></thead><tbody>\n");
        foreach (Assumption a in assessment.Assumptions)
        {
            page.Append(CultureInfo.InvariantCulture, $"<tr><td>{Text(a.Name)}</td><td class=\"text\" data-name=\"Value\">{Text(a.Value)}</td><td class=\"text\" data-name=\"From\">{(a.FromCase ? "the case" : "default")}</td><td class=\"text\" data-name=\"Source\">{Text(a.Source)} [{Text(a.Tag)}]</td></tr>\n");
        }

        page.Append(CultureInfo.InvariantCulture, $"</tbody></table></div>\n<p class=\"caption\">READ: seen in the source. MEMORY: known, not seen. DERIVED: computed. ASSUMED: our choice. GIVEN: set by the case. Load looked at: {Text(CaseWords.Load(value.Loading))}.</p>\n");
        foreach (string warning in assessment.Warnings)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p class=\"caption\">{Text(warning)}</p>\n");
        }
    }
}
