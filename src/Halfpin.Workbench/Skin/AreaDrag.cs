using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Skin;

/// <summary>Edges of an area of skin.</summary>
[Flags]
public enum AreaEdges
{
    None = 0,
    Proximal = 1,
    Distal = 2,

    /// <summary>The edge from which the azimuth rises.</summary>
    First = 4,

    /// <summary>The edge to which it rises.</summary>
    Second = 8,

    /// <summary>The area as a whole.</summary>
    All = Proximal | Distal | First | Second,
}

/// <summary>A wound or planned incision moved, or drawn larger or smaller by its edges, on the drawing of the skin.</summary>
/// <param name="Pointer">Where it stands in the case file: "/wounds/0".</param>
/// <param name="Edges">The edges that move; all of them move it as it is.</param>
/// <param name="ByMm">How far along the limb, distally positive.</param>
/// <param name="ByDeg">How far round it, with rising azimuth positive.</param>
public sealed record AreaDrag(string Pointer, AreaEdges Edges, double ByMm, double ByDeg)
{
    // ASSUMED: an area can still be taken hold of at this size; smaller ones are typed.
    private const double LeastMm = 4;
    private const double LeastDeg = 4;

    // Skin is left between its two edges, so that it is seen which is which.
    private const double MostDeg = 350;

    /// <summary>Reads what the drawing sends: pointer, edges, mm and degrees with spaces between; null for anything else.</summary>
    public static AreaDrag? Read(string? text) =>
        text?.Split(' ') is [string pointer, string edges, string mm, string deg]
        && int.TryParse(edges, NumberStyles.None, CultureInfo.InvariantCulture, out int which) && which is > 0 and <= (int)AreaEdges.All
        && double.TryParse(mm, NumberStyles.Float, CultureInfo.InvariantCulture, out double byMm) && double.IsFinite(byMm)
        && double.TryParse(deg, NumberStyles.Float, CultureInfo.InvariantCulture, out double byDeg) && double.IsFinite(byDeg)
            ? new(pointer, (AreaEdges)which, byMm, byDeg) : null;

    /// <summary>The change, to whole millimetres and degrees within the limb; null when the case has no such area.</summary>
    public CaseEdit? Edit(Case value)
    {
        for (int i = 0; i < value.Wounds.Length; i++)
        {
            if (Pointer == string.Create(CultureInfo.InvariantCulture, $"/wounds/{i}"))
            {
                int at = i;
                Wound moved = Moved(value.Wounds[i], value.Limb.LengthMm);
                return new($"{SkinMapBuilder.WoundName(i)}: {Words(moved)}", v => v with { Wounds = v.Wounds.SetItem(at, moved) });
            }
        }

        for (int i = 0; i < value.PlannedIncisions.Length; i++)
        {
            if (Pointer == string.Create(CultureInfo.InvariantCulture, $"/plannedIncisions/{i}"))
            {
                int at = i;
                PlannedIncision moved = Moved(value.PlannedIncisions[i], value.Limb.LengthMm);
                return new($"{SkinMapBuilder.IncisionName(i)}: {Words(moved)}", v => v with { PlannedIncisions = v.PlannedIncisions.SetItem(at, moved) });
            }
        }

        return null;
    }

    /// <summary>An area in words: "190 to 220 mm, −20 to 20°".</summary>
    public static string Words(Wound area) => $"{N(area.FromLevelMm)} to {N(area.ToLevelMm)} mm, {N(area.FromAzimuthDeg)} to {N(area.ToAzimuthDeg)}°";

    private T Moved<T>(T area, double lengthMm)
        where T : Wound
    {
        double from = area.FromLevelMm, to = area.ToLevelMm, sweep = Sweep(area), first = area.FromAzimuthDeg;
        if (Edges == AreaEdges.All)
        {
            double by = Math.Clamp(Math.Round(from + ByMm), 0, Math.Max(0, lengthMm - (to - from))) - from;
            (from, to, first) = (from + by, to + by, Math.Round(first + ByDeg));
        }
        else
        {
            from = Edges.HasFlag(AreaEdges.Proximal) ? Math.Clamp(Math.Round(from + ByMm), 0, Math.Max(0, to - LeastMm)) : from;
            to = Edges.HasFlag(AreaEdges.Distal) ? Math.Clamp(Math.Round(to + ByMm), Math.Min(lengthMm, from + LeastMm), lengthMm) : to;
            if (Edges.HasFlag(AreaEdges.First))
            {
                double last = first + sweep;
                first = Math.Clamp(Math.Round(first + ByDeg), last - MostDeg, last - LeastDeg);
                sweep = last - first;
            }

            sweep = Edges.HasFlag(AreaEdges.Second) ? Math.Clamp(Math.Round(first + sweep + ByDeg) - first, LeastDeg, MostDeg) : sweep;
        }

        return area with { FromLevelMm = from, ToLevelMm = to, FromAzimuthDeg = Turned(first), ToAzimuthDeg = Turned(first + sweep) };
    }

    private static double Sweep(Wound area) => area.ToAzimuthDeg >= area.FromAzimuthDeg ? area.ToAzimuthDeg - area.FromAzimuthDeg : area.ToAzimuthDeg - area.FromAzimuthDeg + 360;

    private static double Turned(double azimuthDeg) => azimuthDeg is >= -180 and <= 180 ? azimuthDeg : Math.IEEERemainder(azimuthDeg, 360);

    private static string N(double value) => value.ToString("0.##;−0.##;0", CultureInfo.InvariantCulture);
}
