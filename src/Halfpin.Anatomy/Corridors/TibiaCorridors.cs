using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Anatomy.Corridors;

/// <summary>
/// Where half-pins may enter a tibia, by level and azimuth of their axis. Sides read alike: + is medial on either leg.
/// </summary>
/// <remarks>
/// Within a zone the table holds as it stands; near the border of two zones the edges run from one zone's to what both allow, so that
/// interpolation never allows more than the zone itself. What is preferred or safe keeps 10° from what is to be avoided: errors of
/// rotation and the spread between people (standard deviation of borders 3–14°, MEASURED).
/// </remarks>
public static class TibiaCorridors
{
    /// <summary>Angle kept between what is offered and what is to be avoided.</summary>
    public const double MarginDeg = 10;

    // ASSUMED: edges run together over this much on either side of a border.
    private const double BlendPercent = 2;

    /// <summary>The grade of a direction.</summary>
    /// <param name="levelPercent">Level as a share of the bone's length, clamped to it.</param>
    /// <param name="azimuthDeg">Azimuth of the pin's axis where it enters.</param>
    public static CorridorGrade GradeAt(double levelPercent, double azimuthDeg)
    {
        CorridorRanges ranges = RangesAt(levelPercent);
        double a = Math.IEEERemainder(azimuthDeg, 360);
        return ranges.Preferred.Holds(a) ? CorridorGrade.Preferred
            : ranges.Safe.Holds(a) ? CorridorGrade.Safe
            : ranges.Caution.Holds(a) || ranges.Lateral.Holds(a) ? CorridorGrade.Caution
            : CorridorGrade.Avoid;
    }

    /// <summary>The name of the zone at a level.</summary>
    public static string ZoneName(double levelPercent) => ZoneAt(levelPercent).Name;

    /// <summary>All directions at a level, from −180° on, each sector as wide as it goes.</summary>
    public static ImmutableArray<CorridorSector> SectorsAt(double levelPercent)
    {
        CorridorZone zone = ZoneAt(levelPercent);
        CorridorRanges ranges = RangesAt(levelPercent);
        double[] edges = [.. new[] { ranges.Preferred, ranges.Safe, ranges.Caution, ranges.Lateral }.Where(r => !r.IsEmpty)
            .SelectMany(r => new[] { r.FromDeg, r.ToDeg }).Concat([-180, 180]).Distinct().Order()];
        List<CorridorSector> sectors = [];
        for (int i = 1; i < edges.Length; i++)
        {
            double middle = (edges[i - 1] + edges[i]) / 2;
            CorridorGrade grade = GradeAt(levelPercent, middle);
            sectors.Add(new(edges[i - 1], edges[i], grade, Structures(zone, ranges, grade, middle), zone.Source, zone.Tag));
        }

        return [.. sectors];
    }

    /// <summary>The nearest azimuth of a grade or better; null where there is none.</summary>
    public static double? NearestDeg(double levelPercent, double azimuthDeg, CorridorGrade grade)
    {
        CorridorRanges ranges = RangesAt(levelPercent);
        AzimuthRange range = grade == CorridorGrade.Preferred ? ranges.Preferred : grade == CorridorGrade.Safe ? ranges.Safe : ranges.Caution;
        if (range.IsEmpty)
        {
            return null;
        }

        double a = Math.IEEERemainder(azimuthDeg, 360);
        double Off(double edge) => Math.Abs(Math.IEEERemainder(edge - a, 360));
        return range.Holds(a) ? a : Off(range.FromDeg) < Off(range.ToDeg) ? range.FromDeg : range.ToDeg;
    }

    /// <summary>What is at risk in a direction.</summary>
    public static ImmutableArray<string> StructuresAt(double levelPercent, double azimuthDeg) => Structures(
        ZoneAt(levelPercent), RangesAt(levelPercent), GradeAt(levelPercent, azimuthDeg), Math.IEEERemainder(azimuthDeg, 360));

    private static ImmutableArray<string> Structures(CorridorZone zone, CorridorRanges ranges, CorridorGrade grade, double azimuthDeg) => grade switch
    {
        CorridorGrade.Avoid => zone.Outside,
        CorridorGrade.Caution when ranges.Lateral.Holds(azimuthDeg) => zone.LateralRange,
        CorridorGrade.Caution => azimuthDeg < (ranges.Safe.FromDeg + ranges.Safe.ToDeg) / 2 ? zone.LateralOfSafe : zone.MedialOfSafe,
        _ => zone.Within,
    };

    private static CorridorZone ZoneAt(double levelPercent) => CorridorZones.All[ZoneNumber(Math.Clamp(levelPercent, 0, 100))];

    private static int ZoneNumber(double percent)
    {
        int i = 0;
        while (percent > CorridorZones.All[i].ToPercent)
        {
            i++;
        }

        return i;
    }

    private static CorridorRanges RangesAt(double levelPercent)
    {
        double p = Math.Clamp(levelPercent, 0, 100);
        ImmutableArray<CorridorZone> zones = CorridorZones.All;
        int i = ZoneNumber(p);
        CorridorRanges ranges = zones[i].Ranges;
        if (i > 0 && p < zones[i].FromPercent + BlendPercent)
        {
            ranges = zones[i - 1].Ranges.And(ranges).Toward(ranges, (p - zones[i].FromPercent) / BlendPercent);
        }

        if (i < zones.Length - 1 && p > zones[i].ToPercent - BlendPercent)
        {
            // A short zone may be near both borders at once.
            ranges = ranges.And(zones[i + 1].Ranges.And(zones[i].Ranges).Toward(zones[i].Ranges, (zones[i].ToPercent - p) / BlendPercent));
        }

        AzimuthRange safe = ranges.Safe.Within(ranges.Caution, MarginDeg);
        return ranges with { Safe = safe, Preferred = ranges.Preferred.And(safe) };
    }
}
