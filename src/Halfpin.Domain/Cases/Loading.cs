using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>The load that the surgeon chooses to look at: on the proximal end, in limb axes.</summary>
public sealed record Loading
{
    /// <summary>Weight of one kilogram of allowed load, N. The project's convention.</summary>
    public const double NewtonPerKg = 9.81;

    [Field("Axial load as it reads on a scale.", Min = 0, Max = 300)]
    public double AllowedKg { get; init; }

    [Field("Torsion about the axis.", Min = -50, Max = 50)]
    public double TorsionNm { get; init; }

    [Field("Bending in the sagittal plane.", Min = -100, Max = 100)]
    public double ApBendingNm { get; init; }

    [Field("Bending in the frontal plane.", Min = -100, Max = 100)]
    public double MlBendingNm { get; init; }
}
