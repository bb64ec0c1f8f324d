using Halfpin.Mechanics.Geometry;

namespace Halfpin.Mechanics.Members;

/// <summary>A stretch of an embedded bar: on a Winkler foundation, or free where the foundation is 0.</summary>
/// <param name="LengthMm">Length along the bar, more than 0.</param>
/// <param name="FoundationNPerMm2">Force per length and deflection, N/mm per mm.</param>
public readonly record struct GroundSpan(double LengthMm, double FoundationNPerMm2);

/// <summary>Rigidities of a round bar in the ground.</summary>
/// <param name="BendingNmm2">EI.</param>
/// <param name="AxialN">EA.</param>
/// <param name="TorsionNmm2">GJ.</param>
/// <param name="DiameterMm">Diameter that bears on the ground.</param>
public readonly record struct BarRigidity(double BendingNmm2, double AxialN, double TorsionNmm2, double DiameterMm)
{
    /// <summary>A solid round bar that bends with one diameter and bears with another.</summary>
    /// <param name="moduli">E and G.</param>
    /// <param name="bendingDiameterMm">Diameter of what bends: a thread's core, or the whole bar.</param>
    /// <param name="bearingDiameterMm">Outer diameter.</param>
    public static BarRigidity Solid(in ElasticModuli moduli, double bendingDiameterMm, double bearingDiameterMm)
    {
        Section s = Section.Round(bendingDiameterMm, 0, 1);
        return new(
            moduli.YoungsModulusMPa * s.I22Mm4, moduli.YoungsModulusMPa * s.AreaMm2,
            moduli.ShearModulusMPa * s.TorsionMm4, bearingDiameterMm);
    }
}

/// <summary>
/// State of an embedded bar at one depth, per unit force and per unit moment at its port in one bending plane
/// (the two planes of a round bar are alike).
/// </summary>
/// <param name="DepthMm">Depth below the port.</param>
/// <param name="Span">Index of the span it lies in.</param>
/// <param name="DeflectionPerForceMm">Deflection relative to the ground per newton at the port.</param>
/// <param name="DeflectionPerMomentMm">Deflection per N·mm at the port.</param>
/// <param name="MomentPerForceNmm">Bending moment EI·w″ per newton.</param>
/// <param name="MomentPerMoment">Bending moment per N·mm.</param>
public readonly record struct BarStation(
    double DepthMm, int Span, double DeflectionPerForceMm, double DeflectionPerMomentMm, double MomentPerForceNmm, double MomentPerMoment);

/// <summary>
/// A round bar embedded in ground that moves as one rigid body, as seen from its port at the surface: spans on an
/// elastic foundation and free spans in a row, the last end free.
/// </summary>
/// <remarks>
/// The ground's motion along the bar is linear, so the deflection relative to it obeys the same equation and the whole
/// bar acts on the relative motion of port and ground alone: a member between the node at the port and the
/// ground's node, with no freedoms inside. Bending is Euler–Bernoulli. Along the bar and about it the foundation is a
/// distributed spring of k and k·d²/4. Exact for linear behaviour; no lift-off, no loosening under load.
/// </remarks>
public static class EmbeddedBar
{
    /// <summary>Most spans a bar may have.</summary>
    public const int MaxSpans = 8;

    /// <summary>Stiffness between the bar at its port and the ground.</summary>
    /// <param name="spans">From the port inwards; at least one, at most <see cref="MaxSpans"/>.</param>
    /// <param name="bar">Rigidities.</param>
    /// <param name="portMm">The port, on the surface.</param>
    /// <param name="inward">Unit vector along the bar into the ground.</param>
    /// <returns>A stiffness that is singular when no span has a foundation: such a bar is not held.</returns>
    public static MemberStiffness Stiffness(ReadOnlySpan<GroundSpan> spans, in BarRigidity bar, Vec3 portMm, Vec3 inward)
    {
        Port port = default;
        double axial = 0, twist = 0;
        for (int i = spans.Length - 1; i >= 0; i--)
        {
            GroundSpan span = spans[i];
            port = port.Through(FoundationSpan.Of(span.LengthMm, bar.BendingNmm2, span.FoundationNPerMm2));
            axial = AlongThrough(axial, span.LengthMm, bar.AxialN, span.FoundationNPerMm2);
            twist = AlongThrough(twist, span.LengthMm, bar.TorsionNmm2, span.FoundationNPerMm2 * bar.DiameterMm * bar.DiameterMm / 4);
        }

        // A deflection along n with slope w′ is the rotation w′(d × n): the coupling tensor is −K12[d×].
        return new(
            portMm,
            Mat3.Axial(port.K11, axial, inward),
            -port.K12 * Mat3.CrossBy(inward),
            Mat3.Axial(port.K22, twist, inward));
    }

