using CsCheck;
using Halfpin.Mechanics.Diagnosis;
using Xunit;

namespace Halfpin.Mechanics.Tests.Diagnosis;

public class SymmetricEigenTests
{
    [Fact]
    public void Eigen_anyMatrix_rebuildsIt() => Gen.Double[-3, 5].Array2D[7, 7].Sample(raw =>
    {
        double[,] a = new double[7, 7];
        for (int i = 0; i < 7; i++)
        {
            for (int j = 0; j < 7; j++)
            {
                a[i, j] = raw[i, j] + raw[j, i];
            }
        }

        (double[] values, double[,] v) = SymmetricEigen.Solve(a);
        for (int i = 0; i < 7; i++)
        {
            for (int j = 0; j < 7; j++)
            {
                double sum = Enumerable.Range(0, 7).Sum(k => values[k] * v[i, k] * v[j, k]);
                if (Math.Abs(sum - a[i, j]) > 1e-12 * 40)
                {
                    return false;
                }
            }
        }

        return values.Zip(values.Skip(1)).All(p => p.First <= p.Second);
    });

    [Fact]
    public void Eigen_knownMatrix_givesItsValues()
    {
        // Second-difference matrix of order 3: 2 − 2cos(kπ/4), Golub and Van Loan sect. 4.8.
        (double[] values, _) = SymmetricEigen.Solve(new double[,] { { 2, -1, 0 }, { -1, 2, -1 }, { 0, -1, 2 } });

        Assert.Equal(2 - Math.Sqrt(2), values[0], 12);
        Assert.Equal(2, values[1], 12);
        Assert.Equal(2 + Math.Sqrt(2), values[2], 12);
    }
}
