using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;

namespace Halfpin.Anatomy.Corridors;

/// <summary>A structure's place at a level.</summary>
/// <param name="LevelPercent">Level as a share of the bone's length.</param>
/// <param name="AzimuthDeg">Azimuth from the bone's axis; may run past ±180° so that it changes evenly.</param>
/// <param name="DistanceMm">Distance from the bone's axis, for a bone of 350 mm.</param>
/// <param name="RadiusMm">Its radius with what runs beside it, for a bone of 350 mm; ASSUMED but for the fibula.</param>
public readonly record struct StructurePlace(double LevelPercent, double AzimuthDeg, double DistanceMm, double RadiusMm);

/// <summary>A vessel, nerve or bone along the tibia.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Tag">Tag of its course.</param>
/// <param name="Source">Where its course comes from.</param>
/// <param name="Course">Its places from proximal; straight between them.</param>
/// <param name="IsSubcutaneous">True for a nerve or vein under the skin, which a cut and spreading put out of harm's way.</param>
public sealed record TibiaStructure(string Name, string Tag, string Source, ImmutableArray<StructurePlace> Course, bool IsSubcutaneous = false)
{
    public const string AnteriorTibial = "anterior tibial vessels and deep peroneal nerve";
    public const string PosteriorTibial = "posterior tibial vessels and tibial nerve";
    public const string CommonPeroneal = "common peroneal nerve";

    private const string Fitted = "fitted to the described course (Surg Radiol Anat 1998;20:259) on measured bone";
    private const string Described = "described course on measured bone";

    /// <summary>What lies round the tibia. Courses are estimates on measured bone and vary between people.</summary>
    public static ImmutableArray<TibiaStructure> All { get; } =
    [
        new(AnteriorTibial, "ESTIMATE", Fitted,
            [new(15, -125, 19.5, 3), new(35, -130, 19.5, 3), new(50, -95, 15, 3), new(65, -75, 14, 3), new(75, -60, 13, 3), new(85, -27, 15, 3), new(95, -15, 24, 3)]),
        new(PosteriorTibial, "ESTIMATE", Fitted, [new(10, 180, 33, 4), new(30, 165, 27, 4), new(60, 165, 27, 4), new(80, 145, 24, 4), new(95, 130, 27, 4)]),
        new("peroneal vessels", "ESTIMATE", Fitted, [new(40, -165, 27, 3), new(70, -165, 27, 3), new(90, -150, 24, 3)]),
        new(CommonPeroneal, "ESTIMATE", Described, [new(4, -140, 47, 3), new(12, -110, 47, 3)]),
        new("superficial peroneal nerve", "ESTIMATE", "leaves the fascia about 116 mm above the lateral malleolus (Mirza et al. 2010), variable; place estimated", [new(65, -85, 32, 2), new(80, -60, 27, 2), new(95, -35, 28, 2)], IsSubcutaneous: true),

        // Under the skin of the medial border, then forward over the medial face above the ankle, where it was hit in ten of ten plates.
        new("saphenous nerve and great saphenous vein", "ESTIMATE", "described course under the skin; hit in 10 of 10 medial plates above the ankle (Mirza et al. 2010)",
            [new(10, 100, 32, 3), new(30, 100, 20, 3), new(50, 100, 18, 3), new(80, 105, 19, 3), new(87, 88, 20, 3), new(96, 50, 30, 3)], IsSubcutaneous: true),
        new("fibular head", "ESTIMATE", "measured fibula of six adults, carried on upwards", [new(3, -130, 41, 12), new(8, -131, 41, 12)]),
        new("fibula", "MEASURED", "six adults",
            [new(8, -131, 41, 12), new(12, -135, 41, 8), new(20, -144, 42, 6), new(35, -148, 41, 6), new(50, -151, 38, 6), new(65, -151, 32, 6), new(80, -145, 28, 6), new(85, -143, 28, 6), new(95, -138, 27, 7)]),
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
                return new(Name, azimuth, scale * (a.DistanceMm + (t * (b.DistanceMm - a.DistanceMm))), scale * (a.RadiusMm + (t * (b.RadiusMm - a.RadiusMm))), Tag);
            }
        }

        return null;
    }
}

/// <summary>A range of entries from which a pin across the bone points at a structure behind it.</summary>
/// <param name="FromPercent">Proximal end of the stretch of bone.</param>
/// <param name="ToPercent">Distal end.</param>
/// <param name="FromDeg">First azimuth of entry.</param>
/// <param name="ToDeg">Last azimuth of entry.</param>
/// <param name="Structure">What lies behind.</param>
public sealed record ExitWindow(double FromPercent, double ToPercent, double FromDeg, double ToDeg, string Structure)
{
    /// <summary>Published and derived windows (exit within 20° of a structure); DERIVED, two of them read as risks in the literature.</summary>
    public static ImmutableArray<ExitWindow> All { get; } =
    [
        new(15, 35, 30, 75, TibiaStructure.AnteriorTibial), new(35, 60, 60, 110, TibiaStructure.AnteriorTibial), new(60, 75, 85, 140, TibiaStructure.AnteriorTibial),
        new(10, 70, -35, 20, TibiaStructure.PosteriorTibial), new(4, 12, 30, 75, TibiaStructure.CommonPeroneal),
    ];

    /// <summary>True when an entry lies within the window.</summary>
    public bool Holds(double levelPercent, double entryAzimuthDeg) =>
        levelPercent >= FromPercent && levelPercent <= ToPercent && entryAzimuthDeg >= FromDeg && entryAzimuthDeg <= ToDeg;
}
