using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.Sections;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;

namespace Halfpin.Stability.Idealisation;

/// <summary>
/// The bone as a beam on its axis: running integrals of its section flexibilities, so that the stiffness of any stretch
/// between two levels is exact for the tabulated sections, in a few operations and without intermediate nodes.
/// </summary>
/// <remarks>
/// Flexibilities are taken from the sections at evenly spaced levels and vary linearly between them. Assumes plane sections
/// and a straight axis through the section centroids; trabecular bone at the ends is left out, as the anatomy says.
/// </remarks>
public sealed class BoneFlexibility
{
    private const double StepMm = 2;
    private const double ShearCoefficient = 0.9;

    private static readonly Mat3 _axes = Mat3.FromRows(Vec3.UnitZ, Vec3.UnitX, Vec3.UnitY);

    private readonly double _stepMm;
    private readonly double _middleMm;
    private readonly Rate[] _rate;
    private readonly BeamIntegrals[] _upTo;
    private readonly double _stiffness = 1;

    /// <summary>Tabulates a bone.</summary>
    /// <param name="bone">The bone.</param>
    /// <param name="theory">With or without shear.</param>
    public BoneFlexibility(BoneShape bone, BeamTheory theory)
    {
        int cells = bone.IsUniform ? 1 : (int)Math.Ceiling(bone.LengthMm / StepMm);
        _stepMm = bone.LengthMm / cells;
        _middleMm = bone.LengthMm / 2;
        _rate = [.. Enumerable.Range(0, cells + 1).Select(i => Rate.Of(bone.SectionAt(i * _stepMm), bone.Tissue, theory))];
        _upTo = new BeamIntegrals[cells + 1];
        for (int i = 0; i < cells; i++)
        {
            _upTo[i + 1] = _upTo[i] + Within(i, _stepMm);
        }
    }

    private BoneFlexibility(BoneFlexibility table, double stiffness)
    {
        (_stepMm, _middleMm, _rate, _upTo, _stiffness) = (table._stepMm, table._middleMm, table._rate, table._upTo, stiffness);
    }

    /// <summary>The same bone with both moduli multiplied; shares the table.</summary>
    /// <param name="factor">More than 0; of the moduli it was tabulated with.</param>
    public BoneFlexibility Stiffened(double factor) => new(this, factor);

    /// <summary>Stiffness of the bone between two levels, as a member along its axis.</summary>
    public MemberStiffness Between(double proximalLevelMm, double distalLevelMm)
    {
        double referenceMm = (proximalLevelMm + distalLevelMm) / 2;
        BeamIntegrals a = UpTo(proximalLevelMm), b = UpTo(distalLevelMm);
        BeamIntegrals stretch = b + new BeamIntegrals(
            -a.AxialMmPerN, -a.TwistRadPerNmm, -a.ShearMmPerN, -1 * a.Bending0, -1 * a.Bending1, -1 * a.Bending2);
        MemberStiffness k = stretch.AboutPointFurtherBack(referenceMm - _middleMm).StiffnessAt(new(0, 0, -referenceMm), _axes);
        return _stiffness == 1 ? k : new(k.AtMm, _stiffness * k.ForcePerTranslation, _stiffness * k.ForcePerRotation, _stiffness * k.MomentPerRotation);
    }

    private BeamIntegrals UpTo(double levelMm)
    {
        int cell = Math.Clamp((int)(levelMm / _stepMm), 0, _rate.Length - 2);
        return _upTo[cell] + Within(cell, levelMm - (cell * _stepMm));
    }

    // From the start of a cell over `t`, with flexibility c₀ + g·τ linear in the cell and ζ = ζ₀ − τ the height above the
    // bone's middle (axis 1 points proximally).
    private BeamIntegrals Within(int cell, double t)
    {
        Rate c = _rate[cell], g = (1 / _stepMm) * (_rate[cell + 1] + (-1 * c));
        double z = _middleMm - (cell * _stepMm), t2 = t * t, t3 = t2 * t, t4 = t2 * t2;
        double c1 = (z * t) - (t2 / 2), g1 = (z * t2 / 2) - (t3 / 3);
        double c2 = (z * z * t) - (z * t2) + (t3 / 3), g2 = (z * z * t2 / 2) - (2 * z * t3 / 3) + (t4 / 4);
        return new(
            (t * c.AxialPerN) + (t2 / 2 * g.AxialPerN),
            (t * c.TwistPerNmm2) + (t2 / 2 * g.TwistPerNmm2),
            (t * c.ShearPerN) + (t2 / 2 * g.ShearPerN),
            (t * c.Bending) + (t2 / 2 * g.Bending),
            (c1 * c.Bending) + (g1 * g.Bending),
            (c2 * c.Bending) + (g2 * g.Bending));
    }

    /// <summary>Flexibility per length of a section.</summary>
    private readonly record struct Rate(double AxialPerN, double TwistPerNmm2, double ShearPerN, Sym2 Bending)
    {
        public static Rate Of(BoneSection s, BoneTissue tissue, BeamTheory theory)
        {
            Section section = new(s.AreaMm2, s.XxMm4, s.YyMm4, s.XyMm4, s.TorsionMm4, ShearCoefficient);
            ElasticModuli moduli = new(tissue.YoungsModulusMPa, tissue.ShearModulusMPa);
            BeamIntegrals unit = BeamIntegrals.Prismatic(1, moduli, section, theory);
            return new(unit.AxialMmPerN, unit.TwistRadPerNmm, unit.ShearMmPerN, unit.Bending0);
        }

        public static Rate operator +(in Rate a, in Rate b) => new(
            a.AxialPerN + b.AxialPerN, a.TwistPerNmm2 + b.TwistPerNmm2, a.ShearPerN + b.ShearPerN, a.Bending + b.Bending);

        public static Rate operator *(double s, in Rate a) =>
            new(s * a.AxialPerN, s * a.TwistPerNmm2, s * a.ShearPerN, s * a.Bending);
    }
}
