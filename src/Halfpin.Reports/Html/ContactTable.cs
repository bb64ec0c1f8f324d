using System.Globalization;
using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Words;

namespace Halfpin.Reports.Html;

/// <summary>How the bone ends come to bear on each other, who carries the load then, and what comes next.</summary>
internal static class ContactTable
{
    private static readonly Column[] _columns = [new("Bone ends"), new("As the axial load grows", IsText: true)];

    /// <summary>The table; nothing for a frame without results.</summary>
    public static void Append(StringBuilder page, FrameAssessment f, FrameDrawing drawing)
    {
        List<Cell[]> rows = [];
        if (f.Fractures.IsEmpty)
        {
            Add(rows, "", f.Contact, f.Motion, f.OverloadMotion, drawing);
        }

        for (int i = 0; i < f.Fractures.Length; i++)
        {
            FractureResult r = f.Fractures[i];
            Add(rows, $"Fracture {i + 1}: ", r.Contact, r.Motion, r.OverloadMotion, drawing);
        }

        if (rows.Count > 0)
        {
            HtmlTable.Append(page, "", _columns, rows);
        }
    }

    private static void Add(List<Cell[]> rows, string fracture, BoneContact? contact, FractureMotion? chosen, FractureMotion? overload, FrameDrawing drawing)
    {
        if (contact is not BoneContact c)
        {
            return;
        }

        rows.Add([$"{fracture}First touch", c is { FirstTouchN: double n, FirstTouchAzimuthDeg: double azimuth }
            ? new Cell(n == 0 ? "at once" : Text($"from {n:0} N ({Numbers.Kg(n / Loading.NewtonPerKg)} kg)"), $"{Directions.Of(azimuth)}, {Numbers.Azimuth(azimuth)}")
            : "not within the model's range"]);
        if (c is { AxialBeforeNPerMm: double before, AxialAfterNPerMm: double after })
        {
            rows.Add(["Axial stiffness at the fracture", new($"{Numbers.Stiffness(before)} N/mm before, up to {Numbers.Stiffness(after)} N/mm after the touch")]);
        }

        if (!c.Steps.IsEmpty)
        {
            rows.Add(["Frame alone, by loose clamps", new(string.Join(" ", c.Steps.Select(s => s.Message)))]);
        }

        Share(rows, "Under the chosen load", c.AtChosenLoad, chosen);
        Share(rows, "With the overload", c.AtOverload, overload);
        if (c.LimitAfterTouch is FirstLimit next)
        {
            rows.Add(["Next after the touch", new(LimitWords.Of(next, drawing), Text($"at {next.LoadN:0} N ({Numbers.Kg(next.LoadKg)} kg); no load to allow"))]);
        }
    }

    private static void Share(List<Cell[]> rows, string load, ContactAtLoad? at, FractureMotion? motion)
    {
        if (at is { FrameShare: double share } && motion is { EndsTouch: true } m)
        {
            string carried = share < 0 ? "bone carries all; the frame pulls the ends together" : $"the frame carries {Numbers.Percent(share)}";
            rows.Add([$"{load}, {Numbers.Kg(at.LoadN / Loading.NewtonPerKg)} kg", new($"{carried}; {Where(m)}", $"ends {Numbers.Motion(at.SlidingMm)} mm along each other")]);
        }
    }

    private static string Where(FractureMotion m) => m is { BearingFromDeg: double from, BearingToDeg: double to }
        ? from == to ? $"the cortex at {Numbers.Azimuth(from)} bears" : $"the cortex from {Numbers.Azimuth(from)} to {Numbers.Azimuth(to)} bears"
        : "the whole ring bears";

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
