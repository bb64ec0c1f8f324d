using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Placement;

namespace Halfpin.Stability.Movement;

/// <summary>Motion at the fracture under a load, over an open gap.</summary>
/// <remarks>
/// Axial along the bone's axis; shear within the fracture plane; tilt about axes across the bone and twist about its axis.
/// Closing is along the axis, at points of the outer cortical outline at the fracture.
/// </remarks>
public sealed class MotionReadout
{
    /// <summary>Small-displacement results are refused beyond this rotation of any part (project convention).</summary>
    public const double MaxRotationDeg = 5;

    private const int RingPoints = 24;
    private const double Deg = 180 / Math.PI;

    private readonly FrameAnalyser _analyser;
    private readonly Fracture _fracture;
    private readonly Vec3 _planeNormal;
    private readonly Vec3[] _ring;

    /// <summary>A readout for the analyser's last frame.</summary>
    public MotionReadout(FrameAnalyser analyser, BoneShape bone, Fracture fracture)
    {
        _analyser = analyser;
        _fracture = fracture;
        (double sin, double cos) = Math.SinCos(fracture.TiltDeg / Deg);
        _planeNormal = (sin * PlacedPin.Radial(fracture.TiltAzimuthDeg)) + new Vec3(0, 0, cos);
        double near = NearAzimuthDeg(analyser.Data);
        _ring = [.. Enumerable.Range(0, RingPoints).Select(i => near + (i * 360.0 / RingPoints)).Select(azimuth =>
            bone.OuterRadiusMm(fracture.LevelMm, azimuth) * PlacedPin.Radial(azimuth))];
    }

    /// <summary>Motion under a load.</summary>
    public FractureMotion Under(EndLoad load)
    {
        Motion m = Relative(load);
        Vec3 u = m.TranslationMm, r = m.RotationRad;
        Vec3 shear = u - (u.Dot(_planeNormal) * _planeNormal);
        double most = _ring.Max(p => Math.Abs(Closing(m, p)));
        return new()
        {
            LoadN = -load.Fz,
            AxialMm = u.Z,
            ShearMm = shear.Length,
            TiltDeg = Math.Sqrt((r.X * r.X) + (r.Y * r.Y)) * Deg,
            TwistDeg = r.Z * Deg,
            ClosingNearMm = Closing(m, _ring[0]),
            ClosingFarMm = Closing(m, _ring[RingPoints / 2]),
            StrainPercent = _fracture.GapMm > 0 ? 100 * most / _fracture.GapMm : null,
            EndsTouch = ClosesBy(m) >= 1,
        };
    }

    /// <summary>The share of the gap that closes at the point that closes most; 1 and more means touch. 0 where the ends never touch.</summary>
    public double ClosedShare(EndLoad load) => ClosesBy(Relative(load));

    /// <summary>Largest rotation of any part under a load.</summary>
    public double LargestRotationDeg(EndLoad load)
    {
        double largest = 0;
        for (int n = 0; n < _analyser.Plan.Nodes.Length; n++)
        {
            Vec3 rotation = default;
            for (int c = 0; c < 6; c++)
            {
                rotation += load[c] * _analyser.System.MotionOf(n, SiteAnalysis.EndColumn(c)).RotationRad;
            }

            largest = Math.Max(largest, rotation.Length * Deg);
        }

        return largest;
    }

    private double ClosesBy(Motion m)
    {
        if (!_fracture.Contact)
        {
            return 0;
        }

        double closing = _ring.Max(p => Closing(m, p));
        return closing <= 0 ? 0 : _fracture.GapMm > 0 ? closing / _fracture.GapMm : double.PositiveInfinity;
    }

    private static double Closing(Motion m, Vec3 point) => -m.At(point).TranslationMm.Z;

    private Motion Relative(EndLoad load)
    {
        SquareMatrix t = _analyser.Site.EndToSite[0];
        double Row(int i)
        {
            double sum = 0;
            for (int c = 0; c < 6; c++)
            {
                sum += t[i, c] * load[c];
            }

            return sum;
        }

        return new(new(Row(0), Row(1), Row(2)), new(Row(3), Row(4), Row(5)));
    }

    // The side of the rods: the mean direction of the clamped pins.
    private static double NearAzimuthDeg(FrameData data)
    {
        Vec3 sum = default;
        foreach (PlacedPin p in data.PlacedPins)
        {
            sum += p.Outward;
        }

        return Math.Atan2(sum.Y, sum.X) * Deg;
    }
}
