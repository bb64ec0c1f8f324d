using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using MathNet.Numerics.LinearAlgebra;

namespace Halfpin.Mechanics.Tests.Frames;

/// <summary>
/// A second solver that shares no formula with the first: the textbook 12×12 beam matrix in principal axes, a full matrix, and a
/// general-purpose factorisation.
/// </summary>
/// <remarks>Przemieniecki, Theory of Matrix Structural Analysis, 1968, ch. 5 (12×12 with shear parameter Φ).</remarks>
public static class DenseTwin
{
    public static IEnumerable<Motion> Solve(TestFrame frame)
    {
        int n = 6 * frame.Nodes.Count;
        Matrix<double> k = Matrix<double>.Build.Dense(n, n);
        foreach (TestBeam b in frame.Beams)
        {
            Add(k, b.A, b.B, BeamMatrix(b, frame.Nodes[b.A], frame.Nodes[b.B]));
        }

        foreach (TestSpring s in frame.Springs)
        {
            Add(k, s.A, s.B, SpringMatrix(s, frame));
        }

        Vector<double> f = Vector<double>.Build.Dense(n);
        foreach (TestLoad l in frame.Loads)
        {
            double[] six = [l.Force.X, l.Force.Y, l.Force.Z, l.Moment.X, l.Moment.Y, l.Moment.Z];
            for (int i = 0; i < 6; i++)
            {
                f[(6 * l.Node) + i] += six[i];
            }
        }

        int[] free = [.. Enumerable.Range(0, n).Where(i => !frame.Supports.Any(s => s.Node == i / 6 && ((int)s.Held >> (i % 6) & 1) == 1))];
        Vector<double> u = Vector<double>.Build.Dense(n);
        Matrix<double> kf = Matrix<double>.Build.Dense(free.Length, free.Length, (i, j) => k[free[i], free[j]]);
        Vector<double> uf = kf.LU().Solve(Vector<double>.Build.Dense(free.Length, i => f[free[i]]));
        for (int i = 0; i < free.Length; i++)
        {
            u[free[i]] = uf[i];
        }

        return Enumerable.Range(0, frame.Nodes.Count).Select(i => new Motion(
            new(u[6 * i], u[(6 * i) + 1], u[(6 * i) + 2]), new(u[(6 * i) + 3], u[(6 * i) + 4], u[(6 * i) + 5])));
    }

    private static void Add(Matrix<double> k, int a, int b, Matrix<double> member)
    {
        int[] at = [.. Enumerable.Range(0, 12).Select(i => i < 6 ? (a < 0 ? -1 : (6 * a) + i) : b < 0 ? -1 : (6 * b) + i - 6)];
        for (int i = 0; i < 12; i++)
        {
            for (int j = 0; j < 12; j++)
            {
                if (at[i] >= 0 && at[j] >= 0)
                {
                    k[at[i], at[j]] += member[i, j];
                }
            }
        }
    }

