using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>What a variation follows at a fracture.</summary>
/// <param name="Name">Its name, which ends in its unit.</param>
/// <param name="Of">Its value; null where it is withheld.</param>
/// <param name="IsStiffness">True where less is worse; of motions more is, either way.</param>
public sealed record VariedQuantity(string Name, Func<FourStiffnesses?, FractureMotion?, double?> Of, bool IsStiffness)
{
    /// <summary>All of them, in the order of tables.</summary>
    public static ImmutableArray<VariedQuantity> All { get; } =
    [
        new("axialNPerMm", (s, _) => s?.AxialNPerMm, true),
        new("apBendingNmPerDeg", (s, _) => s?.ApBendingNmPerDeg, true),
        new("mlBendingNmPerDeg", (s, _) => s?.MlBendingNmPerDeg, true),
        new("torsionNmPerDeg", (s, _) => s?.TorsionNmPerDeg, true),
        new("axialMm", (_, m) => m?.AxialMm, false),
        new("shearMm", (_, m) => m?.ShearMm, false),
        new("tiltDeg", (_, m) => m?.TiltDeg, false),
    ];

    /// <summary>How badly a fracture fares in it: the more the worse; null where it is withheld.</summary>
    public double? Badness(FourStiffnesses stiffness, FractureMotion? motion) => Of(stiffness, motion) is not double value ? null : IsStiffness ? -value : Math.Abs(value);
}
