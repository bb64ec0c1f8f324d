using System.Collections.Immutable;

namespace Halfpin.Anatomy.Bones;

/// <summary>The outline of the tibia at one level: six sides of a blunted triangle and how sharply they meet.</summary>
/// <param name="LevelPercent">Level as a share of the bone's length, from the proximal joint line.</param>
/// <param name="NormalDeg">Azimuths of the sides' outward normals: medial, lateral and posterior face; blunting at the crest, posterolateral and posteromedial corners. Unwound: not to be brought into ±180°.</param>
/// <param name="DistanceMm">Distances of the sides from the centroid, for a bone of 350 mm.</param>
/// <param name="Sharpness">Exponent that blends the sides; large is sharp.</param>
internal sealed record TibiaLevel(
    double LevelPercent, ImmutableArray<double> NormalDeg, ImmutableArray<double> DistanceMm, double Sharpness);

/// <summary>
/// The family's parameters by level, fitted to widths, areas, corner angles and chords of eight adult tibiae (six people) for a
/// bone of 350 mm: MEASURED on openly published CT and MRI surfaces. The surfaces themselves are not part of the project.
/// </summary>
internal static class TibiaLevels
{
    /// <summary>Length of bone to which the table belongs.</summary>
    public const double ReferenceLengthMm = 350;

    public static ImmutableArray<TibiaLevel> All { get; } =
    [
        new(3, [26.119, -96.285, 176.13, -29.256, -121.8, 98.162], [28.038, 38.205, 25.513, 34.598, 59.999, 42.259], 4.0853),
        new(5, [24.198, -90.284, 173.65, -42.75, -126.67, 89.038], [24.749, 34.679, 22.543, 33.101, 49.432, 39.67], 6.0817),
        new(8, [37.46, -90.284, 178.42, -38.726, -140.5, 107.19], [18.612, 25.481, 20.099, 31.058, 34.761, 35.513], 6.1943),
        new(10, [39.916, -92.49, 179.82, -38.73, -147.74, 112.71], [16.882, 22.146, 19.171, 27.727, 29.051, 30.076], 5.2724),
        new(15, [36.618, -98.273, 169.01, -37.126, -148.05, 106.24], [14.629, 16.941, 19.561, 25.861, 21.415, 22.919], 4.51),
        new(20, [36.128, -99.397, 159, -32.301, -152.42, 100.73], [13.093, 14.036, 18.476, 24.023, 18.499, 19.533], 5.0365),
        new(25, [41.379, -98.385, 155.88, -27.183, -157.57, 100.47], [11.767, 12.344, 17.309, 21.324, 16.685, 17.766], 5.6758),
        new(30, [43.001, -96.421, 157.56, -25.176, -158.05, 102.27], [10.941, 11.601, 16.363, 20.304, 15.512, 16.835], 5.9429),
        new(40, [44.006, -95.957, 160.3, -24.641, -158.34, 105.01], [10.19, 10.711, 14.766, 18.455, 14.887, 15.736], 5.6341),
        new(50, [38.902, -100.28, 162.81, -28.749, -157.22, 105.89], [9.5925, 10.287, 13.136, 16.899, 14.632, 14.939], 5.4212),
        new(60, [36.203, -103.93, 165.71, -29.619, -152.46, 105], [9.0355, 9.9898, 11.796, 15.364, 14.815, 14.412], 4.8286),
        new(65, [35.815, -101.08, 168.72, -31.977, -148.53, 104.09], [8.8722, 10.182, 10.887, 14.762, 14.986, 14.316], 4.7789),
        new(70, [36.825, -97.421, 170.09, -31.349, -142.08, 104.41], [8.9373, 10.363, 10.389, 14.182, 15.182, 14.243], 4.7801),
        new(75, [39.884, -91.313, 171.54, -29.506, -134.61, 106.07], [9.3822, 10.875, 10.189, 13.549, 15.09, 14.388], 4.7617),
        new(80, [41.981, -83.135, 173.14, -24.984, -127.23, 106.72], [10.414, 11.711, 10.714, 13.905, 15.235, 14.562], 4.5975),
        new(85, [46.512, -72.388, 177.2, -20.893, -123.06, 111.8], [11.922, 12.995, 11.925, 15.057, 16.157, 15.19], 3.8526),
        new(90, [49.583, -58.585, 181.97, -18.12, -122.46, 121.1], [15.183, 15.063, 15.263, 17.814, 18.18, 15.713], 3.0894),
        new(95, [48.66, -48.53, 196.07, -15.071, -124.2, 127.28], [19.899, 19.212, 21.899, 22.979, 21.059, 18.282], 3.6962),
    ];

    /// <summary>Mean thickness of the wall by level, mm at 350 mm. MODEL from MEMORY; no sourced table was found.</summary>
    public static ImmutableArray<(double LevelPercent, double WallMm)> Wall { get; } =
    [
        (5, 1.2), (10, 1.6), (15, 2.2), (20, 2.8), (25, 3.5), (30, 4.1), (40, 5.0), (50, 5.6),
        (60, 5.4), (65, 5.0), (70, 4.5), (75, 4.0), (80, 3.2), (85, 2.5), (90, 1.6), (95, 1.2),
    ];

    /// <summary>How round the canal is against the outline: 0 a copy of it, 1 a circle. MODEL.</summary>
    public static ImmutableArray<(double LevelPercent, double Share)> CanalRoundness { get; } =
        [(25, 0), (30, 0.25), (35, 0.25), (40, 0.5), (65, 0.5), (70, 0.25), (75, 0.25), (80, 0)];
}
