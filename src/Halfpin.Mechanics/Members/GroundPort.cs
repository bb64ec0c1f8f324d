namespace Halfpin.Mechanics.Members;

/// <summary>Planar stiffness that a point of an embedded bar meets from all that lies deeper: (force, moment) per (w, w′).</summary>
internal readonly record struct GroundPort(double K11, double K12, double K22)
{
    // A short span is far stiffer in itself than all that holds it; condensing its end stiffness would then lose digits by that
    // ratio. Beyond this ratio the bar's state is carried across instead.
    private const double ShortSpanRatio = 1e3;

    /// <summary>The stiffness at the start of a span whose end meets this one.</summary>
    public GroundPort Through(in GroundSpan span, in FoundationSpan s)
    {
        if (IsShort(span))
        {
            return ThroughShort(span.LengthMm, span.Bar.BendingNmm2, span.FoundationNPerMm2);
        }

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

    /// <summary>State of a span whose end meets this stiffness, from motion and load at its start.</summary>
    public SpanEnds Ends(in GroundSpan span, in FoundationSpan s, (double W, double Slope) start, (double V, double M) load)
    {
        if (IsShort(span))
        {
            return new(start, EndOfShort(span.LengthMm, span.Bar.BendingNmm2, span.FoundationNPerMm2, start, load), load);
        }

        double v = -((s.K13 * start.W) - (s.K14 * start.Slope)), m = -((s.K14 * start.W) + (s.K24 * start.Slope));
        return new(start, new GroundPort(s.K11 + K11, -s.K12 + K12, s.K22 + K22).Solve(v, m), load);
    }

    /// <summary>Motion under a force and a moment.</summary>
    public (double W, double Slope) Solve(double v, double m)
    {
        double det = 1 / ((K11 * K22) - (K12 * K12));
        return (((K22 * v) - (K12 * m)) * det, ((K11 * m) - (K12 * v)) * det);
    }

    /// <summary>Force and moment of a motion.</summary>
    public (double V, double M) Load((double W, double Slope) at) =>
        ((K11 * at.W) + (K12 * at.Slope), (K12 * at.W) + (K22 * at.Slope));

    private bool IsShort(in GroundSpan span)
    {
        double l = span.LengthMm;
        return 12 * span.Bar.BendingNmm2 / (l * l * l) > ShortSpanRatio * ((span.FoundationNPerMm2 * l) + K11);
    }

    private static (double W, double Slope) EndOfShort(double l, double ei, double k, (double W, double Slope) u, (double V, double M) f)
    {
        KrylovFunctions y = KrylovFunctions.At(k * l * l * l * l / ei);
        double x1 = l * y.F1, x2 = l * l * y.F2 / 2, x3 = l * l * l * y.F3 / 6;
        return (
            (y.F0 * u.W) + (x1 * u.Slope) + (((x3 * f.V) - (x2 * f.M)) / ei),
            (y.F0 * u.Slope) + (((x2 * f.V) - (x1 * f.M) - (k * x3 * u.W)) / ei));
    }

    // State (u, f) = (w, w′; V, M) with V = EI w‴ and M = −EI w″: u₁ = P u + Q f, f₁ = R u + S f, and f₁ = K u₁ gives
    // (S − KQ) f = (KP − R) u.
    private GroundPort ThroughShort(double l, double ei, double k)
    {
        KrylovFunctions y = KrylovFunctions.At(k * l * l * l * l / ei);
        double x1 = l * y.F1, x2 = l * l * y.F2 / 2, x3 = l * l * l * y.F3 / 6, y0 = y.F0;
        double p21 = -k * x3 / ei, q11 = x3 / ei, q21 = x2 / ei, q22 = -x1 / ei;
        double a11 = y0 - ((K11 * q11) + (K12 * q21)), a12 = -p21 - ((K11 * -q21) + (K12 * q22));
        double a21 = -x1 - ((K12 * q11) + (K22 * q21)), a22 = y0 - ((K12 * -q21) + (K22 * q22));
        double b11 = (K11 * y0) + (K12 * p21) + (k * x1), b12 = (K11 * x1) + (K12 * y0) + (k * x2);
        double b21 = (K12 * y0) + (K22 * p21) - (k * x2), b22 = (K12 * x1) + (K22 * y0) - (k * x3);
        double det = 1 / ((a11 * a22) - (a12 * a21));
        return new(
            ((a22 * b11) - (a12 * b21)) * det,
            ((a22 * b12) - (a12 * b22)) * det,
            ((a11 * b22) - (a21 * b12)) * det);
    }
}
