using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;

namespace Halfpin.Anatomy.Corridors;

/// <summary>A structure's place at a level.</summary>
/// <param name="LevelPercent">Level as a share of the bone's length.</param>
/// <param name="AzimuthDeg">Azimuth from the bone's axis; may run past ±180° so that it changes evenly.</param>
/// <param name="DistanceMm">Distance from the bone's axis, for a bone of 350 mm.</param>
public readonly record struct StructurePlace(double LevelPercent, double AzimuthDeg, double DistanceMm);

/// <summary>A vessel, nerve or bone along the tibia.</summary>
/// <param name="Name">Its name.</param>
/// <param name="RadiusMm">Its radius with what runs beside it, for a bone of 350 mm; ASSUMED but for the fibula.</param>
/// <param name="Tag">Tag of its course.</param>
/// <param name="Source">Where its course comes from.</param>
/// <param name="Course">Its places from proximal; straight between them.</param>
public sealed record TibiaStructure(string Name, double RadiusMm, string Tag, string Source, ImmutableArray<StructurePlace> Course)
{
    private const string Fitted = "fitted to the described course (Surg Radiol Anat 1998;20:259) on measured bone";

    /// <summary>What lies round the tibia. Courses are estimates on measured bone and vary between people.</summary>
    public static ImmutableArray<TibiaStructure> All { get; } =
    [
        new("anterior tibial vessels and deep peroneal nerve", 3, "ESTIMATE", Fitted,
            [new(15, -125, 19.5), new(35, -130, 19.5), new(50, -95, 15), new(65, -75, 14), new(75, -60, 13), new(85, -27, 15), new(95, -15, 24)]),
        new("posterior tibial vessels and tibial nerve", 4, "ESTIMATE", Fitted,
            [new(10, 180, 33), new(30, 165, 27), new(60, 165, 27), new(80, 145, 24), new(95, 130, 27)]),
        new("peroneal vessels", 3, "ESTIMATE", Fitted, [new(40, -165, 27), new(70, -165, 27), new(90, -150, 24)]),
        new("common peroneal nerve", 3, "ESTIMATE", "described course on measured bone", [new(4, -140, 47), new(12, -110, 47)]),
        new("fibula", 6.5, "MEASURED", "six adults",
            [new(8, -131, 41), new(20, -144, 42), new(35, -148, 41), new(50, -151, 38), new(65, -151, 32), new(80, -145, 28), new(95, -138, 27)]),
    ];

    /// <summary>Its place in a bone of a length, scaled with it; null above and below the described course.</summary>
    public SectionStructure? At(double levelMm, double lengthMm)
    {
        double levelPercent = 100 * levelMm / lengthMm, scale = lengthMm / TibiaLevels.ReferenceLengthMm;
        for (int i = 1; i < Course.Length; i++)
        {
            StructurePlace a = Course[i - 1], b = Course[i];
            if (levelPercent >= a.LevelPercent && levelPercent <= b.LevelPercent)
            {
                double t = (levelPercent - a.LevelPercent) / (b.LevelPercent - a.LevelPercent);
                double azimuth = Math.IEEERemainder(a.AzimuthDeg + (t * (b.AzimuthDeg - a.AzimuthDeg)), 360);
                return new(Name, azimuth, scale * (a.DistanceMm + (t * (b.DistanceMm - a.DistanceMm))), scale * RadiusMm, Tag);
            }
        }

        return null;
    }
}
