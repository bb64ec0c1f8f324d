using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Placement;

namespace Halfpin.Stability.Movement;

/// <summary>
/// Points of the outer cortical outline at the fracture, evenly spaced round the bone and lifted along the axis onto the fracture
/// plane: where the bone ends can come to bear on each other, and where closing is read.
/// </summary>
/// <remarks>
/// Positions are from the middle of the gap on the axis, in limb axes; the outline is that of the fracture's level. The normal of
/// every point is that of the plane; the gap, measured along the axis, is shorter along the normal of a tilted plane. A workspace:
/// turned to the pins of each frame without allocation.
/// </remarks>
internal sealed class CorticalRing
{
    /// <summary>Number of points; the one opposite the first stands opposite the pins.</summary>
    public const int Points = 24;

    private const double Deg = 180 / Math.PI;

    private readonly BoneShape _bone;
    private readonly Fracture _fracture;
    private readonly double _layerMm;
    private readonly ContactPoint[] _contacts = new ContactPoint[Points];
    private readonly ContactPoint[] _closed = new ContactPoint[Points];
    private double _nearAzimuthDeg;

    /// <summary>A ring of a bone at its fracture.</summary>
    /// <param name="bone">The bone.</param>
    /// <param name="fracture">Its fracture.</param>
    /// <param name="layerMm">Depth of bone on each side that gives way under a bearing point.</param>
    public CorticalRing(BoneShape bone, Fracture fracture, double layerMm)
    {
        (_bone, _fracture, _layerMm) = (bone, fracture, layerMm);
        (double sin, double cos) = Math.SinCos(fracture.TiltDeg / Deg);
        PlaneNormal = (sin * PlacedPin.Radial(fracture.TiltAzimuthDeg)) + new Vec3(0, 0, cos);
        TurnTo(0);
    }

    /// <summary>Unit normal of the fracture plane, pointing proximally.</summary>
    public Vec3 PlaneNormal { get; }

    /// <summary>The points, with the fracture's gap.</summary>
    public ReadOnlySpan<ContactPoint> Contacts => _contacts;

    /// <summary>The same points with no gap.</summary>
    public ReadOnlySpan<ContactPoint> Closed => _closed;

    /// <summary>Position of a point from the middle of the gap.</summary>
    public Vec3 OffsetMm(int point) => _contacts[point].OffsetMm;

    /// <summary>Azimuth of a point, in (−180, 180].</summary>
    public double AzimuthDeg(int point)
    {
        double azimuth = Math.IEEERemainder(_nearAzimuthDeg + (point * 360.0 / Points), 360);
        return azimuth <= -180 ? azimuth + 360 : azimuth;
    }

    /// <summary>Turns the ring so that its first point stands at an azimuth.</summary>
    public void TurnTo(double nearAzimuthDeg)
    {
        _nearAzimuthDeg = nearAzimuthDeg;
        Span<double> wall = stackalloc double[Points];
        double walls = 0;
        for (int i = 0; i < Points; i++)
        {
            double outer = OuterRadiusMm(i), canal = _bone.CanalRadiusMm(_fracture.LevelMm, AzimuthDeg(i));
            walls += wall[i] = (outer * outer) - (canal * canal);
        }

        // Each point stands for its sector's share of the cortical area: k = E·A/(2·layer).
        double perShare = _bone.Tissue.YoungsModulusMPa * _bone.SectionAt(_fracture.LevelMm).AreaMm2 / (2 * _layerMm);
        for (int i = 0; i < Points; i++)
        {
            Vec3 p = OuterRadiusMm(i) * PlacedPin.Radial(AzimuthDeg(i));
            p += -p.Dot(PlaneNormal) / PlaneNormal.Z * Vec3.UnitZ;
            _contacts[i] = new(p, PlaneNormal, _fracture.GapMm * PlaneNormal.Z, perShare * wall[i] / walls);
            _closed[i] = _contacts[i] with { GapMm = 0 };
        }
    }

    private double OuterRadiusMm(int point) => _bone.OuterRadiusMm(_fracture.LevelMm, AzimuthDeg(point));
}
