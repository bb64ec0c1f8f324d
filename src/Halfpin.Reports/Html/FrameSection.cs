using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Figures;
using Halfpin.Reports.Words;
using static Halfpin.Reports.Html.ComparisonReport;

namespace Halfpin.Reports.Html;

/// <summary>Each frame by itself: drawings, bending by direction, motion, stiffness, checks, nearest limits and sizes.</summary>
internal static class FrameSection
{
    public static void Append(StringBuilder page, Case value, Assessment assessment, BoneDrawing bone, ImmutableArray<FrameDrawing> drawings)
    {
        double scale = RoseScale(assessment);
        SectionFigure section = new(value, bone, drawings);
        ImmutableArray<(FrameFigure, FrameFigure)> views = FrameFigure.Of(value, bone, drawings);
        page.Append("<h2>Frame by frame</h2>\n<p class=\"caption\">Lengths in mm. All frames are drawn to one scale, and all round figures of stiffness too. Dashed clamps are loose; red marks a wound.</p>\n");
        foreach (FrameAssessment f in assessment.Frames)
        {
            int number = drawings.Select(d => d.FrameId).ToList().IndexOf(f.Id);
            FrameDrawing drawing = drawings[number];
            page.Append(CultureInfo.InvariantCulture, $"<section class=\"card\">\n<h3>{Text(f.Name)}</h3><p class=\"parts\">{Text(PartWords.Count(f.Kit, drawing))}</p>\n");
            if (f.Diagnosis is Diagnosis d)
            {
                page.Append(CultureInfo.InvariantCulture, $"<p><span class=\"sign caution\">! </span>{Text(d.Message)} {Text(d.Try)}</p>\n");
            }

            Pictures(page, value, bone, drawing, f, views[number], section, scale);
            page.Append("<div class=\"facts\">\n<div class=\"block\">\n");
            ResultTables.Stiffness(page, f);
            ResultTables.Limits(page, f, drawing);
            ContactTable.Append(page, f, drawing);
            FatigueTable.Append(page, f, drawing);
            page.Append("<details><summary>Sizes of pins and rods</summary>\n");
            PartTables.Append(page, bone, drawing);
            page.Append("</details>\n</div>\n<div class=\"block\">\n");
            Checks(page, f);
            page.Append("</div>\n</div>\n</section>\n");
        }
    }

    // A round number at or above the largest stiffness of any direction.
    private static double RoseScale(Assessment assessment)
    {
        double most = assessment.Frames.Where(f => f.BendingRose is not null).Select(f => f.BendingRose!.StrongNmPerDeg).DefaultIfEmpty(10).Max();
        double step = Math.Pow(10, Math.Floor(Math.Log10(most)));
        return step * new[] { 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10 }.First(s => s * step >= most);
    }

    private static void Pictures(StringBuilder page, Case value, BoneDrawing bone, FrameDrawing drawing, FrameAssessment f, (FrameFigure Front, FrameFigure Medial) views, SectionFigure section, double scale)
    {
        string leg = Directions.Leg(value.Limb.Side);
        (FrameFigure front, FrameFigure medial) = views;
        page.Append(CultureInfo.InvariantCulture, $"<div class=\"pictures\">\n<div class=\"views\" style=\"grid-template-columns:{front.Width:0}fr {medial.Width:0}fr\">\n");
        Figure(page, front.Draw($"{f.Name}: the frame on the bone seen from the front, {leg}, proximal end up"), $"Seen from the front, {leg}");
        Figure(page, medial.Draw($"{f.Name}: the frame on the bone seen from the medial side, {leg}, proximal end up"), $"Seen from the medial side, {leg}");
        page.Append("</div>\n<div>\n<div class=\"round\">\n");
        Figure(page, section.Draw(drawing, $"{f.Name}: bone at the fracture with pins and rods, seen from the foot, {leg}, anterior up"), $"Bone at the fracture, seen from the foot, {leg}");
        if (f.BendingRose is BendingRose r)
        {
            string weak = $"Weakest {Numbers.Stiffness(r.WeakNmPerDeg)} N·m/deg in the {Directions.Plane(r.WeakAzimuthDeg)} plane ({Numbers.Azimuth(r.WeakAzimuthDeg)}), strongest {Numbers.Stiffness(r.StrongNmPerDeg)} square to it";
            Figure(page, RoseFigure.Draw(value, bone, r, scale, $"{f.Name}: bending stiffness by direction, seen from the foot, {leg}. {weak}"), $"Bending stiffness by direction, seen from the foot, {leg}. {weak}.");
        }

        page.Append("</div>\n");
        ResultTables.Motion(page, value, f);
        page.Append("</div>\n</div>\n");
    }

    private static void Figure(StringBuilder page, string svg, string caption) =>
        page.Append(CultureInfo.InvariantCulture, $"<figure>{svg}<figcaption>{Text(caption)}</figcaption></figure>\n");

    private static void Checks(StringBuilder page, FrameAssessment f)
    {
        Check[] raised = [.. f.Checks.Where(c => c.Verdict != Verdict.Pass)], passed = [.. f.Checks.Where(c => c.Verdict == Verdict.Pass)];
        if (raised.Length > 0)
        {
            List(page, raised);
        }

        if (passed.Length > 0)
        {
            page.Append(CultureInfo.InvariantCulture, $"<details><summary>{(passed.Length == 1 ? "1 check" : $"{passed.Length} checks")} passed</summary>");
            List(page, passed);
            page.Append("</details>\n");
        }
    }

    private static void List(StringBuilder page, Check[] checks)
    {
        page.Append("<ul class=\"checks\">\n");
        foreach (Check c in checks)
        {
            (string css, string sign) = c.Verdict switch
            {
                Verdict.Fail => ("fail", "✕ Fail"),
                Verdict.Caution => ("caution", "! Caution"),
                _ => ("pass", "✓ Pass"),
            };
            page.Append(CultureInfo.InvariantCulture, $"<li><span class=\"sign {css}\">{sign}</span><span>{Text(c.Message)} {Text(c.Cure)}<small>{Text(c.Source)} [{Text(c.Tag)}]</small></span></li>\n");
        }

        page.Append("</ul>\n");
    }
}
