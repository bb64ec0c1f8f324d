using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Figures;
using static Halfpin.Reports.Html.ComparisonReport;

namespace Halfpin.Reports.Html;

/// <summary>Each frame by itself: drawing, bending by direction, checks, nearest limits.</summary>
internal static class FrameSection
{
    private const int LimitRows = 6;

    public static void Append(StringBuilder page, Case value, Assessment assessment, BoneDrawing bone, ImmutableArray<FrameDrawing> drawings)
    {
        double scale = RoseScale(assessment);
        page.Append("<h2>Frame by frame</h2>\n<p class=\"caption\">Drawings are square to the first pins, proximal end up; lengths in mm. Round figures show the bone at the fracture from proximal with the pins' directions and wounds there (red arc); the farther the curve, the stiffer the frame in that bending plane; the dashed line is the weakest. One scale for all frames, in N·m/deg. Dashed clamps are loose.</p>\n<div class=\"frames\">\n");
        foreach (FrameAssessment f in assessment.Frames)
        {
            FrameDrawing drawing = drawings.First(d => d.FrameId == f.Id);
            page.Append(CultureInfo.InvariantCulture, $"<section class=\"card\"><h3>{Text(f.Name)}</h3><p class=\"parts\">{f.Kit.Pins} pins, {f.Kit.Rods} {(f.Kit.Rods == 1 ? "rod" : "rods")}, {f.Kit.Clamps} clamps</p>\n");
            page.Append(CultureInfo.InvariantCulture, $"<div class=\"pictures\">{FrameFigure.Draw(value, bone, drawing, f.Name)}{RoseFigure.Draw(value, bone, drawing, f, scale)}</div>\n");
            if (f.Diagnosis is Diagnosis d)
            {
                page.Append(CultureInfo.InvariantCulture, $"<p><span class=\"sign caution\">! </span>{Text(d.Message)} {Text(d.Try)}</p>\n");
            }

            Checks(page, f);
            Limits(page, f);
            page.Append("</section>\n");
        }

        page.Append("</div>\n");
    }

    // A round number at or above the largest stiffness of any direction.
    private static double RoseScale(Assessment assessment)
    {
        double most = assessment.Frames.Where(f => f.BendingRose is not null).Select(f => f.BendingRose!.StrongNmPerDeg).DefaultIfEmpty(10).Max();
        double step = Math.Pow(10, Math.Floor(Math.Log10(most)));
        return step * new[] { 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10 }.First(s => s * step >= most);
    }

    private static void Checks(StringBuilder page, FrameAssessment f)
    {
        if (f.Checks.IsEmpty)
        {
            return;
        }

        page.Append("<ul class=\"checks\">\n");
        foreach (Check c in f.Checks.Where(c => c.Verdict != Verdict.Pass))
        {
            Row(page, c);
        }

        page.Append("</ul>\n");
        Check[] passed = [.. f.Checks.Where(c => c.Verdict == Verdict.Pass)];
        if (passed.Length > 0)
        {
            page.Append(CultureInfo.InvariantCulture, $"<details><summary>{passed.Length} checks passed</summary><ul class=\"checks\">\n");
            foreach (Check c in passed)
            {
                Row(page, c);
            }

            page.Append("</ul></details>\n");
        }
    }

    private static void Row(StringBuilder page, Check c)
    {
        (string css, string sign) = c.Verdict switch
        {
            Verdict.Fail => ("fail", "✕ Fail"),
            Verdict.Caution => ("caution", "! Caution"),
            _ => ("pass", "✓ Pass"),
        };
        page.Append(CultureInfo.InvariantCulture, $"<li><span class=\"sign {css}\">{sign}</span><span>{Text(c.Message)} {Text(c.Cure)}<small>{Text(c.Source)} [{Text(c.Tag)}]</small></span></li>\n");
    }

    private static void Limits(StringBuilder page, FrameAssessment f)
    {
        if (f.Utilisation.IsEmpty || f.Utilisation[0].Value == 0)
        {
            return;
        }

        page.Append("<details><summary>Nearest limits under the chosen load</summary><table><thead><tr><th scope=\"col\">Part</th><th scope=\"col\" class=\"text\">Limit</th><th scope=\"col\">Used</th></tr></thead><tbody>\n");
        foreach (UtilisationEntry u in f.Utilisation.Take(LimitRows))
        {
            page.Append(CultureInfo.InvariantCulture, $"<tr><td>{Text(u.Part)}</td><td class=\"text\">{Text(u.Check)}, {Text(u.Place)}</td><td>{100 * u.Value:0} %</td></tr>\n");
        }

        page.Append("</tbody></table></details>\n");
    }
}
