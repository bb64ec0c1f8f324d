using System.Globalization;
using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Reports.Figures;
using static Halfpin.Reports.Html.ComparisonReport;

namespace Halfpin.Reports.Html;

/// <summary>Frames side by side, and in words.</summary>
internal static class ComparisonSection
{
    private static readonly Column[] _columns =
    [
        new("Axial, N/mm", "0", s => s.AxialNPerMm),
        new("AP bending, N·m/deg", "0.0", s => s.ApBendingNmPerDeg),
        new("ML bending, N·m/deg", "0.0", s => s.MlBendingNmPerDeg),
        new("Torsion, N·m/deg", "0.00", s => s.TorsionNmPerDeg),
    ];

    public static void Append(StringBuilder page, Case value, Assessment assessment)
    {
        bool loaded = value.Loading != new Loading();
        page.Append("<h2>Side by side</h2>\n<div class=\"scroll\"><table class=\"stack\"><thead><tr><th scope=\"col\">Frame</th>");
        foreach (Column c in _columns)
        {
            page.Append(CultureInfo.InvariantCulture, $"<th scope=\"col\">{Text(c.Name)}</th>");
        }

        page.Append("<th scope=\"col\">Weakest bending, N·m/deg</th>").Append(loaded ? "<th scope=\"col\">Motion at the fracture, mm</th>" : "");
        page.Append("<th scope=\"col\">Comes first as axial load grows</th><th scope=\"col\">Pins, rods, clamps</th></tr></thead><tbody>\n");
        foreach (FrameAssessment f in assessment.Frames)
        {
            Row(page, f, assessment, loaded);
        }

        page.Append("</tbody></table></div>\n");
        string inputs = assessment.Frames.Select(f => f.Band?.Inputs).FirstOrDefault(i => i is not null) ?? "";
        page.Append(CultureInfo.InvariantCulture, $"<p class=\"caption\">Stiffness at the fracture, load on the proximal end. {(inputs.Length > 0 ? $"The thin line on each bar is what {Text(inputs)} may do together. " : "")}Highest value in each column in colour.</p>\n");
        page.Append("<h2>What the numbers mean</h2>\n<ul class=\"words\">\n");
        foreach (string sentence in assessment.Comparison)
        {
            page.Append(CultureInfo.InvariantCulture, $"<li>{Text(sentence)}</li>\n");
        }

        page.Append("</ul>\n");
    }

    private static void Row(StringBuilder page, FrameAssessment f, Assessment assessment, bool loaded)
    {
        page.Append(CultureInfo.InvariantCulture, $"<tr><td>{Text(f.Name)}</td>");
        foreach (Column c in _columns)
        {
            double most = assessment.Frames.Max(x => x.Stiffness is null ? 0 : c.Of(x.Stiffness.AtFracture));
            double top = assessment.Frames.Max(x => x.Band is null ? 0 : c.Of(x.Band.High));
            page.Append(CultureInfo.InvariantCulture, $"<td data-name=\"{Text(c.Name)}\">{Cell(f, c, most, Math.Max(most, top))}</td>");
        }

        page.Append(CultureInfo.InvariantCulture, $"<td data-name=\"Weakest bending, N·m/deg\">{(f.BendingRose is BendingRose r ? $"<span>{N(r.WeakNmPerDeg, "0.0")}<small>plane at {N(r.WeakAzimuthDeg, "0")}°</small></span>" : "–")}</td>");
        if (loaded)
        {
            page.Append(CultureInfo.InvariantCulture, $"<td data-name=\"Motion at the fracture, mm\">{(f.Motion is FractureMotion m ? $"<span>{N(m.AxialMm, "0.00")} axial<small>{N(m.ShearMm, "0.00")} shear</small></span>" : "withheld")}</td>");
        }

        string first = f.Status == FrameStatus.Mechanism ? "does not hold" : f.FirstLimit is FirstLimit l
            ? $"<span>{N(l.LoadKg, "0")} kg<small>{Text(l.Check == FirstLimits.Touch ? "bone ends touch" : l.Check == FirstLimits.Range ? "end of the model's range" : $"{l.Part}: {l.Check}, {l.Place}")}</small></span>"
            : "slides as intended";
        page.Append(CultureInfo.InvariantCulture, $"<td data-name=\"Comes first as axial load grows\">{first}</td><td data-name=\"Pins, rods, clamps\">{f.Kit.Pins}, {f.Kit.Rods}, {f.Kit.Clamps}</td></tr>\n");
    }

    private static string Cell(FrameAssessment f, Column c, double most, double scale)
    {
        if (f.Stiffness is null)
        {
            return "–";
        }

        double value = c.Of(f.Stiffness.AtFracture);
        if (value == 0)
        {
            return "free";
        }

        (double, double)? band = f.Band is ResultBand b ? (c.Of(b.Low), c.Of(b.High)) : null;
        string number = N(value, c.Digits);
        return $"<span><span{(value == most ? " class=\"best\"" : "")}>{number}</span>{BarFigure.Draw($"{c.Name}: {number}", value, scale, band)}</span>";
    }

    private static string N(double value, string digits) => value.ToString(digits, CultureInfo.InvariantCulture);

    private sealed record Column(string Name, string Digits, Func<FourStiffnesses, double> Of);
}
