using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.Corridors;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;

namespace Halfpin.Placement.Corridors;

/// <summary>A structure near a pin's way.</summary>
/// <param name="Name">Its name.</param>
/// <param name="GapMm">Room between the pin's surface and the structure's; negative when the pin runs into it.</param>
/// <param name="Tag">Tag of the structure's course.</param>
/// <param name="Source">Where its course comes from.</param>
/// <param name="IsSubcutaneous">True for a nerve or vein under the skin.</param>
public sealed record NearStructure(string Name, double GapMm, string Tag, string Source, bool IsSubcutaneous);

/// <summary>The way of a pin through a tibia and what it meets: graded where it enters, searched where it leaves.</summary>
/// <remarks>
/// Sector edges are meant for the pin's axis, with room for its width and an error of rotation in them, so the entry is graded at the
/// axis; along the bone it is graded over the pin's whole width and a margin, the worst level counting. Structures are tubes; the pin is
/// a capsule of its diameter. Behind the far surface it is searched as far as a careless tip would go.
/// </remarks>
public static class PinPassage
{
    /// <summary>ASSUMED: wall of a tissue sleeve round the pin.</summary>
    public const double SleeveMm = 2;

    /// <summary>A tip farther beyond the far surface than this raises caution. MEMORY.</summary>
    public const double TipCautionMm = 2;

    /// <summary>Never farther than this. MEMORY.</summary>
    public const double TipNeverMm = 5;

    /// <summary>ASSUMED: nearer than this to a named structure, the way in deserves a look.</summary>
    public const double WayInMm = 5;

    // Exit within this of a structure: the handbook's derived windows.
    private const double WindowDeg = 20;

    // What the window looks at lies no farther behind the bone than this; beyond it there is muscle between. ASSUMED.
    private const double WindowDepthMm = 15;

    private const int Steps = 24;

    /// <summary>The grade of a pin where it enters the bone: the worst over its width along the bone.</summary>
    public static CorridorGrade Entry(BoneShape bone, Pin pin, PlacedPin placed) => WorstEntry(bone, pin, placed).Grade;

    /// <summary>The worst grade over a pin's width along the bone, and the level at which it has it: the middle where that is as bad as any.</summary>
    public static (CorridorGrade Grade, double LevelMm) WorstEntry(BoneShape bone, Pin pin, PlacedPin placed)
    {
        (double level, double azimuth) = Polar(placed.At(placed.SurfaceMm));
        double half = ((pin.DiameterMm / 2) + SleeveMm) / Math.Cos(pin.TiltDeg * Math.PI / 180);
        (CorridorGrade Grade, double LevelMm) worst = (TibiaCorridors.GradeAt(100 * level / bone.LengthMm, azimuth), level);
        foreach (double at in (ReadOnlySpan<double>)[level - half, level + half])
        {
            CorridorGrade grade = TibiaCorridors.GradeAt(100 * at / bone.LengthMm, azimuth);
            worst = grade > worst.Grade ? (grade, at) : worst;
        }

        return worst;
    }

    /// <summary>Level and azimuth where a pin enters the bone.</summary>
    public static (double LevelMm, double AzimuthDeg) EntryPoint(PlacedPin placed) => Polar(placed.At(placed.SurfaceMm));

    /// <summary>Structures that a pin's axis points at behind the far surface: by the windows of entry, and by their courses.</summary>
    public static ImmutableArray<string> Behind(BoneShape bone, PlacedPin placed)
    {
        (double level, double azimuth) = Polar(placed.At(placed.FarSurfaceMm));
        double radius = bone.OuterRadiusMm(level, azimuth), entry = EntryPoint(placed).AzimuthDeg, percent = 100 * level / bone.LengthMm;
        IEnumerable<string> windows = ExitWindow.All.Where(w => w.Holds(percent, entry)).Select(w => w.Structure);
        return [.. windows.Union(TibiaStructure.All.Where(s => s.At(level, bone.LengthMm) is SectionStructure place
            && Math.Abs(Math.IEEERemainder(place.AzimuthDeg - azimuth, 360)) <= WindowDeg && place.DistanceMm - radius <= WindowDepthMm).Select(s => s.Name))];
    }

    /// <summary>Structures whose surface comes within a distance of the pin outside the bone, nearest first.</summary>
    /// <param name="bone">The bone.</param>
    /// <param name="pin">The pin.</param>
    /// <param name="placed">The pin in space.</param>
    /// <param name="fromMm">Where the searched stretch begins, distance along the pin.</param>
    /// <param name="toMm">Where it ends.</param>
    /// <param name="withinMm">Greatest gap told.</param>
    public static ImmutableArray<NearStructure> Near(BoneShape bone, Pin pin, PlacedPin placed, double fromMm, double toMm, double withinMm)
    {
        List<NearStructure> near = [];
        foreach (TibiaStructure s in TibiaStructure.All)
        {
            double gap = double.PositiveInfinity, z = double.NaN;
            (Vec3 Centre, double RadiusMm)? section = null;
            for (int i = 0; i <= Steps; i++)
            {
                // A pin across the bone stays at one level, where the structure has one place.
                Vec3 p = placed.At(fromMm + ((toMm - fromMm) * i / Steps));
                if (p.Z != z)
                {
                    (z, section) = (p.Z, SectionOf(s, p.Z, bone.LengthMm));
                }

                gap = Math.Min(gap, (section is { } at ? (p - at.Centre).Length - at.RadiusMm : double.PositiveInfinity) - (pin.DiameterMm / 2));
            }

            if (gap <= withinMm)
            {
                near.Add(new(s.Name, gap, s.Tag, s.Source, s.IsSubcutaneous));
            }
        }

        return near.Count == 0 ? [] : [.. near.OrderBy(n => n.GapMm)];
    }

    // A structure across the bone: its course being nearly along it, the distance to its surface is that within the section.
    private static (Vec3 Centre, double RadiusMm)? SectionOf(TibiaStructure structure, double z, double lengthMm) =>
        structure.At(-z, lengthMm) is SectionStructure place ? ((place.DistanceMm * PlacedPin.Radial(place.AzimuthDeg)) + new Vec3(0, 0, z), place.RadiusMm) : null;

    private static (double LevelMm, double AzimuthDeg) Polar(Vec3 p) => (-p.Z, Math.Atan2(p.Y, p.X) * 180 / Math.PI);
}
