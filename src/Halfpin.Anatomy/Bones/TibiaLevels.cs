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
        new(3, [18.259, -110.08, 172.85, -37.693, -96.824, 91.371], [29.453, 42.741, 25.469, 32.953, 54.899, 40.407], 3.8504),
        new(5, [24.233, -89.492, 173.86, -43.937, -106.81, 90.015], [24.778, 35.91, 22.546, 33.071, 44.578, 39.769], 5.8726),
        new(8, [38.624, -90.289, 180.6, -38.81, -123.58, 108.85], [18.517, 25.71, 20.036, 31.075, 37.177, 35.579], 6.0073),
        new(10, [40.208, -91.894, 181.17, -38.992, -131.7, 114.51], [16.882, 22.346, 18.973, 27.683, 31.499, 30.021], 5.2084),
        new(15, [36.763, -98.131, 172.79, -37.7, -141.64, 108.59], [14.634, 17.034, 19.184, 25.985, 22.491, 22.847], 4.3704),
        new(20, [36.16, -98.55, 160.97, -31.64, -149.86, 102.24], [13.077, 14.105, 18.341, 24.31, 18.576, 19.578], 4.9525),
        new(25, [41.336, -98.588, 155.72, -27.326, -157.63, 100.18], [11.784, 12.347, 17.346, 21.296, 16.698, 17.742], 5.6344),
        new(30, [42.848, -96.583, 156.94, -25.411, -158.44, 101.53], [10.954, 11.593, 16.39, 20.304, 15.508, 16.797], 5.9353),
        new(40, [43.835, -96.094, 159.36, -24.862, -159.18, 103.91], [10.2, 10.7, 14.8, 18.46, 14.849, 15.712], 5.6441),
        new(50, [38.783, -100.38, 162.21, -28.93, -158.27, 105.12], [9.5966, 10.279, 13.164, 16.903, 14.574, 14.933], 5.4347),
        new(60, [36.276, -103.84, 165.63, -29.439, -152.4, 105.23], [9.0352, 9.9952, 11.808, 15.359, 14.745, 14.424], 4.8247),
        new(65, [35.947, -100.73, 168.8, -31.487, -146.93, 104.54], [8.8692, 10.202, 10.875, 14.756, 14.858, 14.335], 4.7909),
        new(70, [37.081, -96.618, 170.22, -30.312, -138.44, 104.96], [8.9374, 10.412, 10.381, 14.178, 14.789, 14.26], 4.7976),
        new(75, [40.317, -89.67, 171.85, -28.021, -129.94, 106.96], [9.3911, 10.961, 10.19, 13.575, 14.552, 14.39], 4.7681),
        new(80, [42.552, -80.817, 173.56, -22.71, -122.44, 107.56], [10.425, 11.8, 10.7, 13.948, 14.722, 14.551], 4.6359),
        new(85, [46.756, -69.301, 177.31, -17.697, -119.06, 112.19], [11.944, 12.999, 11.891, 15.312, 15.725, 15.177], 3.8784),
        new(90, [49.385, -55.876, 182.12, -14.159, -119.1, 121.46], [15.213, 14.852, 15.188, 18.518, 17.895, 15.634], 3.1223),
        new(95, [48.509, -46.527, 196.03, -10.851, -123.06, 127.27], [19.973, 18.868, 21.885, 24.022, 20.965, 18.238], 3.7023),
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
