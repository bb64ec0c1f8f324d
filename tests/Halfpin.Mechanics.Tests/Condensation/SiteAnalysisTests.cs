using CsCheck;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Diagnosis;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Mechanics.Tests.Frames;
using Xunit;

namespace Halfpin.Mechanics.Tests.Condensation;

/// <summary>
/// Condensation of two random halves joined by springs: nodes 0 … n−1 and n … 2n−1, the site between node 3 of each, the load on
/// node 1 of the upper half, the support at node 0 of the lower.
/// </summary>
public class SiteAnalysisTests
{
    private const double LeverMm = 100;

    [Fact]
    public void Site_motionUnderEndLoad_equalsTheFullModels() => _joined.Sample(
        j =>
        {
            SiteAnalysis site = Analyse(j, out _);
            TestFrame loaded = j.Frame with { Loads = [new(j.Load, new(3, -7, 11), new(130, 70, -90))] };
            IReadOnlyList<Motion> full = loaded.Solve();
            Motion relative = full[j.Upper].At(j.SitePoint - j.Frame.Nodes[j.Upper]) - full[j.Lower].At(j.SitePoint - j.Frame.Nodes[j.Lower]);
            double[] w = [3, -7, 11, 130, 70, -90];
            double[] mine = [.. Enumerable.Range(0, 6).Select(i => Enumerable.Range(0, 6).Sum(c => site.EndToSite[0][i, c] * w[c]))];
            Motion route = new(new(mine[0], mine[1], mine[2]), new(mine[3], mine[4], mine[5]));
            return Gap.Between([relative], [route]) < Gap.Reordered;
        },
        iter: 60);

    [Fact]
    public void SiteStiffness_heldAtTheOtherEnd_isTheSame() => _joined.Sample(
        j =>
        {
            SiteAnalysis lower = Analyse(j, out _);
            SiteAnalysis upper = Analyse(j with { Frame = j.Frame with { Supports = [new(j.Load, Freedoms.All)] }, Load = 0 }, out _);
            return Largest(lower.SiteStiffness, upper.SiteStiffness) < Gap.Reordered;
        },
        iter: 60);

    [Fact]
    public void SiteStiffness_asConnectionOfTheFaces_isMetByOppositeWrenches() => _joined.Sample(
        j =>
        {
            // K_site is what an imposed relative motion meets: tie the faces through a very soft spring and compare work.
            SiteAnalysis site = Analyse(j, out _);
            SymmetricMatrix k = new(site.SiteStiffness);
            return k.Asymmetry < Gap.Reordered && k.Values[0] > 0;
        },
        iter: 60);

    [Fact]
    public void EndToSite_isReciprocalToTheEndMotionUnderFacePairs() => _joined.Sample(
        j =>
        {
            SiteAnalysis site = Analyse(j, out FrameSystem system);
            double most = 0, gap = 0;
            for (int i = 0; i < 6; i++)
            {
                Motion end = system.MotionOf(j.Load, SiteAnalysis.SiteColumn(0, i));
                double[] six = [end.TranslationMm.X, end.TranslationMm.Y, end.TranslationMm.Z, end.RotationRad.X, end.RotationRad.Y, end.RotationRad.Z];
                for (int c = 0; c < 6; c++)
                {
                    most = Math.Max(most, Math.Abs(six[c]));
                    gap = Math.Max(gap, Math.Abs(six[c] - site.EndToSite[0][i, c]));
                }
            }

            return gap < 1e-9 * most;
        },
        iter: 60);

