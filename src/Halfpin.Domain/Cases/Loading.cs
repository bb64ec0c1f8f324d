using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>The load that the surgeon chooses to look at: on the proximal end, in limb axes.</summary>
public sealed record Loading
{
    /// <summary>Weight of one kilogram of allowed load, N. The project's convention.</summary>
    public const double NewtonPerKg = 9.81;

    [Field("Axial load as it reads on a scale.", Min = 0, Max = 300)]
    public double AllowedKg { get; init; }

    [Field("Weight-bearing by grade, at its upper end; instead of allowedKg.")]
    public WeightBearing? Grade { get; init; }

    [Field("How far in front of the bone's axis the load's line passes.", Min = -150, Max = 150)]
    public double LineOffsetApMm { get; init; }

    [Field("How far to the medial side of the bone's axis the load's line passes.", Min = -150, Max = 150)]
    public double LineOffsetMlMm { get; init; }

    [Field("Torsion about the axis.", Min = -50, Max = 50)]
    public double TorsionNm { get; init; }

    [Field("Bending in the sagittal plane.", Min = -100, Max = 100)]
    public double ApBendingNm { get; init; }

    [Field("Bending in the frontal plane.", Min = -100, Max = 100)]
    public double MlBendingNm { get; init; }

    [Field("Steps on this leg in a day; with weeks it says how often the load comes.", Min = 1, Max = 30_000)]
    public double? StepsPerDay { get; init; }

    [Field("Weeks for which the frame is loaded.", Min = 0.1, Max = 104)]
    public double? Weeks { get; init; }

    /// <summary>The axial load as it reads on a scale, kg, for a patient of a mass in kg.</summary>
    public double AxialKgFor(double patientMassKg) => Grade is WeightBearing grade ? ShareOfBodyWeight(grade) * patientMassKg : AllowedKg;

    /// <summary>How often the load comes; null when the case does not say.</summary>
    public double? Steps => StepsPerDay * 7 * Weeks;

    /// <summary>True when some load is chosen.</summary>
    public bool IsChosen => AllowedKg != 0 || Grade is not null and not WeightBearing.None || TorsionNm != 0 || ApBendingNm != 0 || MlBendingNm != 0;

    // Upper ends of the usual grades. MEMORY hi: toe-touch 0–20 %, partial 20–50 %, full 100 %; definitions vary widely (READ, Thompson et
    // al. 2018).
    private static double ShareOfBodyWeight(WeightBearing grade) => grade switch
    {
        WeightBearing.ToeTouch => 0.2,
        WeightBearing.Partial => 0.5,
        WeightBearing.Full => 1,
        _ => 0,
    };
}

/// <summary>Grades of weight-bearing.</summary>
public enum WeightBearing
{
    None,
    ToeTouch,
    Partial,
    Full,
}
