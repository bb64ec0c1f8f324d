namespace Halfpin.TestKit.Paths;

/// <summary>Gaussian elimination with row pivoting.</summary>
internal static class DenseSolve
{
    /// <summary>Solves a·x = b; both are overwritten and x is left in b.</summary>
    /// <returns>False when a pivot vanishes.</returns>
    public static bool InPlace(double[][] a, double[] b)
    {
        int n = b.Length;
        for (int c = 0; c < n; c++)
        {
            int pivot = c;
            for (int r = c + 1; r < n; r++)
            {
                pivot = Math.Abs(a[r][c]) > Math.Abs(a[pivot][c]) ? r : pivot;
            }

            (a[c], a[pivot]) = (a[pivot], a[c]);
            (b[c], b[pivot]) = (b[pivot], b[c]);
            double[] row = a[c];
            if (row[c] == 0)
            {
                return false;
            }

            for (int r = c + 1; r < n; r++)
            {
                double factor = a[r][c] / row[c];
                if (factor != 0)
                {
                    double[] target = a[r];
                    for (int k = c; k < n; k++)
                    {
                        target[k] -= factor * row[k];
                    }

                    b[r] -= factor * b[c];
                }
            }
        }

        for (int r = n - 1; r >= 0; r--)
        {
            double sum = b[r];
            for (int k = r + 1; k < n; k++)
            {
                sum -= a[r][k] * b[k];
            }

            b[r] = sum / a[r][r];
        }

        return true;
    }
}
