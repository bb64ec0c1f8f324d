using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Words;

namespace Halfpin.Reports.Html;

/// <summary>A frame's motion at the fracture, its stiffness by place, and the parts nearest to their limits.</summary>
internal static class ResultTables
{
    private static readonly Column[] _motion =
    [
        new("Load"), new("Axial, mm"), new("Shear, mm"), new("Tilt,\u00a0°"), new("Twist,\u00a0°"), new("Near cortex, mm"), new("Far cortex, mm"), new("Strain"),
    ];

    private static readonly Column[] _stiffness =
    [
        new("Stiffness"), new("Axial, N/mm"), new("AP bending, N·m/deg"), new("ML bending, N·m/deg"), new("Torsion, N·m/deg"),
    ];

    private static readonly Column[] _limits = [new("Under the chosen load"), new("Where", IsText: true), new("Of its limit")];

    /// <summary>Motion under the chosen load and with the overload; nothing where motion is withheld.</summary>
    public static void Motion(StringBuilder page, Case value, FrameAssessment f)
    {
        if (f.Motion is null)
        {
            return;
        }

        List<Cell[]> rows = [];
        if (f.Fractures.IsEmpty)
        {
            AddMotion(rows, value, "", f.Motion, f.OverloadMotion, f.Band);
        }

        for (int i = 0; i < f.Fractures.Length; i++)
        {
            AddMotion(rows, value, $"Fracture {i + 1}. ", f.Fractures[i].Motion!, f.Fractures[i].OverloadMotion, i == 0 ? f.Band : null);
        }

        HtmlTable.Append(page, $"Motion at the {(f.Fractures.IsEmpty ? "fracture" : "fractures, numbered from proximal")}; near cortex is the one toward the rods", _motion, rows);
    }

    // The rows of one fracture.
    private static void AddMotion(List<Cell[]> rows, Case value, string fracture, FractureMotion chosen, FractureMotion? overload, ResultBand? limits)
    {
        if (value.Loading != new Loading())
        {
            rows.Add(Row(new($"{fracture}Chosen: {CaseWords.Load(value.Loading)}", Bearing(chosen)), chosen));
            if (limits is { AxialMm: not null } band)
            {
                rows.Add(["– softest to stiffest", Range(band.AxialMm), band.ShearMm is Interval shear ? Range(shear) : HtmlTable.Nothing, .. Enumerable.Repeat<Cell>(HtmlTable.Nothing, _motion.Length - 3)]);
            }
        }

        if (overload is FractureMotion over)
        {
            rows.Add(Row(new($"{fracture}Overload: {CaseWords.Load(value.Loading with { AllowedKg = Math.Round(over.LoadN / Loading.NewtonPerKg) })}", Bearing(over) is { Length: > 0 } bearing ? bearing : "with the mean excess patients put on"), over));
        }
        else
        {
            rows.Add([new($"{fracture}Overload", "withheld: beyond the range of the model"), .. Enumerable.Repeat<Cell>(HtmlTable.Nothing, _motion.Length - 1)]);
        }
    }

    /// <summary>Stiffness at the fracture with its band, and at the loaded end.</summary>
    public static void Stiffness(StringBuilder page, FrameAssessment f)
    {
        if (f.Stiffness is not FrameStiffness s)
        {
            return;
        }

        List<Cell[]> rows = [Row(f.Fractures.IsEmpty ? "At the fracture" : "At fracture 1", s.AtFracture)];
        if (f.Band is { } band)
        {
            rows.Add(["– softest to stiffest", .. Values(band.Low).Zip(Values(band.High), (low, high) => (Cell)Range(low, high))]);
        }

        rows.AddRange(f.Fractures.Skip(1).Select((r, i) => Row($"At fracture {i + 2}", r.AtFracture)));
        rows.Add(Row("At the load", s.AtLoad.Potted));
        rows.Add(["At the load, ends guided", Numbers.Stiffness(s.AtLoad.Guided.AxialNPerMm), .. Enumerable.Repeat<Cell>(HtmlTable.Nothing, 3)]);
        HtmlTable.Append(page, "Load over motion of the bone ends (at the fracture) or of the loaded end (at the load)", _stiffness, rows);
    }

    /// <summary>The part of each kind that is nearest to its limit.</summary>
    public static void Limits(StringBuilder page, FrameAssessment f, FrameDrawing drawing)
    {
        if (f.Utilisation.IsEmpty || f.Utilisation[0].Value == 0)
        {
            return;
        }

        HtmlTable.Append(page, "", _limits, LimitWords.Kinds
            .Select(k => (k.Heading, Most: f.Utilisation.Where(u => k.Holds(u, drawing)).MaxBy(u => u.Value)))
            .Where(k => k.Most is not null)
            .Select(k => new Cell[] { k.Heading, LimitWords.Of(k.Most!.Part, k.Most.Check, k.Most.Place, drawing), Numbers.Percent(k.Most.Value) }));
    }

    /// <summary>Axial motion with its sense in a word.</summary>
    public static string Axial(FractureMotion m) => string.Join('\u00a0', Sense(m.AxialMm, "opens", "closes") is var c && c.Small.Length > 0 ? [c.Text, c.Small] : new[] { c.Text });

    /// <summary>Motion in a cell, at every fracture if there are several.</summary>
    public static Cell Motion(FrameAssessment f)
    {
        if (f.Motion is not FractureMotion one)
        {
            return "withheld";
        }

        string band = f.Band?.AxialMm is Interval axial ? $"{Range(axial)}; " : "";
        FractureMotion[] all = [.. f.Fractures.Select(r => r.Motion!)];
        return all.Length == 0
            ? new(Axial(one), $"{band}shear\u00a0{Numbers.Motion(one.ShearMm)}")
            : new(string.Join("; ", all.Select((m, i) => $"{i + 1}:\u00a0{Axial(m)}")), $"by fracture; shear\u00a0{string.Join("; ", all.Select(m => Numbers.Motion(m.ShearMm)))}");
    }

    private static Cell[] Row(Cell load, FractureMotion m) =>
    [
        load, Sense(m.AxialMm, "opens", "closes"), Numbers.Motion(m.ShearMm), Numbers.Motion(m.TiltDeg), Sense(m.TwistDeg, "inward", "outward"),
        Sense(-m.ClosingNearMm, "opens", "closes"), Sense(-m.ClosingFarMm, "opens", "closes"), m.StrainPercent is double s ? Numbers.Percent(s / 100) : "no gap",
    ];

    private static Cell[] Row(Cell place, FourStiffnesses s) => [place, .. Values(s).Select(v => (Cell)Numbers.Stiffness(v))];

    private static double[] Values(FourStiffnesses s) => [s.AxialNPerMm, s.ApBendingNmPerDeg, s.MlBendingNmPerDeg, s.TorsionNmPerDeg];

    /// <summary>From the least to the most of a motion.</summary>
    public static string Range(Interval mm) => $"{Numbers.Motion(mm.Low)}–{Numbers.Motion(mm.High)}";

    // Who carries the load where the bone ends bear.
    private static string Bearing(FractureMotion m) => !m.EndsTouch ? ""
        : "bone ends bear" + (m.FrameShare is not double share ? "" : share < 0 ? "; the frame pulls them together" : $"; the frame carries {Numbers.Percent(share)}");

    private static string Range(double low, double high) => high == 0 ? "free" : $"{Numbers.Stiffness(low)}–{Numbers.Stiffness(high)}";

    private static Cell Sense(double value, string positive, string negative)
    {
        string size = Numbers.Motion(value);
        return new(size, size == "0.00" ? "" : value > 0 ? positive : negative);
    }
}
