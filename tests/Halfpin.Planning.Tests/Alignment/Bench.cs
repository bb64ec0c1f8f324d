using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Planning.Alignment;

namespace Halfpin.Planning.Tests.Alignment;

/// <summary>Measurements, and frames on a round tube in which all places are known by hand.</summary>
internal static class Bench
{
    public const double RadiusMm = 14, FractureMm = 183;

    public static readonly Vec3 CentreMm = new(0, 0, -FractureMm);

    public static AlignmentMeasurement Exactly(double ap, double lateral, double? rotation = null, double? apShift = null, double? lateralShift = null, double? length = null) => new()
    {
        ApDeg = ap,
        LateralDeg = lateral,
        RotationDeg = rotation,
        ApShiftMm = apShift,
        LateralShiftMm = lateralShift,
        LengthMm = length,
        ErrorDeg = 0,
        ErrorMm = 0,
    };

    public static Case Case(Side side, params Frame[] frames) => new()
    {
        Format = Domain.Cases.Case.FormatName,
        FormatVersion = 1,
        Title = "Invented",
        Limb = new()
        {
            Bone = BoneName.Tibia,
            Side = side,
            LengthMm = 366,
            PatientMassKg = 71,
            BoneModel = new TubeBone { OuterDiameterMm = 2 * RadiusMm, InnerDiameterMm = 11, YoungsModulusMPa = 17_000, PoissonRatio = 0.3 },
        },
        Fractures = [new() { LevelMm = FractureMm, GapMm = 2, Pattern = FracturePattern.Transverse }],
        Frames = [.. frames],
    };

    /// <summary>Pins p1 to p4 in one plane at an azimuth, on a straight rod 61 mm from the bone's axis, clamps c1 to c4.</summary>
    public static Frame SingleRod(double azimuthDeg) => new()
    {
        Id = "single",
        Parts = new()
        {
            Pins = [.. Levels.Select((level, i) => Pin($"p{i + 1}", level, azimuthDeg))],
            Rods = [Rod("r1", 60, 310, azimuthDeg, 61)],
            Clamps = [.. Levels.Select((_, i) => new Clamp { Id = $"c{i + 1}", Pin = $"p{i + 1}", Rod = "r1" })],
        },
    };

    /// <summary>A rod on the pins of each fragment, and a third rod clamped to both.</summary>
    public static Frame Modular() => new()
    {
        Id = "modular",
        Parts = new()
        {
            Pins = [.. Levels.Select((level, i) => Pin($"p{i + 1}", level, i < 2 ? 10 : 70))],
            Rods = [Rod("r1", 60, 175, 10, 61), Rod("r2", 191, 310, 70, 61), new() { Id = "r3", DiameterMm = 11, Material = "carbon", From = At(150, -10, 74), To = At(222, 90, 74), OverhangMm = 60 }],
            Clamps =
            [
                .. Levels.Select((_, i) => new Clamp { Id = $"c{i + 1}", Pin = $"p{i + 1}", Rod = i < 2 ? "r1" : "r2" }),
                new() { Id = "x1", Rod = "r1", OtherRod = "r3" }, new() { Id = "x2", Rod = "r2", OtherRod = "r3" },
            ],
        },
    };

    public static AlignmentReport Report(AlignmentMeasurement m, Case value) =>
        AlignmentAssessor.Assess(new(m, null, value, null, 1), new("halfpin", "test"), "0");

    public static AlignmentReport Report(AlignmentMeasurement m, Side? side = null) =>
        AlignmentAssessor.Assess(new(m, side, null, null, 1), new("halfpin", "test"), null);

    private static double[] Levels => [77, 147, 213, 293];

    private static Pin Pin(string id, double levelMm, double azimuthDeg) => new() { Id = id, LevelMm = levelMm, AzimuthDeg = azimuthDeg, DiameterMm = 5, Material = "steel" };

    private static Rod Rod(string id, double from, double to, double azimuthDeg, double radiusMm) =>
        new() { Id = id, DiameterMm = 11, Material = "carbon", From = At(from, azimuthDeg, radiusMm), To = At(to, azimuthDeg, radiusMm), OverhangMm = 25 };

    private static RodPoint At(double levelMm, double azimuthDeg, double radiusMm) => new() { LevelMm = levelMm, AzimuthDeg = azimuthDeg, RadiusMm = radiusMm };
}
