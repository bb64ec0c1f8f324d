namespace Halfpin.Mechanics.Contact;

/// <summary>What to do next from a point of a convex energy.</summary>
internal enum Descent
{
    /// <summary>Take the Newton step.</summary>
    Newton,

    /// <summary>Along the direction the energy falls evenly: nothing resists there.</summary>
    Unresisted,

    /// <summary>The matrix is not that of a convex energy.</summary>
    Impossible,
}

/// <summary>Newton steps of a convex energy by Cholesky, with freedoms that may lose all resistance. A workspace.</summary>
internal sealed class DescentStep(int most)
{
    // A pivot below this share of its diagonal is none; rounding leaves some 1e-15.
    private const double LostPivotShare = 1e-13;

    // A freedom without resistance is driven when the slope along it is more than this share of the forces about.
    private const double DrivenShare = 1e-10;

    private readonly double[] _step = new double[most];

    /// <summary>The step, or the direction that nothing resists, downhill.</summary>
    public Span<double> Step => _step;

    /// <summary>Finds the step. The Hessian is overwritten by its factor.</summary>
    /// <param name="gradient">Gradient.</param>
    /// <param name="hessian">Hessian, row by row; the order is that of the gradient.</param>
    /// <param name="certain">How many of the first freedoms always meet resistance.</param>
    /// <param name="size">Size of the forces that the gradient is made of.</param>
    public Descent Find(ReadOnlySpan<double> gradient, Span<double> hessian, int certain, double size)
    {
        int n = gradient.Length;
        ulong idle = 0;
        for (int j = 0; j < n; j++)
        {
            for (int i = j; i < n; i++)
            {
                double sum = hessian[(i * n) + j];
                for (int k = 0; k < j; k++)
                {
                    sum -= hessian[(i * n) + k] * hessian[(j * n) + k];
                }

                if (i > j)
                {
                    hessian[(i * n) + j] = (idle >> j & 1) != 0 ? 0 : sum / hessian[(j * n) + j];
                }
                else if (sum > LostPivotShare * hessian[(j * n) + j])
                {
                    hessian[(j * n) + j] = Math.Sqrt(sum);
                }
                else if (j < certain)
                {
                    return Descent.Impossible;
                }
                else if (IsDriven(gradient, hessian, j, idle, size))
                {
                    return Descent.Unresisted;
                }
                else
                {
                    // Neither resisted nor driven: it stays where it is.
                    idle |= 1UL << j;
                    hessian[(j * n) + j] = 1;
                }
            }
        }

        Solve(gradient, hessian, idle);
        return Descent.Newton;
    }

    private void Solve(ReadOnlySpan<double> gradient, ReadOnlySpan<double> factor, ulong idle)
    {
        int n = gradient.Length;
        for (int i = 0; i < n; i++)
        {
            double sum = -gradient[i];
            for (int k = 0; k < i; k++)
            {
                sum -= factor[(i * n) + k] * _step[k];
            }

            _step[i] = (idle >> i & 1) != 0 ? 0 : sum / factor[(i * n) + i];
        }

        Back(factor, n, n, idle);
    }

    // The null vector of the leading block whose last pivot was lost: 1 there, and before it what the factor's row asks for.
    private bool IsDriven(ReadOnlySpan<double> gradient, ReadOnlySpan<double> factor, int lost, ulong idle, double size)
    {
        int n = gradient.Length;
        Array.Clear(_step);
        for (int k = 0; k < lost; k++)
        {
            _step[k] = (idle >> k & 1) != 0 ? 0 : -factor[(lost * n) + k];
        }

        Back(factor, n, lost, idle);
        _step[lost] = 1;
        double slope = 0;
        for (int i = 0; i <= lost; i++)
        {
            slope += gradient[i] * _step[i];
        }

        for (int i = 0; i <= lost; i++)
        {
            _step[i] *= slope > 0 ? -1 : 1;
        }

        return Math.Abs(slope) > DrivenShare * size;
    }

    private void Back(ReadOnlySpan<double> factor, int n, int count, ulong idle)
    {
        for (int i = count - 1; i >= 0; i--)
        {
            double sum = _step[i];
            for (int k = i + 1; k < count; k++)
            {
                sum -= factor[(k * n) + i] * _step[k];
            }

            _step[i] = (idle >> i & 1) != 0 ? 0 : sum / factor[(i * n) + i];
        }
    }
}
