namespace Halfpin.Mechanics.Diagnosis;

/// <summary>Eigenvalues and vectors of a small dense symmetric matrix by cyclic Jacobi rotations.</summary>
/// <remarks>Golub and Van Loan, Matrix Computations, 4th ed., sect. 8.5. Meant for orders up to a few dozen.</remarks>
public static class SymmetricEigen
{
    private const int MaxSweeps = 60;

    /// <summary>Solves A v = λ v.</summary>
    /// <param name="matrix">Symmetric; only read.</param>
    /// <returns>Eigenvalues in ascending order and the eigenvectors as columns, orthonormal.</returns>
    public static (double[] Values, double[,] Vectors) Solve(double[,] matrix)
    {
        int n = matrix.GetLength(0);
        double[,] a = (double[,])matrix.Clone(), v = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            v[i, i] = 1;
        }

        for (int sweep = 0; sweep < MaxSweeps && OffDiagonal(a) > 0; sweep++)
        {
            for (int p = 0; p < n - 1; p++)
            {
                for (int q = p + 1; q < n; q++)
                {
                    Rotate(a, v, p, q);
                }
            }
        }

        int[] order = [.. Enumerable.Range(0, n).OrderBy(i => a[i, i])];
        double[] values = [.. order.Select(i => a[i, i])];
        double[,] vectors = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int c = 0; c < n; c++)
            {
                vectors[i, c] = v[i, order[c]];
            }
        }

        return (values, vectors);
    }

    private static void Rotate(double[,] a, double[,] v, int p, int q)
    {
        double apq = a[p, q];
        if (Math.Abs(apq) <= double.Epsilon || Math.Abs(apq) < 1e-18 * (Math.Abs(a[p, p]) + Math.Abs(a[q, q])))
        {
            a[p, q] = a[q, p] = 0;
            return;
        }

        double theta = (a[q, q] - a[p, p]) / (2 * apq);
        double t = Math.CopySign(1, theta) / (Math.Abs(theta) + Math.Sqrt(1 + (theta * theta)));
        double c = 1 / Math.Sqrt(1 + (t * t)), s = t * c;
        int n = a.GetLength(0);
        for (int k = 0; k < n; k++)
        {
            (a[k, p], a[k, q]) = ((c * a[k, p]) - (s * a[k, q]), (s * a[k, p]) + (c * a[k, q]));
        }

        for (int k = 0; k < n; k++)
        {
            (a[p, k], a[q, k]) = ((c * a[p, k]) - (s * a[q, k]), (s * a[p, k]) + (c * a[q, k]));
            (v[k, p], v[k, q]) = ((c * v[k, p]) - (s * v[k, q]), (s * v[k, p]) + (c * v[k, q]));
        }
    }

    private static double OffDiagonal(double[,] a)
    {
        double sum = 0;
        for (int i = 0; i < a.GetLength(0); i++)
        {
            for (int j = 0; j < i; j++)
            {
                sum += a[i, j] * a[i, j];
            }
        }

        return sum;
    }
}
