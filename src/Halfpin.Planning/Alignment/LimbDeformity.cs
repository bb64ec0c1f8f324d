using Halfpin.Domain.Assessments;
using Halfpin.Mechanics.Geometry;

namespace Halfpin.Planning.Alignment;

/// <summary>
/// A deformity as the movement that took the distal fragment from its aligned place to where it lies, the proximal fragment held.
/// </summary>
/// <remarks>
/// Limb axes of a right limb: x anterior, y medial, z proximal along the proximal fragment. The distal fragment is turned first about its
/// own long axis (rotation), then without twist from the proximal axis to its own (angulation), both about the fracture's centre, and
/// then shifted.
/// </remarks>
public static class LimbDeformity
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>The movement about a fracture's centre. What was not measured counts as none.</summary>
    public static RigidMotion Of(AlignmentMeasurement m, Vec3 centreMm) =>
        RigidMotion.About(centreMm, Turn(m), new(m.LateralShiftMm ?? 0, m.ApShiftMm ?? 0, -(m.LengthMm ?? 0)));

    /// <summary>Unit vector along the distal fragment toward the foot, from the two readings: exact.</summary>
    public static Vec3 Footward(double apDeg, double lateralDeg) =>
        new Vec3(-Math.Tan(lateralDeg / DegPerRad), Math.Tan(apDeg / DegPerRad), -1).Normalised();

    private static Mat3 Turn(AlignmentMeasurement m)
    {
        // External rotation carries the front of the foot from anterior to lateral, against the right hand about z.
        Mat3 rotation = RigidMotion.TurnAbout(Vec3.UnitZ, -(m.RotationDeg ?? 0));
        AngularDeformity angulation = AngularDeformity.From(m.ApDeg, m.LateralDeg);
        if (angulation.AngleDeg == 0)
        {
            return rotation;
        }

        Vec3 axis = (-Vec3.UnitZ).Cross(Footward(m.ApDeg, m.LateralDeg)).Normalised();
        return RigidMotion.TurnAbout(axis, angulation.AngleDeg) * rotation;
    }
}
