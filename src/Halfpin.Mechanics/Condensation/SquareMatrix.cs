namespace Halfpin.Mechanics.Condensation;

/// <summary>A small dense square matrix, row by row. A workspace: its values may be overwritten by its owner.</summary>
public sealed class SquareMatrix(int order)
{
    private readonly double[] _values = new double[order * order];
    private readonly double[] _work = new double[order * order];

    /// <summary>Number of rows.</summary>
    public int Order { get; } = order;

    /// <summary>An entry.</summary>
    public double this[int row, int column]
    {
        get => _values[(row * Order) + column];
        set => _values[(row * Order) + column] = value;
    }

    /// <summary>Writes the inverse of this symmetric positive definite matrix, by Cholesky, into another.</summary>
    /// <returns>False, with nothing written, when the matrix is not positive definite to rounding.</returns>
    public bool TryInvertInto(SquareMatrix inverse)
    {
        int n = Order;
        Span<double> l = _work;
        for (int j = 0; j < n; j++)
        {
            for (int i = j; i < n; i++)
            {
                double sum = (this[i, j] + this[j, i]) / 2;
                for (int k = 0; k < j; k++)
                {
                    sum -= l[(i * n) + k] * l[(j * n) + k];
                }

                if (i == j)
                {
                    if (!(sum > 1e-14 * this[j, j]))
                    {
                        return false;
                    }

                    l[(j * n) + j] = Math.Sqrt(sum);
                }
                else
                {
                    l[(i * n) + j] = sum / l[(j * n) + j];
                }
            }
        }

        for (int c = 0; c < n; c++)
        {
            for (int i = 0; i < n; i++)
            {
                double sum = i == c ? 1 : 0;
                for (int k = c; k < i; k++)
                {
                    sum -= l[(i * n) + k] * inverse[k, c];
                }

                inverse[i, c] = i < c ? 0 : sum / l[(i * n) + i];
            }

            for (int i = n - 1; i >= 0; i--)
            {
                double sum = inverse[i, c];
                for (int k = i + 1; k < n; k++)
                {
                    sum -= l[(k * n) + i] * inverse[k, c];
                }

                inverse[i, c] = sum / l[(i * n) + i];
            }
        }

        return true;
    }
}
