using Halfpin.Domain.Assessments;
using Halfpin.Mechanics.Geometry;
using Halfpin.Placement;

namespace Halfpin.Planning.Alignment;

/// <summary>What the distal fracture end does when the turn of a correction is made about a clamp.</summary>
/// <param name="centreMm">Middle of the fracture, in the proximal fragment.</param>
/// <param name="deformity">What took the distal fragment from its aligned place to where it lies.</param>
internal sealed class PivotReader(Vec3 centreMm, RigidMotion deformity)
{
    private const double DegPerRad = 180 / Math.PI, StillMm = 1e-9;

    /// <summary>The end's travel when the whole turn is made about a point.</summary>
    /// <param name="clamp">Id of the clamp that is there.</param>
    /// <param name="pivotMm">The point.</param>
    /// <param name="radiusMm">The bone's outer radius at the fracture by azimuth.</param>
    public PivotTravel About(string clamp, Vec3 pivotMm, Func<double, double> radiusMm)
    {
        RigidMotion turn = RigidMotion.About(pivotMm, deformity.Turn.Transposed(), default);
        double toward = Math.Atan2(pivotMm.Y - centreMm.Y, pivotMm.X - centreMm.X) * DegPerRad;
        double opposite = toward > 0 ? toward - 180 : toward + 180;
        Vec3 near = centreMm + (radiusMm(toward) * PlacedPin.Radial(toward)), far = centreMm + (radiusMm(opposite) * PlacedPin.Radial(opposite));
        return new(
            clamp, Travel(turn, centreMm), Travel(turn, near), Travel(turn, far), Read(turn.Of(deformity.Of(centreMm)) - centreMm));
    }

    private PointTravel Travel(RigidMotion turn, Vec3 alignedMm)
    {
        Vec3 now = deformity.Of(alignedMm);
        return Read(turn.Of(now) - now);
    }

    private static PointTravel Read(Vec3 v)
    {
        double across = double.Hypot(v.X, v.Y);
        return new(across, across > StillMm ? Math.Atan2(v.Y, v.X) * DegPerRad : null, -v.Z);
    }
}
