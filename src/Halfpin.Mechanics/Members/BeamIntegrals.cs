using Halfpin.Mechanics.Geometry;

namespace Halfpin.Mechanics.Members;

/// <summary>A symmetric 2×2 tensor across a member: components 22, 23, 33.</summary>
public readonly record struct Sym2(double A22, double A23, double A33)
{
    public static Sym2 operator +(in Sym2 a, in Sym2 b) => new(a.A22 + b.A22, a.A23 + b.A23, a.A33 + b.A33);

    public static Sym2 operator *(double s, in Sym2 a) => new(s * a.A22, s * a.A23, s * a.A33);

    /// <summary>The inverse. The tensor must be regular.</summary>
    public Sym2 Inverse()
    {
        double d = 1 / ((A22 * A33) - (A23 * A23));
        return new(A33 * d, -A23 * d, A22 * d);
    }
}

/// <summary>
/// The flexibility of a straight member with any sections along it, as integrals over its length of the
/// section flexibilities and their first and second moments about a reference point. Integrals add when
/// members follow one another, so a stepped or tapering bar stays one exact member.
/// </summary>
/// <remarks>
/// Local axes 2, 3 across and 1 along. A wrench (f, m) at the reference point gives at distance ζ (along 1) the
/// moment M = m + ζ(f₃, −f₂) and the rotation rate C·M with C = [∫x₃²  −∫x₂x₃; −∫x₂x₃  ∫x₂²]⁻¹/E.
/// </remarks>
/// <param name="AxialMmPerN">∫1/EA.</param>
/// <param name="TwistRadPerNmm">∫1/GJ.</param>
/// <param name="ShearMmPerN">∫1/κGA; 0 leaves shear deformation out.</param>
/// <param name="Bending0">∫C, rad/(N·mm).</param>
/// <param name="Bending1">∫ζC, rad/N.</param>
/// <param name="Bending2">∫ζ²C, mm/N.</param>
public readonly record struct BeamIntegrals(
    double AxialMmPerN, double TwistRadPerNmm, double ShearMmPerN, Sym2 Bending0, Sym2 Bending1, Sym2 Bending2)
{
    /// <summary>A prismatic member about its middle.</summary>
    public static BeamIntegrals Prismatic(double lengthMm, in ElasticModuli moduli, in Section section, BeamTheory theory)
    {
        double e = moduli.YoungsModulusMPa, g = moduli.ShearModulusMPa;
        Sym2 c = new Sym2(e * section.I33Mm4, -e * section.I23Mm4, e * section.I22Mm4).Inverse();
        return new(
            lengthMm / (e * section.AreaMm2),
            lengthMm / (g * section.TorsionMm4),
            theory == BeamTheory.Timoshenko ? lengthMm / (section.ShearCoefficient * g * section.AreaMm2) : 0,
            lengthMm * c,
            default,
            lengthMm * lengthMm * lengthMm / 12 * c);
    }

    /// <summary>The two members one after the other, both about the same reference point.</summary>
    public static BeamIntegrals operator +(in BeamIntegrals a, in BeamIntegrals b) => new(
        a.AxialMmPerN + b.AxialMmPerN, a.TwistRadPerNmm + b.TwistRadPerNmm, a.ShearMmPerN + b.ShearMmPerN,
        a.Bending0 + b.Bending0, a.Bending1 + b.Bending1, a.Bending2 + b.Bending2);

    /// <summary>The same member about a reference point that lies <paramref name="backMm"/> further back along axis 1.</summary>
    public BeamIntegrals AboutPointFurtherBack(double backMm) => this with
    {
        Bending1 = Bending1 + (backMm * Bending0),
        Bending2 = Bending2 + (2 * backMm * Bending1) + (backMm * backMm * Bending0),
    };

    /// <summary>The stiffness at the reference point.</summary>
    /// <param name="referenceMm">The reference point in the global frame.</param>
    /// <param name="localAxes">Rows: the member's axes 1, 2, 3 in the global frame, right-handed.</param>
    public MemberStiffness StiffnessAt(Vec3 referenceMm, in Mat3 localAxes)
    {
        // Flexibility in (u2, u3 | θ2, θ3): [A B; Bᵀ D] with A = JᵀC₂J + shear, B = JᵀC₁, D = C₀, J = [0 1; −1 0].
        Sym2 ai = new Sym2(Bending2.A33 + ShearMmPerN, -Bending2.A23, Bending2.A22 + ShearMmPerN).Inverse();
        double b11 = -Bending1.A23, b12 = -Bending1.A33, b21 = Bending1.A22, b22 = Bending1.A23;

        // X = A⁻¹B, then M = (D − BᵀX)⁻¹, Q = −XM, N = A⁻¹ + XMXᵀ.
        double x11 = (ai.A22 * b11) + (ai.A23 * b21), x12 = (ai.A22 * b12) + (ai.A23 * b22);
        double x21 = (ai.A23 * b11) + (ai.A33 * b21), x22 = (ai.A23 * b12) + (ai.A33 * b22);
        Sym2 m = new Sym2(
            Bending0.A22 - ((b11 * x11) + (b21 * x21)),
            Bending0.A23 - ((b11 * x12) + (b21 * x22)),
            Bending0.A33 - ((b12 * x12) + (b22 * x22))).Inverse();
        double q11 = -((x11 * m.A22) + (x12 * m.A23)), q12 = -((x11 * m.A23) + (x12 * m.A33));
        double q21 = -((x21 * m.A22) + (x22 * m.A23)), q22 = -((x21 * m.A23) + (x22 * m.A33));
        Sym2 n = new(
            ai.A22 - ((q11 * x11) + (q12 * x12)),
            ai.A23 - ((q11 * x21) + (q12 * x22)),
            ai.A33 - ((q21 * x21) + (q22 * x22)));

        return new(
            referenceMm,
            new Mat3(1 / AxialMmPerN, 0, 0, 0, n.A22, n.A23, 0, n.A23, n.A33).Turned(localAxes),
            new Mat3(0, 0, 0, 0, q11, q12, 0, q21, q22).Turned(localAxes),
            new Mat3(1 / TwistRadPerNmm, 0, 0, 0, m.A22, m.A23, 0, m.A23, m.A33).Turned(localAxes));
    }
}
