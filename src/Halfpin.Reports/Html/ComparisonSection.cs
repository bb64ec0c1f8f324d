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

/// <summary>Frames side by side, and in words.</summary>
internal static class ComparisonSection
{
    private static readonly (string Name, Func<FourStiffnesses, double> Of)[] _stiffnesses =
    [
        ("Axial, N/mm", s => s.AxialNPerMm),
        ("AP bending, N·m/deg", s => s.ApBendingNmPerDeg),
        ("ML bending, N·m/deg", s => s.MlBendingNmPerDeg),
        ("Torsion, N·m/deg", s => s.TorsionNmPerDeg),
    ];

    public static void Append(StringBuilder page, Case value, Assessment assessment, ImmutableArray<FrameDrawing> drawings)
    {
        bool loaded = value.Loading != new Loading();
        Column[] columns =
        [
            new("Frame"), .. _stiffnesses.Select(s => new Column(s.Name)), new("Weakest bending, N·m/deg"),
            .. loaded ? [new Column("Motion at the fracture, mm")] : Array.Empty<Column>(),
            new("Model's first limit as axial load grows"), new("Parts", IsText: true),
        ];
        page.Append("<h2>Side by side</h2>\n");
        HtmlTable.Append(page, "", columns, assessment.Frames.Select(f => Row(f, assessment, drawings.First(d => d.FrameId == f.Id), loaded)));
        string inputs = assessment.Frames.Select(f => f.Band?.Inputs).FirstOrDefault(i => i is not null) ?? "";
        page.Append(CultureInfo.InvariantCulture, $"<p class=\"caption\">Stiffness at the fracture, load on the proximal end. {(inputs.Length > 0 ? $"The thin line on each bar, and the range below a motion or load, is what {Text(inputs)} may do together. " : "")}Highest stiffness of each column in colour. A first limit is no load to allow.</p>\n");
        page.Append("<h2>What the numbers mean</h2>\n<ul class=\"words\">\n");
        foreach (string sentence in assessment.Comparison)
        {
            page.Append(CultureInfo.InvariantCulture, $"<li>{Text(sentence)}</li>\n");
        }

        page.Append("</ul>\n");
    }

    private static Cell[] Row(FrameAssessment f, Assessment assessment, FrameDrawing drawing, bool loaded) =>
    [
        f.Name,
        .. _stiffnesses.Select(s => Stiffness(f, s.Name, s.Of, assessment)),
        f.BendingRose is BendingRose r ? new Cell(Numbers.Stiffness(r.WeakNmPerDeg), $"{Directions.Of(r.WeakAzimuthDeg)}, {Numbers.Azimuth(r.WeakAzimuthDeg)}") : HtmlTable.Nothing,
        .. loaded ? [ResultTables.Motion(f)] : Array.Empty<Cell>(),
        f.Status == FrameStatus.Mechanism ? "does not hold" : f.FirstLimit is FirstLimit l ? new Cell($"{Numbers.Kg(l.LoadKg)} kg", $"{(f.Band?.FirstLimitKg is Interval kg ? $"{Numbers.Kg(kg.Low)}–{Numbers.Kg(kg.High)}; " : "")}{LimitWords.Of(l, drawing)}") : f.Freedoms.IsEmpty ? "not worked out" : "slides as intended",
        PartWords.Count(f.Kit, drawing),
    ];

    private static Cell Stiffness(FrameAssessment f, string name, Func<FourStiffnesses, double> of, Assessment assessment)
    {
        if (f.Stiffness is null)
        {
            return HtmlTable.Nothing;
        }

        double value = of(f.Stiffness.AtFracture);
        if (value == 0)
        {
            return Numbers.Stiffness(0);
        }

        double most = assessment.Frames.Max(x => x.Stiffness is null ? 0 : of(x.Stiffness.AtFracture));
        double scale = Math.Max(most, assessment.Frames.Max(x => x.Band is null ? 0 : of(x.Band.High)));
        (double, double)? band = f.Band is { } b ? (of(b.Low), of(b.High)) : null;
        return new(Numbers.Stiffness(value), Figure: BarFigure.Draw($"{name}: {Numbers.Stiffness(value)}", value, scale, band), IsBest: value == most);
    }
}
