using Halfpin.Mechanics.Geometry;

namespace Halfpin.Mechanics.Members;

/// <summary>A six-component spring with three translational and three rotational stiffnesses along given axes.</summary>
public static class Spring
{
    /// <summary>Stiffness of the spring. A component of 0 is a released (free) motion.</summary>
    /// <param name="atMm">Where it acts.</param>
    /// <param name="axes">Rows: its axes in the global frame, right-handed.</param>
    /// <param name="translationNPerMm">Stiffness along each axis, N/mm, not negative.</param>
    /// <param name="rotationNmmPerRad">Stiffness about each axis, N·mm/rad, not negative.</param>
    public static MemberStiffness Stiffness(Vec3 atMm, in Mat3 axes, Vec3 translationNPerMm, Vec3 rotationNmmPerRad) => new(
        atMm,
        Mat3.Diagonal(translationNPerMm.X, translationNPerMm.Y, translationNPerMm.Z).Turned(axes),
        default,
        Mat3.Diagonal(rotationNmmPerRad.X, rotationNmmPerRad.Y, rotationNmmPerRad.Z).Turned(axes));
}