    private static Matrix<double> BeamMatrix(TestBeam b, Vec3 from, Vec3 to)
    {
        // Turn local axes 2 and 3 to the section's principal axes y and z.
        Mat3 local = Beam.LocalAxes(from, to, b.Towards2);
        Section s = b.Section;
        double angle = 0.5 * Math.Atan2(2 * s.I23Mm4, s.I22Mm4 - s.I33Mm4);
        double mean = (s.I22Mm4 + s.I33Mm4) / 2, radius = Math.Sqrt(Math.Pow((s.I22Mm4 - s.I33Mm4) / 2, 2) + (s.I23Mm4 * s.I23Mm4));
        (double sin, double cos) = Math.SinCos(angle);
        Mat3 axes = new Mat3(1, 0, 0, 0, cos, sin, 0, -sin, cos) * local;
        double iz = mean + radius, iy = mean - radius; // ∫y² governs deflection along y, the larger one.

        double e = b.Moduli.YoungsModulusMPa, g = b.Moduli.ShearModulusMPa, l = (to - from).Length, area = s.AreaMm2;
        double gs = s.ShearCoefficient * g * area;
        double py = b.Theory == BeamTheory.Timoshenko ? 12 * e * iz / (gs * l * l) : 0;
        double pz = b.Theory == BeamTheory.Timoshenko ? 12 * e * iy / (gs * l * l) : 0;
        Matrix<double> k = Matrix<double>.Build.Dense(12, 12);
        void Set(int i, int j, double v)
        {
            k[i, j] = v;
            k[j, i] = v;
        }

        Set(0, 0, e * area / l);
        Set(6, 6, e * area / l);
        Set(0, 6, -e * area / l);
        Set(3, 3, g * s.TorsionMm4 / l);
        Set(9, 9, g * s.TorsionMm4 / l);
        Set(3, 9, -g * s.TorsionMm4 / l);
        double y = e * iz / (1 + py) / (l * l * l), z = e * iy / (1 + pz) / (l * l * l);
        Set(1, 1, 12 * y);
        Set(7, 7, 12 * y);
        Set(1, 7, -12 * y);
        Set(1, 5, 6 * l * y);
        Set(1, 11, 6 * l * y);
        Set(5, 7, -6 * l * y);
        Set(7, 11, -6 * l * y);
        Set(5, 5, (4 + py) * l * l * y);
        Set(11, 11, (4 + py) * l * l * y);
        Set(5, 11, (2 - py) * l * l * y);
        Set(2, 2, 12 * z);
        Set(8, 8, 12 * z);
        Set(2, 8, -12 * z);
        Set(2, 4, -6 * l * z);
        Set(2, 10, -6 * l * z);
        Set(4, 8, 6 * l * z);
        Set(8, 10, 6 * l * z);
        Set(4, 4, (4 + pz) * l * l * z);
        Set(10, 10, (4 + pz) * l * l * z);
        Set(4, 10, (2 - pz) * l * l * z);
        Matrix<double> t = Matrix<double>.Build.Dense(12, 12);
        double[,] r = Values(axes);
        for (int block = 0; block < 4; block++)
        {
            for (int i = 0; i < 3; i++)
            {
                for (int j = 0; j < 3; j++)
                {
                    t[(3 * block) + i, (3 * block) + j] = r[i, j];
                }
            }
        }

        return t.TransposeThisAndMultiply(k * t);
    }

    // Relative motion at the spring's point along its axes: B = [−R(A)  R(B)], with arms to both nodes.
    private static Matrix<double> SpringMatrix(TestSpring s, TestFrame frame)
    {
        Matrix<double> b = Matrix<double>.Build.Dense(6, 12);
        double[,] axes = Values(s.Axes);
        foreach ((int node, int column, double sign) in new[] { (s.A, 0, -1.0), (s.B, 6, 1.0) })
        {
            if (node >= 0)
            {
                double[,] arm = Values(Mat3.CrossBy(s.At - frame.Nodes[node]));
                for (int i = 0; i < 3; i++)
                {
                    for (int j = 0; j < 3; j++)
                    {
                        b[i, column + j] = sign * axes[i, j];
                        b[i + 3, column + 3 + j] = sign * axes[i, j];
                        for (int m = 0; m < 3; m++)
                        {
                            b[i, column + 3 + j] -= sign * axes[i, m] * arm[m, j];
                        }
                    }
                }
            }
        }

        Matrix<double> d = Matrix<double>.Build.DenseOfDiagonalArray([s.Translation.X, s.Translation.Y, s.Translation.Z, s.Rotation.X, s.Rotation.Y, s.Rotation.Z]);
        return b.TransposeThisAndMultiply(d * b);
    }

    private static double[,] Values(Mat3 m) => new[,] { { m.XX, m.XY, m.XZ }, { m.YX, m.YY, m.YZ }, { m.ZX, m.ZY, m.ZZ } };
}