    /// <summary>Fills the state at evenly spaced depths of every span, ends included.</summary>
    /// <param name="spans">As for <see cref="Stiffness"/>; the port must be held (some span has a foundation).</param>
    /// <param name="bendingNmm2">EI.</param>
    /// <param name="stationsPerSpan">Stations in a span, at least 2.</param>
    /// <param name="stations">Receives spans × stations values.</param>
    public static void Profile(ReadOnlySpan<GroundSpan> spans, double bendingNmm2, int stationsPerSpan, Span<BarStation> stations)
    {
        Span<FoundationSpan> stiffness = stackalloc FoundationSpan[MaxSpans];
        Span<Port> ports = stackalloc Port[MaxSpans + 1];
        ports[spans.Length] = default;
        for (int i = spans.Length - 1; i >= 0; i--)
        {
            stiffness[i] = FoundationSpan.Of(spans[i].LengthMm, bendingNmm2, spans[i].FoundationNPerMm2);
            ports[i] = ports[i + 1].Through(stiffness[i]);
        }

        (double w, double slope) force = ports[0].Solve(1, 0), moment = ports[0].Solve(0, 1);
        double depthMm = 0;
        int next = 0;
        for (int i = 0; i < spans.Length; i++)
        {
            double lambda = FoundationSpan.Lambda(bendingNmm2, spans[i].FoundationNPerMm2);
            (double v, double m) forceEnd = ports[i].Load(force), momentEnd = ports[i].Load(moment);
            for (int j = 0; j < stationsPerSpan; j++)
            {
                double x = spans[i].LengthMm * j / (stationsPerSpan - 1);
                (double wf, double mf) = Inside(x, lambda, bendingNmm2, force, forceEnd);
                (double wm, double mm) = Inside(x, lambda, bendingNmm2, moment, momentEnd);
                stations[next++] = new(depthMm + x, i, wf, wm, mf, mm);
            }

            depthMm += spans[i].LengthMm;
            force = ports[i + 1].Across(stiffness[i], force);
            moment = ports[i + 1].Across(stiffness[i], moment);
        }
    }

    // Initial-parameter (Krylov) form of Hetényi's solution: deflection and EI·w″ at x from deflection, slope, force and
    // moment on the start of the span. There EI·w″ = −m and EI·w‴ = v.
    private static (double DeflectionMm, double MomentNmm) Inside(
        double x, double lambda, double ei, (double W, double Slope) start, (double V, double M) load)
    {
        double z = lambda * x;
        if (z < 1e-6)
        {
            double w = start.W + (start.Slope * x) - (load.M * x * x / (2 * ei)) + (load.V * x * x * x / (6 * ei));
            return (w, -load.M + (load.V * x));
        }

        double sh = Math.Sinh(z), ch = Math.Cosh(z);
        (double sn, double cs) = Math.SinCos(z);
        double y1 = ch * cs, y2 = ((ch * sn) + (sh * cs)) / 2, y3 = sh * sn / 2, y4 = ((ch * sn) - (sh * cs)) / 4;
        double a = start.W, b = start.Slope / lambda, c = -load.M / (ei * lambda * lambda), d = load.V / (ei * lambda * lambda * lambda);
        double deflection = (a * y1) + (b * y2) + (c * y3) + (d * y4);
        double curvature = lambda * lambda * ((-4 * a * y3) - (4 * b * y4) + (c * y1) + (d * y2));
        return (deflection, ei * curvature);
    }

    // Stiffness at the start of a stretch of rigidity R on a distributed spring c whose far end meets the stiffness `end`.
    private static double AlongThrough(double end, double length, double rigidity, double spring)
    {
        if (spring == 0)
        {
            double own = rigidity / length;
            return end * own / (end + own);
        }

        double root = Math.Sqrt(spring * rigidity), t = Math.Tanh(length * Math.Sqrt(spring / rigidity));
        return root * (end + (root * t)) / (root + (end * t));
    }

    /// <summary>Planar stiffness that a point of the bar meets from all that lies deeper: (force, moment) per (w, w′).</summary>
    private readonly record struct Port(double K11, double K12, double K22)
    {
        public Port Through(in FoundationSpan s)
        {
            // Second end: K33 = K11, K34 = −K12, K44 = K22, K23 = −K14 by reflection.
            double a = s.K11 + K11, b = -s.K12 + K12, d = s.K22 + K22, det = 1 / ((a * d) - (b * b));
            double ia = d * det, ib = -b * det, id = a * det;
            double r11 = s.K13, r12 = s.K14, r21 = -s.K14, r22 = s.K24;
            double t11 = (r11 * ia) + (r12 * ib), t12 = (r11 * ib) + (r12 * id);
            double t21 = (r21 * ia) + (r22 * ib), t22 = (r21 * ib) + (r22 * id);
            return new(
                s.K11 - ((t11 * r11) + (t12 * r12)),
                s.K12 - ((t11 * r21) + (t12 * r22)),
                s.K22 - ((t21 * r21) + (t22 * r22)));
        }

        // This port lies at the second end of span s; its motion from the motion of the first end.
        public (double W, double Slope) Across(in FoundationSpan s, (double W, double Slope) first)
        {
            double v = -((s.K13 * first.W) - (s.K14 * first.Slope)), m = -((s.K14 * first.W) + (s.K24 * first.Slope));
            return new Port(s.K11 + K11, -s.K12 + K12, s.K22 + K22).Solve(v, m);
        }

        public (double W, double Slope) Solve(double v, double m)
        {
            double det = 1 / ((K11 * K22) - (K12 * K12));
            return (((K22 * v) - (K12 * m)) * det, ((K11 * m) - (K12 * v)) * det);
        }

        public (double V, double M) Load((double W, double Slope) at) =>
            ((K11 * at.W) + (K12 * at.Slope), (K12 * at.W) + (K22 * at.Slope));
    }
}
