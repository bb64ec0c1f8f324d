using System.Numerics;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;

namespace Halfpin.Stability.Movement;

/// <summary>Motion at a fracture in an equilibrium, and the largest rotation anywhere.</summary>
/// <remarks>
/// Axial along the bone's axis; shear within the fracture plane; tilt about axes across the bone and twist about its axis.
/// Closing is along the axis, at points of the outer cortical outline at the fracture.
/// </remarks>
internal sealed class MotionReadout(FrameAnalyser analyser, CorticalRing ring, Fracture fracture, int site = 0)
{
    /// <summary>Small-displacement results are refused beyond this rotation of any part (project convention).</summary>
    public const double MaxRotationDeg = 5;

    private const double Deg = 180 / Math.PI;

    /// <summary>Motion in an equilibrium that was found.</summary>
    public FractureMotion Of(in SiteState state)
    {
        Motion faces = state.FacesAt(site);
        Vec3 r = faces.RotationRad;
        double most = 0;
        for (int i = 0; i < CorticalRing.Points; i++)
        {
            most = Math.Max(most, Math.Abs(ClosingMm(state, i)));
        }

        (RingBearing bearing, double? from, double? to) = Bearing(state.BearingAt(site));
        return new()
        {
            LoadN = -state.Load.End.Fz,
            AxialMm = faces.TranslationMm.Z,
            ShearMm = ShearMm(state),
            TiltDeg = Math.Sqrt((r.X * r.X) + (r.Y * r.Y)) * Deg,
            TwistDeg = r.Z * Deg,
            ClosingNearMm = ClosingMm(state, 0),
            ClosingFarMm = ClosingMm(state, CorticalRing.Points / 2),
            StrainPercent = fracture.GapMm > 0 ? 100 * most / fracture.GapMm : null,
            EndsTouch = state.BearingAt(site) != 0,
            FrameShare = state.Load.FrameShareAt(site),
            Bearing = bearing,
            BearingFromDeg = from,
            BearingToDeg = to,
        };
    }

    /// <summary>Size of the motion within the fracture plane.</summary>
    public double ShearMm(in SiteState state)
    {
        Vec3 u = state.FacesAt(site).TranslationMm;
        return (u - (u.Dot(ring.PlaneNormal) * ring.PlaneNormal)).Length;
    }

    /// <summary>Largest rotation of any part in an equilibrium that was found, or of any two faces against each other.</summary>
    public double LargestRotationDeg(in SiteState state)
    {
        double largest = 0;
        for (int s = 0; s < analyser.Plan.Sites.Length; s++)
        {
            largest = Math.Max(largest, state.FacesAt(s).RotationRad.Length * Deg);
        }

        Span<double> factors = stackalloc double[analyser.System.Panels * FrameSystem.ColumnsPerPanel];
        state.Load.FactorsOf(analyser, factors);
        return Math.Max(largest, analyser.System.LargestRotationRad(factors) * Deg);
    }

    // The shortest arc that holds all bearing points: what is left of the circle beside the longest stretch without one.
    private (RingBearing Bearing, double? FromDeg, double? ToDeg) Bearing(uint points)
    {
        int count = BitOperations.PopCount(points);
        if (count is 0 or CorticalRing.Points)
        {
            return (count == 0 ? RingBearing.None : RingBearing.All, null, null);
        }

        int longest = 0, from = 0, to = 0;
        for (int i = 0; i < CorticalRing.Points; i++)
        {
            if (!Bears(i))
            {
                continue;
            }

            int next = 1;
            while (!Bears(i + next))
            {
                next++;
            }

            if (next > longest)
            {
                (longest, from, to) = (next, i + next, i);
            }
        }

        return (RingBearing.Part, ring.AzimuthDeg(from % CorticalRing.Points), ring.AzimuthDeg(to));

        bool Bears(int i) => (points >> (i % CorticalRing.Points) & 1) != 0;
    }

    private double ClosingMm(in SiteState state, int point) => -state.FacesAt(site).At(ring.OffsetMm(point)).TranslationMm.Z;
}
