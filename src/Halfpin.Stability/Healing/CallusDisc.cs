using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.Sections;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Condensation;

namespace Halfpin.Stability.Healing;

/// <summary>
/// Callus as an elastic disc that fills the gap: the cortical ring at the fracture, or a round collar from the canal outwards. With
/// section A, I, J and the gap g as its height it resists the faces' relative motion by EA/g along the axis, GA/g across it, EI/g in
/// bending and GJ/g in torsion.
/// </summary>
/// <remarks>
/// The disc is transverse and prismatic even where the fracture is tilted; its own shear flexibility in bending is left out, as its
/// height is small beside its diameter. Stiffness is about the middle of the gap on the axis, in limb axes; N, mm, rad.
/// </remarks>
internal sealed class CallusDisc
{
    private const int OutlinePoints = 360;

    private readonly double _gapMm;
    private readonly double _shearShare;
    private readonly BoneSection _section;

    /// <summary>The disc of a fracture with a gap.</summary>
    public CallusDisc(BoneShape bone, Fracture fracture, HealingPlan plan)
    {
        _gapMm = fracture.GapMm;
        _shearShare = 1 / (2 * (1 + plan.CallusPoissonRatio));
        _section = plan.CollarDiameterMm is double collar ? Collar(bone, fracture.LevelMm, collar) : bone.SectionAt(fracture.LevelMm);
    }

    /// <summary>Largest distance of the cortical outline from the axis: a collar is at least as wide.</summary>
    public static double OutlineRadiusMm(BoneShape bone, double levelMm) =>
        Enumerable.Range(0, OutlinePoints).Max(i => bone.OuterRadiusMm(levelMm, i * 360.0 / OutlinePoints));

    /// <summary>Writes the disc's 6×6 stiffness.</summary>
    /// <param name="modulusMPa">Young's modulus.</param>
    /// <param name="stiffness">Six rows for each fracture, this one's overwritten: ux, uy, uz, rx, ry, rz.</param>
    /// <param name="fracture">Which fracture's rows.</param>
    public void Write(double modulusMPa, SquareMatrix stiffness, int fracture = 0)
    {
        double e = modulusMPa / _gapMm, g = _shearShare * e;
        int at = 6 * fracture;
        for (int i = 0; i < 36; i++)
        {
            stiffness[at + (i / 6), at + (i % 6)] = 0;
        }

        // A point (x, y) moves u_z + r_x·y − r_y·x along the axis.
        (stiffness[at, at], stiffness[at + 1, at + 1], stiffness[at + 2, at + 2]) = (g * _section.AreaMm2, g * _section.AreaMm2, e * _section.AreaMm2);
        (stiffness[at + 3, at + 3], stiffness[at + 4, at + 4], stiffness[at + 5, at + 5]) = (e * _section.YyMm4, e * _section.XxMm4, g * _section.TorsionMm4);
        stiffness[at + 3, at + 4] = stiffness[at + 4, at + 3] = -e * _section.XyMm4;
    }

    /// <summary>Bending stiffness of the disc alone in the two planes, the other free.</summary>
    public CallusBending Bending(double modulusMPa)
    {
        // Conjugate stiffness with coupled motion free: I − I_xy²/I' of the other plane.
        double perDeg = modulusMPa / _gapMm * Math.PI / 180 / 1000, xy = _section.XyMm4 * _section.XyMm4;
        return new(perDeg * (_section.XxMm4 - (xy / _section.YyMm4)), perDeg * (_section.YyMm4 - (xy / _section.XxMm4)));
    }

    private static BoneSection Collar(BoneShape bone, double levelMm, double diameterMm)
    {
        Span<double> x = stackalloc double[OutlinePoints], y = stackalloc double[OutlinePoints];
        for (int i = 0; i < OutlinePoints; i++)
        {
            double azimuth = i * 360.0 / OutlinePoints, canal = bone.CanalRadiusMm(levelMm, azimuth);
            (double sin, double cos) = Math.SinCos(azimuth * Math.PI / 180);
            (x[i], y[i]) = (canal * cos, canal * sin);
        }

        PolygonProperties hole = OutlineIntegration.Polygon(x, y);
        double area = Math.PI / 4 * diameterMm * diameterMm, moment = area * diameterMm * diameterMm / 16;
        double xx = moment - hole.XxMm4, yy = moment - hole.YyMm4;
        return new(area - hole.AreaMm2, xx, yy, -hole.XyMm4, xx + yy);
    }
}