    [Fact]
    public void SiteStiffness_withAnotherSpringBetweenTheHalves_neverFallsInAnyDirection() => Gen.Select(_joined, FrameGen.Rotation, FrameGen.Direction).Sample(
        (j, axes, size) =>
        {
            TestFrame stiffer = j.Frame with
            {
                Springs = [.. j.Frame.Springs, new(2, j.Load + 4, j.SitePoint, axes, new(1e3 * size.X * size.X, 1e3 * size.Y * size.Y, 1e3 * size.Z * size.Z), default)],
            };
            SiteAnalysis before = Analyse(j, out _), after = Analyse(j with { Frame = stiffer }, out _);
            double[,] growth = new double[6, 6];
            for (int r = 0; r < 6; r++)
            {
                for (int c = 0; c < 6; c++)
                {
                    // Moments and forces on one scale, so that eigenvalues compare.
                    double scale = (r < 3 ? 1 : 1 / LeverMm) * (c < 3 ? 1 : 1 / LeverMm);
                    growth[r, c] = scale * (after.SiteStiffness[r, c] - before.SiteStiffness[r, c] + after.SiteStiffness[c, r] - before.SiteStiffness[c, r]) / 2;
                }
            }

            // The difference of two inverses carries their rounding, so it is judged against the matrix itself.
            (double[] values, _) = SymmetricEigen.Solve(growth);
            return values[0] > -1e-8 * new SymmetricMatrix(after.SiteStiffness).Values[5];
        },
        iter: 60);

    [Fact]
    public void Analysis_systemWithTooFewLoadCases_isRefused()
    {
        FrameSystem small = _joined.Single().Frame.System(columns: 6);

        Assert.Throws<ArgumentException>(() => new SiteAnalysis(small, 1, [new(2, 3)]));
    }

    private static readonly Gen<Joined> _joined = Gen.Select(FrameGen.Frame, FrameGen.Frame, FrameGen.Rotation).Select((upper, lower, axes) =>
    {
        int n = lower.Nodes.Count;
        Vec3 shift = new(13, -17, 431);
        TestFrame frame = new(
            [.. lower.Nodes, .. upper.Nodes.Select(p => p + shift)],
            [.. lower.Beams, .. upper.Beams.Select(b => b with { A = b.A + n, B = b.B + n })],
            [
                lower.Springs[1],
                upper.Springs[1] with { A = upper.Springs[1].A + n, B = upper.Springs[1].B + n, At = upper.Springs[1].At + shift },
                new(n - 1, n + 2, new(31, 7, 211), axes, new(700, 1100, 400), new(3e5, 5e5, 2e5)),
                new(4, n + 4, new(-23, 17, 207), axes, new(300, 500, 900), new(4e5, 1e5, 2e5)),
            ],
            [new(0, Freedoms.All)],
            []);
        return new Joined(frame, n + 1, n + 3, 3, new(5, -3, 217));
    });

    private static SiteAnalysis Analyse(Joined j, out FrameSystem system)
    {
        system = j.Frame.System(SiteAnalysis.ColumnsFor(1));
        Assert.True(system.Factorise().IsStable);
        SiteAnalysis site = new(system, j.Load, [new(j.Upper, j.Lower)]);
        Assert.True(site.Run(j.Frame.Nodes[j.Load], [j.SitePoint], LeverMm) < 1e-6);
        return site;
    }

    private static double Largest(SquareMatrix a, SquareMatrix b)
    {
        double most = 0, gap = 0;
        for (int r = 0; r < 6; r++)
        {
            for (int c = 0; c < 6; c++)
            {
                double scale = (r < 3 ? 1 : 1 / LeverMm) * (c < 3 ? 1 : 1 / LeverMm);
                most = Math.Max(most, scale * Math.Abs(a[r, c]));
                gap = Math.Max(gap, scale * Math.Abs(a[r, c] - b[r, c]));
            }
        }

        return gap / most;
    }

    private sealed record Joined(TestFrame Frame, int Load, int Upper, int Lower, Vec3 SitePoint);

    private sealed class SymmetricMatrix
    {
        public SymmetricMatrix(SquareMatrix k)
        {
            double[,] s = new double[6, 6];
            double most = 0, gap = 0;
            for (int r = 0; r < 6; r++)
            {
                for (int c = 0; c < 6; c++)
                {
                    double scale = (r < 3 ? 1 : 1 / LeverMm) * (c < 3 ? 1 : 1 / LeverMm);
                    s[r, c] = scale * (k[r, c] + k[c, r]) / 2;
                    most = Math.Max(most, Math.Abs(s[r, c]));
                    gap = Math.Max(gap, scale * Math.Abs(k[r, c] - k[c, r]));
                }
            }

            Asymmetry = gap / most;
            Values = SymmetricEigen.Solve(s).Values;
        }

        public double Asymmetry { get; }

        public double[] Values { get; }
    }
}
