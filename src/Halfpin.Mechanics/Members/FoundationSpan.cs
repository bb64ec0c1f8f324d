namespace Halfpin.Mechanics.Members;

/// <summary>
/// The exact end stiffness of an Euler–Bernoulli beam of length L on a Winkler foundation k in one bending plane:
/// forces and moments at both ends against deflections w and slopes w′ at both ends.
/// </summary>
/// <remarks>
/// Hetényi, Beams on Elastic Foundation, 1946; stiffness form in Eisenberger and Yankelevsky, Computers and Structures
/// 21 (1985) 1355: λ = (k/4EI)^¼, with S = sinh λL, C = cosh λL, s = sin λL, c = cos λL, D = S² − s².
/// Symmetric; the second end's entries follow from the first's by reflection.
/// </remarks>
/// <param name="K11">Force at the first end per deflection there, N/mm.</param>
/// <param name="K12">Force at the first end per slope there, N.</param>
/// <param name="K13">Force at the first end per deflection at the second, N/mm.</param>
/// <param name="K14">Force at the first end per slope at the second, N.</param>
/// <param name="K22">Moment at the first end per slope there, N·mm.</param>
/// <param name="K24">Moment at the first end per slope at the second, N·mm.</param>
public readonly record struct FoundationSpan(double K11, double K12, double K13, double K14, double K22, double K24)
{
    // Below this λL the closed form loses digits as (λL)⁻² (5e-13 here); the two-term series (beam plus consistent
    // foundation) is then good to (λL)⁸ (3e-14 here).
    private const double SeriesBelow = 0.02;

    // Above this λL the far end no longer acts on the near one: e⁻⁴⁰ = 4e-18.
    private const double SemiInfiniteAbove = 40;

    /// <summary>The stiffness of a span.</summary>
    /// <param name="lengthMm">L.</param>
    /// <param name="bendingStiffnessNmm2">EI.</param>
    /// <param name="foundationNPerMm2">k, force per length and deflection; 0 gives the plain beam.</param>
    public static FoundationSpan Of(double lengthMm, double bendingStiffnessNmm2, double foundationNPerMm2)
    {
        double l = lengthMm, ei = bendingStiffnessNmm2, k = foundationNPerMm2;
        double lambda = Lambda(ei, k);
        double x = lambda * l;
        if (x < SeriesBelow)
        {
            double b = ei / (l * l * l), f = k * l / 420;
            return new(
                (12 * b) + (156 * f), ((6 * b) + (22 * f)) * l, (-12 * b) + (54 * f), ((6 * b) - (13 * f)) * l,
                ((4 * b) + (4 * f)) * l * l, ((2 * b) - (3 * f)) * l * l);
        }

        double p1 = 2 * ei * lambda, p2 = p1 * lambda, p3 = 2 * p2 * lambda;
        if (x > SemiInfiniteAbove)
        {
            return new(p3, p2, 0, 0, p1, 0);
        }

        double sh = Math.Sinh(x), ch = Math.Cosh(x);
        (double sn, double cs) = Math.SinCos(x);
        double d = 1 / ((sh * sh) - (sn * sn));
        return new(
            p3 * ((sh * ch) + (sn * cs)) * d,
            p2 * ((sh * sh) + (sn * sn)) * d,
            -p3 * ((sh * cs) + (ch * sn)) * d,
            2 * p2 * sh * sn * d,
            p1 * ((sh * ch) - (sn * cs)) * d,
            p1 * ((ch * sn) - (sh * cs)) * d);
    }

    /// <summary>λ = (k/4EI)^¼, 1/mm.</summary>
    public static double Lambda(double bendingStiffnessNmm2, double foundationNPerMm2) =>
        Math.Sqrt(Math.Sqrt(foundationNPerMm2 / (4 * bendingStiffnessNmm2)));
}
