namespace Halfpin.Planning.Alignment;

/// <summary>The true size and plane of an angular deformity seen as two angles on views at right angles.</summary>
/// <param name="AngleDeg">Angle between the fragments' axes in their own plane, 0 to 90.</param>
/// <param name="PlaneDeg">
/// From the frontal (AP) plane to the plane of deformity, −180 to 180: 0 when it is all on the AP view, 90 all on the lateral one;
/// carries the signs of the two angles. 0 when there is no deformity.
/// </param>
public readonly record struct AngularDeformity(double AngleDeg, double PlaneDeg)
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>
    /// Azimuth toward which the apex points, −180 to 180: 0 anterior, +90 medial on either side of the body. With varus and procurvatum
    /// positive, varus has its apex lateral and procurvatum its apex anterior, so that the azimuth is the plane's angle less 90°.
    /// </summary>
    public double ApexAzimuthDeg => PlaneDeg <= -90 ? PlaneDeg + 270 : PlaneDeg - 90;

    /// <summary>
    /// Exact: tan² A = tan² AP + tan² lateral, tan P = tan lateral / tan AP (orthopedicreviews 120302; READ). Either angle lies
    /// within ±90°, excluded.
    /// </summary>
    public static AngularDeformity From(double apDeg, double lateralDeg)
    {
        double ap = Math.Tan(apDeg / DegPerRad), lateral = Math.Tan(lateralDeg / DegPerRad);
        return new(Math.Atan(double.Hypot(ap, lateral)) * DegPerRad, Math.Atan2(lateral, ap) * DegPerRad);
    }

    /// <summary>The rule of small angles, as on graph paper: A² = AP² + lateral², tan P = lateral / AP.</summary>
    public static AngularDeformity BySmallAngles(double apDeg, double lateralDeg) =>
        new(double.Hypot(apDeg, lateralDeg), Math.Atan2(lateralDeg, apDeg) * DegPerRad);
}
