using Halfpin.Domain.Assessments;

namespace Halfpin.Planning.Alignment;

/// <summary>What the error of reading leaves of a measurement.</summary>
internal sealed class MeasurementError
{
    private const double DegPerRad = 180 / Math.PI;

    public MeasurementError(AlignmentMeasurement measured)
    {
        ApDeg = Around(measured.ApDeg, measured.ErrorDeg);
        LateralDeg = Around(measured.LateralDeg, measured.ErrorDeg);

        // The apex points away from where the distal fragment leans: anterior in procurvatum, lateral in varus.
        MeasuredVector slope = MeasuredVector.Of(Tangents(LateralDeg), Tangents(new(-ApDeg.High, -ApDeg.Low)));
        TrueAngleDeg = new(Math.Atan(slope.Size.Low) * DegPerRad, Math.Atan(slope.Size.High) * DegPerRad);
        ApexAzimuth = slope.Azimuth;
        RotationDeg = measured.RotationDeg is double r ? Around(r, measured.ErrorDeg) : null;
        LengthMm = measured.LengthMm is double l ? Around(l, measured.ErrorMm) : null;
        if (measured is { ApShiftMm: double ap, LateralShiftMm: double lateral })
        {
            Shift = MeasuredVector.Of(Around(lateral, measured.ErrorMm), Around(ap, measured.ErrorMm));
        }
    }

    public MeasuredRange ApDeg { get; }

    public MeasuredRange LateralDeg { get; }

    public MeasuredRange TrueAngleDeg { get; }

    /// <summary>Null when the deformity lies within the error.</summary>
    public DirectionRange? ApexAzimuth { get; }

    public MeasuredRange? RotationDeg { get; }

    public MeasuredRange? LengthMm { get; }

    /// <summary>Null when either view's shift is missing.</summary>
    public MeasuredVector? Shift { get; }

    /// <summary>What is left of a measurement when all that its error could have made is taken off it.</summary>
    public AlignmentMeasurement Certain(AlignmentMeasurement m) => m with
    {
        ApDeg = ApexAzimuth is null ? 0 : m.ApDeg,
        LateralDeg = ApexAzimuth is null ? 0 : m.LateralDeg,
        RotationDeg = RotationDeg is MeasuredRange r && Holds0(r) ? 0 : m.RotationDeg,
        LengthMm = LengthMm is MeasuredRange l && Holds0(l) ? 0 : m.LengthMm,
        ApShiftMm = Shift is { Azimuth: not null } ? m.ApShiftMm : 0,
        LateralShiftMm = Shift is { Azimuth: not null } ? m.LateralShiftMm : 0,
    };

    private static bool Holds0(MeasuredRange r) => r.Low <= 0 && r.High >= 0;

    private static MeasuredRange Around(double value, double error) => new(value - error, value + error);

    private static MeasuredRange Tangents(MeasuredRange deg) => new(Math.Tan(deg.Low / DegPerRad), Math.Tan(deg.High / DegPerRad));
}
