using Halfpin.Mechanics.Geometry;

namespace Halfpin.Mechanics.Members;

/// <summary>A stretch of an embedded bar: on a Winkler foundation, or free where the foundation is 0.</summary>
/// <param name="LengthMm">Length along the bar, more than 0.</param>
/// <param name="FoundationNPerMm2">Force per length and deflection, N/mm per mm.</param>
/// <param name="Bar">Rigidities of the bar in this span.</param>
public readonly record struct GroundSpan(double LengthMm, double FoundationNPerMm2, BarRigidity Bar)
{
    /// <summary>The bending end stiffness of the span.</summary>
    internal FoundationSpan Bending => FoundationSpan.Of(LengthMm, Bar.BendingNmm2, FoundationNPerMm2);
}

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

/// <summary>Largest values in a span, whatever their direction across the bar.</summary>
/// <param name="DeflectionMm">Deflection relative to the ground.</param>
/// <param name="MomentNmm">Bending moment.</param>
public readonly record struct SpanPeak(double DeflectionMm, double MomentNmm);

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
    /// <param name="portMm">The port, on the surface.</param>
    /// <param name="inward">Unit vector along the bar into the ground.</param>
    /// <returns>A stiffness that is singular when no span has a foundation: such a bar is not held.</returns>
    public static MemberStiffness Stiffness(ReadOnlySpan<GroundSpan> spans, Vec3 portMm, Vec3 inward)
    {
        GroundPort port = default;
        double axial = 0, twist = 0;
        for (int i = spans.Length - 1; i >= 0; i--)
        {
            (double length, double k, BarRigidity bar) = spans[i];
            port = port.Through(spans[i], spans[i].Bending);
            axial = AlongThrough(axial, length, bar.AxialN, k);
            twist = AlongThrough(twist, length, bar.TorsionNmm2, k * bar.DiameterMm * bar.DiameterMm / 4);
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
    /// <param name="stationsPerSpan">Stations in a span, at least 2.</param>
    /// <param name="stations">Receives spans × stations values.</param>
    public static void Profile(ReadOnlySpan<GroundSpan> spans, int stationsPerSpan, Span<BarStation> stations)
    {
        Span<SpanProfile> profiles = stackalloc SpanProfile[MaxSpans];
        Solve(spans, profiles);
        double depthMm = 0;
        int next = 0;
        for (int i = 0; i < spans.Length; i++)
        {
            for (int j = 0; j < stationsPerSpan; j++)
            {
                stations[next++] = profiles[i].At(spans[i].LengthMm * j / (stationsPerSpan - 1), depthMm, i);
            }

            depthMm += spans[i].LengthMm;
        }
    }

    /// <summary>The solution of every span under a unit force and a unit moment at the port.</summary>
    internal static void Solve(ReadOnlySpan<GroundSpan> spans, Span<SpanProfile> profiles)
    {
        Span<FoundationSpan> stiffness = stackalloc FoundationSpan[MaxSpans];
        Span<GroundPort> ports = stackalloc GroundPort[MaxSpans + 1];
        ports[spans.Length] = default;
        for (int i = spans.Length - 1; i >= 0; i--)
        {
            stiffness[i] = spans[i].Bending;
            ports[i] = ports[i + 1].Through(spans[i], stiffness[i]);
        }

        (double w, double slope) force = ports[0].Solve(1, 0), moment = ports[0].Solve(0, 1);
        for (int i = 0; i < spans.Length; i++)
        {
            SpanEnds underForce = ports[i + 1].Ends(spans[i], stiffness[i], force, ports[i].Load(force));
            SpanEnds underMoment = ports[i + 1].Ends(spans[i], stiffness[i], moment, ports[i].Load(moment));
            profiles[i] = new(spans[i], underForce, underMoment);
            (force, moment) = (underForce.End, underMoment.End);
        }
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
}
