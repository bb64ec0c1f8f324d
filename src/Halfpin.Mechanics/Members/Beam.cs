using Halfpin.Mechanics.Geometry;

namespace Halfpin.Mechanics.Members;

/// <summary>The straight prismatic beam, exact for loads at its ends.</summary>
public static class Beam
{
    /// <summary>
    /// Axes 1, 2, 3 of a member as rows: 1 from <paramref name="a"/> to <paramref name="b"/>, 2 in the plane of axis 1 and
    /// <paramref name="towards2"/>, 3 = 1 × 2.
    /// </summary>
    /// <param name="a">First end, mm.</param>
    /// <param name="b">Second end, mm.</param>
    /// <param name="towards2">A direction that is not along the member.</param>
    public static Mat3 LocalAxes(Vec3 a, Vec3 b, Vec3 towards2)
    {
        Vec3 e1 = (b - a).Normalised();
        Vec3 e3 = e1.Cross(towards2).Normalised();
        return Mat3.FromRows(e1, e3.Cross(e1), e3);
    }

    /// <summary>Stiffness of a prismatic beam between two points.</summary>
    /// <param name="a">First end, mm.</param>
    /// <param name="b">Second end, mm.</param>
    /// <param name="moduli">E and G.</param>
    /// <param name="section">Section in the local axes.</param>
    /// <param name="theory">With or without shear deformation.</param>
    /// <param name="towards2">Fixes local axis 2; any direction will do for an isotropic section.</param>
    /// <remarks>
    /// Przemieniecki, Theory of Matrix Structural Analysis, ch. 5: shear parameter φ = 12EI/(κGA L²), here as the sum of
    /// the flexibilities L³/12EI and L/κGA at the middle of the beam.
    /// </remarks>
    public static MemberStiffness Stiffness(
        Vec3 a, Vec3 b, in ElasticModuli moduli, in Section section, BeamTheory theory, Vec3 towards2)
    {
        Vec3 d = b - a;
        double length = d.Length;
        Vec3 middle = 0.5 * (a + b);
        if (!section.IsIsotropic)
        {
            return BeamIntegrals.Prismatic(length, moduli, section, theory).StiffnessAt(middle, LocalAxes(a, b, towards2));
        }

        Vec3 e = (1 / length) * d;
        double ei = moduli.YoungsModulusMPa * section.I22Mm4;
        double acrossMmPerN = length * length * length / (12 * ei);
        if (theory == BeamTheory.Timoshenko)
        {
            acrossMmPerN += length / (section.ShearCoefficient * moduli.ShearModulusMPa * section.AreaMm2);
        }

        return new(
            middle,
            Mat3.Axial(1 / acrossMmPerN, moduli.YoungsModulusMPa * section.AreaMm2 / length, e),
            default,
            Mat3.Axial(ei / length, moduli.ShearModulusMPa * section.TorsionMm4 / length, e));
    }
}
