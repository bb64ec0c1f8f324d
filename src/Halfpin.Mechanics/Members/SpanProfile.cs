namespace Halfpin.Mechanics.Members;

/// <summary>State at the ends of a span under one load: motion at both ends, force and moment at the start.</summary>
internal readonly record struct SpanEnds((double W, double Slope) Start, (double W, double Slope) End, (double V, double M) Load);

/// <summary>
/// Deflection and EI·w″ inside a span of an embedded bar, under a unit force and a unit moment at the port: Hetényi's solution in the
/// form that keeps its digits at the span's λL.
/// </summary>
/// <remarks>
/// Up to λL = 2 from deflection, slope, moment and force at the start. That form grows as e^λx and would cancel in longer spans:
/// they are waves that die away from both ends, e^−λx and e^−λ(L−x) times cos and sin, from the motions of both ends.
/// </remarks>
internal readonly struct SpanProfile
{
    private readonly double _lengthMm;
    private readonly double _ei;
    private readonly double _k;
    private readonly double _lambda;
    private readonly bool _long;
    private readonly Four _force;
    private readonly Four _moment;

    public SpanProfile(in GroundSpan span, in SpanEnds force, in SpanEnds moment)
    {
        (_lengthMm, _ei, _k) = (span.LengthMm, span.Bar.BendingNmm2, span.FoundationNPerMm2);
        _lambda = FoundationSpan.Lambda(_ei, _k);
        _long = _lambda * _lengthMm > KrylovFunctions.MaxLambdaX;
        _force = _long ? Waves(force) : Initial(force);
        _moment = _long ? Waves(moment) : Initial(moment);
    }

    /// <summary>λ: what a wave turns by in a millimetre, in radians; 0 in a free span.</summary>
    public double Lambda => _lambda;

    /// <summary>The state at a distance from the start.</summary>
    /// <param name="x">Distance, 0 to the length.</param>
    /// <param name="depthMm">Depth of the start below the port.</param>
    /// <param name="span">Index of the span.</param>
    public BarStation At(double x, double depthMm, int span)
    {
        Four w, curvature;
        if (_long)
        {
            double z = _lambda * x, far = _lambda * (_lengthMm - x), two = 2 * _ei * _lambda * _lambda;
            double ez = Math.Exp(-z), ef = Math.Exp(-far);
            (double sz, double cz) = Math.SinCos(z);
            (double sf, double cf) = Math.SinCos(far);
            w = new(ez * cz, ez * sz, ef * cf, ef * sf);
            curvature = new(two * w.B, -two * w.A, two * w.D, -two * w.C);
        }
        else
        {
            KrylovFunctions y = KrylovFunctions.At(_k * x * x * x * x / _ei);
            w = new(y.F0, x * y.F1, x * x * y.F2 / 2, x * x * x * y.F3 / 6);
            curvature = new(-_k * w.C, -_k * w.D, _ei * w.A, _ei * w.B);
        }

        return new(depthMm + x, span, w.Dot(_force), w.Dot(_moment), curvature.Dot(_force), curvature.Dot(_moment));
    }

    // At the start EI·w″ = −m and EI·w‴ = v.
    private Four Initial(in SpanEnds e) => new(e.Start.W, e.Start.Slope, -e.Load.M / _ei, e.Load.V / _ei);

    // w = A e^−z cos z + B e^−z sin z + the same with C and D from the far end. The sum and the difference of the ends' motions
    // belong to A + C, B + D and to A − C, B − D; C and D then follow from the far end, which may hardly move.
    private Four Waves(in SpanEnds e)
    {
        double x = _lambda * _lengthMm, decay = Math.Exp(-x), u = decay * Math.Cos(x), v = decay * Math.Sin(x);
        double t0 = e.Start.Slope / _lambda, t1 = e.End.Slope / _lambda;
        double sum = e.Start.W + e.End.W, turn = t0 - t1, even = 1 / (1 + (2 * v) - (decay * decay));
        double p = ((sum * (1 - u + v)) - (v * turn)) * even, q = (((1 + u) * turn) + ((1 - u - v) * sum)) * even;
        double difference = e.Start.W - e.End.W, lean = t0 + t1, odd = 1 / (1 - (2 * v) - (decay * decay));
        double m = ((difference * (1 + u - v)) + (v * lean)) * odd, n = (((1 - u) * lean) + ((1 + u + v) * difference)) * odd;
        double a = (p + m) / 2, b = (q + n) / 2, c = e.End.W - (a * u) - (b * v);
        return new(a, b, c, c - (a * (u + v)) + (b * (u - v)) - t1);
    }

    private readonly record struct Four(double A, double B, double C, double D)
    {
        public double Dot(in Four o) => (A * o.A) + (B * o.B) + (C * o.C) + (D * o.D);
    }
}
