namespace Halfpin.Stability.Variants;

/// <summary>How a rating ended.</summary>
public enum RatingStatus
{
    /// <summary>All numbers hold.</summary>
    Ok,

    /// <summary>The frame is a mechanism or could not be solved: no number holds.</summary>
    NotHeld,

    /// <summary>Under the chosen or the overload case the model has no answer; stiffnesses hold.</summary>
    OutOfRange,
}

/// <summary>A frame in the numbers that choices are made by: the same as in its assessment, without words. With several fractures the worst.</summary>
/// <param name="Status">Which numbers hold; those that do not are NaN.</param>
/// <param name="AxialNPerMm">Axial stiffness at the fracture.</param>
/// <param name="WeakBendingNmPerDeg">Bending stiffness at the fracture in its weakest direction.</param>
/// <param name="TorsionNmPerDeg">Torsional stiffness at the fracture.</param>
/// <param name="BetweenBendingNmPerDeg">How firmly fragments between fractures are held: the weakest bending that opposite moments on the two faces of a fracture meet, at the fracture where it is least, all other gaps open. NaN with one fracture.</param>
/// <param name="AxialMm">Size of the axial motion under the chosen load.</param>
/// <param name="ShearMm">Shear under the chosen load.</param>
/// <param name="OverloadAxialMm">Size of the axial motion in the overload case.</param>
/// <param name="OverloadShearMm">Shear in the overload case.</param>
/// <param name="OverloadTiltDeg">Tilt in the overload case.</param>
/// <param name="OverloadTwistDeg">Size of the twist in the overload case.</param>
/// <param name="UsedPercent">Greatest demand of a single load on any part under the chosen load, of its limit.</param>
/// <param name="OverloadUsedPercent">The same in the overload case.</param>
/// <param name="FatiguePercent">Greatest demand of repeated chosen loads on any pin, of what it endures as often; 0 without a chosen load.</param>
public readonly record struct FrameRating(
    RatingStatus Status,
    double AxialNPerMm,
    double WeakBendingNmPerDeg,
    double TorsionNmPerDeg,
    double BetweenBendingNmPerDeg,
    double AxialMm,
    double ShearMm,
    double OverloadAxialMm,
    double OverloadShearMm,
    double OverloadTiltDeg,
    double OverloadTwistDeg,
    double UsedPercent,
    double OverloadUsedPercent,
    double FatiguePercent)
{
    /// <summary>A frame that does not hold.</summary>
    public static FrameRating NotHeld { get; } = new(
        RatingStatus.NotHeld, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN);
}
