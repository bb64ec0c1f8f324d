using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;

namespace Halfpin.Planning.Alignment;

/// <summary>Alignment in the words of the trade.</summary>
internal static class AlignmentWords
{
    private static readonly string[] _eighths =
        ["anterior", "anteromedial", "medial", "posteromedial", "posterior", "posterolateral", "lateral", "anterolateral"];

    public static string Angle(double deg) => deg.ToString("0.0", CultureInfo.InvariantCulture) + "°";

    public static string Length(double mm) => mm.ToString("0.0", CultureInfo.InvariantCulture) + " mm";

    public static string Azimuth(double deg) => string.Create(CultureInfo.InvariantCulture, $"{Toward(deg)} (azimuth {deg:0}°)");

    /// <summary>The direction nearest an azimuth, of eight.</summary>
    public static string Toward(double azimuthDeg) => _eighths[(int)Math.Round((((azimuthDeg % 360) + 360) % 360) / 45) % 8];

    public static string Coronal(double apDeg) => apDeg >= 0 ? "varus" : "valgus";

    public static string Sagittal(double lateralDeg) => lateralDeg >= 0 ? "procurvatum" : "recurvatum";

    public static string Rotation(double deg) => deg >= 0 ? "external rotation" : "internal rotation";

    /// <summary>The movement that brings a deformity into line, the proximal fragment held: one sentence a step.</summary>
    public static IEnumerable<string> Correction(AlignmentMeasurement m, Side? side)
    {
        AngularDeformity angulation = AngularDeformity.From(m.ApDeg, m.LateralDeg);
        if (angulation.AngleDeg > 0)
        {
            yield return $"Turn the distal fragment {Angle(angulation.AngleDeg)} in the plane of deformity, about the fracture's centre, so that its foot end goes {Azimuth(angulation.ApexAzimuthDeg)}, toward the apex.";
            if (m.ApDeg != 0)
            {
                yield return $"Seen from the front, the foot end goes {(m.ApDeg > 0 ? "lateral" : "medial")} by {Angle(Math.Abs(m.ApDeg))}{Clock(m.ApDeg > 0, side)}.";
            }

            if (m.LateralDeg != 0)
            {
                yield return $"Seen from the medial side, the foot end goes {(m.LateralDeg > 0 ? "forward" : "backward")} by {Angle(Math.Abs(m.LateralDeg))}{Clock(m.LateralDeg > 0, side)}.";
            }
        }

        if (m.RotationDeg is double rotation && rotation != 0)
        {
            yield return $"Turn the foot {(rotation > 0 ? "inward" : "outward")} by {Angle(Math.Abs(rotation))} about the distal fragment's axis.";
        }

        double shift = double.Hypot(m.ApShiftMm ?? 0, m.LateralShiftMm ?? 0);
        if (shift > 0)
        {
            double back = Math.Atan2(-(m.ApShiftMm ?? 0), -(m.LateralShiftMm ?? 0)) * 180 / Math.PI;
            yield return $"Shift the distal fragment {Length(shift)} toward {Azimuth(back)}, measured at the fracture.";
        }

        if (m.LengthMm is double length && length != 0)
        {
            yield return length > 0 ? $"Close the fracture by {Length(length)}." : $"Pull to length by {Length(-length)}.";
        }
    }

    // From the front of a right leg medial lies to the right, from its medial side posterior does; the foot end below the fracture that
    // goes to the left turns clockwise. A left leg is the mirror image.
    private static string Clock(bool footGoesToTheLeftOfARightLeg, Side? side) => side switch
    {
        Side.Right => footGoesToTheLeftOfARightLeg ? ", clockwise" : ", counterclockwise",
        Side.Left => footGoesToTheLeftOfARightLeg ? ", counterclockwise" : ", clockwise",
        _ => "",
    };
}
