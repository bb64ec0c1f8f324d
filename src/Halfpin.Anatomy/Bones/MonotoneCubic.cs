namespace Halfpin.Anatomy.Bones;

/// <summary>Piecewise cubic interpolation that neither overshoots nor adds turning points; constant beyond its ends.</summary>
/// <remarks>
/// Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300: inside slopes are weighted harmonic means, 0 where the data turn;
/// end slopes from three points, limited to keep the end monotone. Value and slope are continuous inside.
/// </remarks>
internal sealed class MonotoneCubic
{
    private readonly double[] _x;
    private readonly double[] _y;
    private readonly double[] _slope;

    /// <summary>Interpolates at least three points with rising x.</summary>
    public MonotoneCubic(IEnumerable<double> x, IEnumerable<double> y)
    {
        _x = [.. x];
        _y = [.. y];
        int n = _x.Length;
        _slope = new double[n];
        for (int k = 1; k < n - 1; k++)
        {
            double before = Secant(k - 1), after = Secant(k);
            double h0 = _x[k] - _x[k - 1], h1 = _x[k + 1] - _x[k];
            double w1 = (2 * h1) + h0, w2 = h1 + (2 * h0);
            _slope[k] = before * after <= 0 ? 0 : (w1 + w2) / ((w1 / before) + (w2 / after));
        }

        _slope[0] = EndSlope(_x[1] - _x[0], _x[2] - _x[1], Secant(0), Secant(1));
        _slope[n - 1] = EndSlope(_x[n - 1] - _x[n - 2], _x[n - 2] - _x[n - 3], Secant(n - 2), Secant(n - 3));
    }

    /// <summary>The value at x.</summary>
    public double At(double x)
    {
        x = Math.Clamp(x, _x[0], _x[^1]);
        int k = Math.Clamp(Array.BinarySearch(_x, x) is int i && i >= 0 ? i : ~i - 1, 0, _x.Length - 2);
        double h = _x[k + 1] - _x[k], s = (x - _x[k]) / h, r = 1 - s;
        return ((1 + (2 * s)) * r * r * _y[k]) + (s * r * r * h * _slope[k])
            + (s * s * (3 - (2 * s)) * _y[k + 1]) - (s * s * r * h * _slope[k + 1]);
    }

    private double Secant(int k) => (_y[k + 1] - _y[k]) / (_x[k + 1] - _x[k]);

    private static double EndSlope(double h0, double h1, double e0, double e1)
    {
        double d = (((2 * h0) + h1) * e0 - (h0 * e1)) / (h0 + h1);
        return d * e0 <= 0 ? 0 : e0 * e1 <= 0 && Math.Abs(d) > 3 * Math.Abs(e0) ? 3 * e0 : d;
    }
}
