using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;

namespace Halfpin.Anatomy.SoftTissue;

/// <summary>Skin round a tibia: bone and the soft tissue over it, by level and azimuth, not swollen.</summary>
/// <remarks>
/// Over the medial face the thickness is that of a person of usual build (ESTIMATE; twice as much in obesity) or what the case gives.
/// Away from it the calf's muscle takes over: its greatest thickness follows from usual girths of 360, 330, 250 and 220 mm at 30, 50, 75
/// and 90 % of the length (MEMORY) and the change between is ours (ASSUMED).
/// </remarks>
public sealed class SkinShape(BoneShape bone, SoftTissueCover cover)
{
    private const double BehindRise = 1, LateralRise = 1.5;
    private const double CrestDeg = -25, MedialBorderDeg = 105;

    private static readonly MonotoneCubic _face = new([0, 10, 25, 50, 75, 90, 100], [12, 12, 7, 5, 5, 8, 8]);
    private static readonly MonotoneCubic _calf = new([0, 10, 30, 50, 75, 90, 100], [70, 70, 80, 73, 50, 32, 32]);

    /// <summary>Where the figures come from.</summary>
    public const string Source =
        "Thickness over the medial face by level: usual build, twice in obesity (ESTIMATE); muscle elsewhere from usual girths (MEMORY, shape ASSUMED); swelling 10–20 mm (MEMORY)";

    /// <summary>Thickness from bone to skin, mm.</summary>
    public double ThicknessMm(double levelMm, double azimuthDeg)
    {
        double p = Math.Clamp(levelMm / bone.LengthMm, 0, 1) * 100;
        double face = cover.ThicknessMm ?? (_face.At(p) * (cover.Habitus == Habitus.Obese ? 2 : 1));
        double calf = Math.Max(face, _calf.At(p) * bone.LengthMm / TibiaLevels.ReferenceLengthMm);
        return face + ((calf - face) * CalfShare(azimuthDeg));
    }

    /// <summary>Distance from the bone's axis to the skin, mm.</summary>
    public double RadiusMm(double levelMm, double azimuthDeg) => bone.OuterRadiusMm(levelMm, azimuthDeg) + ThicknessMm(levelMm, azimuthDeg);

    // 0 over the medial face, rising to 1 opposite to its middle; at once behind the medial border, where the calf begins.
    private static double CalfShare(double azimuthDeg)
    {
        double half = (MedialBorderDeg - CrestDeg) / 2;
        double fromMiddle = Math.IEEERemainder(azimuthDeg - ((MedialBorderDeg + CrestDeg) / 2), 360), off = Math.Abs(fromMiddle) - half;
        return off <= 0 ? 0 : Math.Pow(Math.Sin(off / (180 - half) * Math.PI / 2), fromMiddle > 0 ? BehindRise : LateralRise);
    }
}
