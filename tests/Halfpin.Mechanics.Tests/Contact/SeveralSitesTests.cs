using CsCheck;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using MathNet.Numerics.LinearAlgebra;
using Xunit;

namespace Halfpin.Mechanics.Tests.Contact;

/// <summary>Several sites in one equilibrium.</summary>
public class SeveralSitesTests
{
    private const double K1 = 47, K2 = 83, C1 = 3100, C2 = 2700, Gap1 = 1.3, Gap2 = 0.4;

    // Of motions of some millimetres, with room for the condition of dense elimination.
    private const double Rounding = 1e-12;

    private static readonly Vec3 _up = Vec3.UnitZ;

    // Three blocks above each other, the lowest fixed, the upper two hung on springs of their own (u₁, u₂ downwards): pressing the
    // upper one by F closes first its own gap, then by it the lower one. Statics of springs in series and parallel, by hand.
    [Theory]
    [InlineData(40)]
    [InlineData(75)]
    [InlineData(900)]
    public void ThreeBlocks_upperOnePressed_closeFromAboveAndShareTheLoad(double loadN)
    {
        SiteEquilibrium sites = Blocks(loadN, 0);

        double first = K1 * Gap1;
        double u1 = loadN / K1, u2 = 0;
        if (loadN > first)
        {
            // K₁u₁ + C₁(u₁ − u₂ − g₁) = F, K₂u₂ = C₁(u₁ − u₂ − g₁); with both gaps closed K₂u₂ + C₂(u₂ − g₂) instead.
            (u1, u2) = Two(K1 + C1, -C1, loadN + (C1 * Gap1), -C1, K2 + C1, -C1 * Gap1);
            if (u2 > Gap2)
            {
                (u1, u2) = Two(K1 + C1, -C1, loadN + (C1 * Gap1), -C1, K2 + C1 + C2, (-C1 * Gap1) + (C2 * Gap2));
            }
        }

        Assert.Equal(u2 - u1, sites.Motion[2], 1e-11);
        Assert.Equal(-u2, sites.Motion[8], 1e-11);
        Assert.Equal(loadN > first, sites.NormalForcesN[0] > 0);
        Assert.Equal(C2 * Math.Max(0, u2 - Gap2), sites.NormalForcesN[1], 1e-8);
        Assert.Equal(sites.NormalForcesN[1], sites.WrenchOnUpperFace(1).ForceN.Z, 1e-8);
    }

    [Fact]
    public void ThreeBlocks_middleOnePressed_closeBelowAndOpenAbove()
    {
        // F on the middle block: K₂u + C₂(u − g₂) = F.
        SiteEquilibrium sites = Blocks(0, 310);
        double u = (310 + (C2 * Gap2)) / (K2 + C2);

        Assert.Equal(u, sites.Motion[2], 1e-11);
        Assert.Equal(-u, sites.Motion[8], 1e-11);
        Assert.Equal(0, sites.NormalForcesN[0]);
        Assert.Equal(310 - (K2 * u), sites.NormalForcesN[1], 1e-8);
    }

    [Fact]
    public void BarOfThreePieces_loadedAtItsSecondGap_closesThatOneFirst()
    {
        // A bar built in at both ends, cut twice; pieces of EA/L = 5200, 7900 and 3700 N/mm. The middle piece is held by a soft spring of
        // 12 N/mm. A load at its top of P moves it by P/12 until the lower gap is closed; from there the lower piece is in parallel.
        // Timoshenko, Strength of Materials I, on bars with gaps; here by hand.
        const double Soft = 12, Piece = 1 / ((1 / 7900.0) + (1 / 3700.0));
        SquareMatrix k = Frame(2);
        Between(k, 5200, Soft);
        SiteEquilibrium sites = Sites(2, new(default, _up, 2.9, 1e9, 0), new(default, _up, 0.7, Piece, 1));
        double[] t = new double[12];
        (t[2], t[8]) = (55 / Soft, -55 / Soft);
        sites.Solve(k, t, null, [], 0);

        double u = (55 + (Piece * 0.7)) / (Soft + Piece);
        Assert.Equal(-u, sites.Motion[8], 1e-11);
        Assert.Equal(0, sites.NormalForcesN[0]);
        Assert.Equal(55 - (Soft * u), sites.NormalForcesN[1], 1e-8);
    }

    [Fact]
    public void TwoSlides_drivenFromAbove_runUntilBothGapsAreClosed()
    {
        // Both upper blocks slide freely and only the uppermost is pushed: first it lands on the middle one, then both on the lowest.
        SiteEquilibrium sites = Sites(2, new(default, _up, Gap1, C1, 0), new(default, _up, Gap2, C2, 1));
        SlideFreedom upper = new([0, 0, -1, 0, 0, 0, 0, 0, 0, 0, 0, 0], 90), middle = new([0, 0, 1, 0, 0, 0, 0, 0, -1, 0, 0, 0], 0);
        SquareMatrix k = Frame(2);
        ContactStatus status = sites.Solve(k, new double[12], null, [upper, middle], 0);

        Assert.Equal(ContactStatus.Solved, status);
        Assert.Equal([90.0, 90.0], sites.NormalForcesN.ToArray(), (a, b) => Math.Abs(a - b) < 1e-6);
        Assert.Equal(-Gap1 - (90 / C1), sites.Motion[2], 1e-9);
        Assert.Equal(-Gap2 - (90 / C2), sites.Motion[8], 1e-9);

        // The slides make up for what the frame with its slides held would give way under the contact.
        Assert.Equal(Gap1 + Gap2 + (90 / C1) + (90 / C2) + (90 / k[2, 2]) + (90 / k[8, 8]), sites.SlideTravel[0], 1e-9);
    }

    [Fact]
    public void TwoSlides_withNothingBelow_areUnrestrained()
    {
        SiteEquilibrium sites = Sites(2, new ContactPoint(default, _up, Gap1, C1, 0));
        SlideFreedom upper = new([0, 0, -1, 0, 0, 0, 0, 0, 0, 0, 0, 0], 90), middle = new([0, 0, 1, 0, 0, 0, 0, 0, -1, 0, 0, 0], 0);

        Assert.Equal(ContactStatus.Unrestrained, sites.Solve(Frame(2), new double[12], null, [upper, middle], 0));
    }

    [Fact]
    public void Slide_neitherDrivenNorRestrained_staysAndLeavesTheRestAlone()
    {
        // A slide across the faces does nothing under a load along them.
        SquareMatrix k = Frame(1);
        SiteEquilibrium site = Sites(1, new ContactPoint(default, _up, 0.3, C1));
        ContactStatus status = site.Solve(k, [0, 0, -2, 0, 0, 0], null, [new([1, 0, 0, 0, 0, 0], 0)], 0);

        Assert.Equal(ContactStatus.Solved, status);
        Assert.Equal(0, site.SlideTravel[0]);
        Assert.Equal(-((k[2, 2] * 2) + (C1 * 0.3)) / (k[2, 2] + C1), site.Motion[2], 1e-12);
    }

    [Fact]
    public void Points_ofASiteThatIsNotThere_areRefused()
    {
        SiteEquilibrium site = new(1);

        Assert.Throws<ArgumentOutOfRangeException>(() => site.SetPoints([new(default, _up, 0, 1, 1)]));
    }

    [Fact]
    public void TwoSites_anyFrameAndPoints_endAtTheOnlyActiveSetInBalance() => _problems.Sample(
        p =>
        {
            SiteEquilibrium sites = Sites(2, p.Points);
            if (sites.Solve(p.K, p.Free, null, [], 0) != ContactStatus.Solved)
            {
                return false;
            }

            double[] brute = Enumerated(p);
            double most = 1 + brute.Max(Math.Abs);
            return Enumerable.Range(0, 12).All(c => Math.Abs(sites.Motion[c] - brute[c]) < 1e-9 * most);
        },
        iter: 200);

    [Fact]
    public void SecondSite_filledByALayer_leavesTheFirstTheFrameThatTheLayerJoins() => _problems.Sample(
        p =>
        {
            // A layer without contact at the second site is a member like any other: eliminate it and solve one site.
            ContactPoint[] first = [.. p.Points.Where(q => q.Site == 0)];
            SquareMatrix layer = new(12);
            Matrix<double> k = Matrix<double>.Build.Dense(12, 12, (r, c) => p.K[r, c]), l = Matrix<double>.Build.Dense(6, 6);
            for (int i = 0; i < 6; i++)
            {
                layer[6 + i, 6 + i] = l[i, i] = (i < 3 ? 3e3 : 2e6) + (100 * i);
            }

            Vector<double> right = k * Vector<double>.Build.Dense(p.Free);
            Matrix<double> across = k.SubMatrix(0, 6, 6, 6), inner = (k.SubMatrix(6, 6, 6, 6) + l).Inverse();
            Matrix<double> joined = k.SubMatrix(0, 6, 0, 6) - (across * inner * across.Transpose());
            Vector<double> free = joined.Solve(right.SubVector(0, 6) - (across * inner * right.SubVector(6, 6)));
            SquareMatrix one = new(6);
            for (int r = 0; r < 6; r++)
            {
                for (int c = 0; c < 6; c++)
                {
                    one[r, c] = (joined[r, c] + joined[c, r]) / 2;
                }
            }

            SiteEquilibrium both = Sites(2, first), single = Sites(1, first);
            both.Solve(p.K, p.Free, layer, [], 0);
            single.Solve(one, free.ToArray(), null, [], 0);
            double most = 1 + free.AbsoluteMaximum();
            return Enumerable.Range(0, 6).All(c => Math.Abs(both.Motion[c] - single.Motion[c]) < 1e-8 * most);
        },
        iter: 200);

    [Fact]
    public void SitesInAnotherOrder_giveTheSameAnswer() => _problems.Sample(
        p =>
        {
            SquareMatrix k = new(12);
            for (int r = 0; r < 12; r++)
            {
                for (int c = 0; c < 12; c++)
                {
                    k[r, c] = p.K[(r + 6) % 12, (c + 6) % 12];
                }
            }

            SiteEquilibrium a = Sites(2, p.Points), b = Sites(2, [.. p.Points.Select(q => q with { Site = 1 - q.Site })]);
            a.Solve(p.K, p.Free, null, [], 0.1);
            b.Solve(k, [.. p.Free.Skip(6), .. p.Free.Take(6)], null, [], 0.1);
            return Enumerable.Range(0, 12).All(c => Math.Abs(a.Motion[c] - b.Motion[(c + 6) % 12]) < 1e-6 * (1 + Math.Abs(a.Motion[c])));
        },
        iter: 100);

    [Fact]
    public void Solve_twoSitesWithSlides_allocatesNothing()
    {
        Problem p = _problems.Single();
        SiteEquilibrium sites = Sites(2, p.Points);
        SlideFreedom[] slides = [new([0, 0, -1, 0, 0, 0, 0, 0, 0, 0, 0, 0], 90), new([0, 0, 1, 0, 0, 0, 0, 0, -1, 0, 0, 0], 0)];
        Assert.Equal(ContactStatus.Solved, sites.Solve(p.K, p.Free, null, slides, 0));
        long before = GC.GetAllocatedBytesForCurrentThread();
        sites.Solve(p.K, p.Free, null, slides, 0);
        sites.WrenchOnUpperFace(1);

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    // Couplings up to 0.15 of the geometric mean beside twice it on the diagonal: positive definite by dominance.
    private static readonly Gen<Problem> _problems = Gen.Select(
        Gen.Double[50, 900].Array[6], Gen.Double[2e4, 9e5].Array[6], Gen.Double[-0.15, 0.15].Array[66], Gen.Double[-4, 1].Array[6], Gen.Double[-0.06, 0.06].Array[6],
        Gen.Select(Gen.Double[0, 50], Gen.Double[-180, 180], Gen.Double[0, 2]).Array[2]).Select((kt, kr, couple, t, r, rings) =>
        {
            double[] d = [.. Enumerable.Range(0, 12).Select(i => Math.Sqrt(i % 6 < 3 ? kt[(i / 6 * 3) + (i % 6)] : kr[(i / 6 * 3) + (i % 6) - 3]))];
            SquareMatrix k = new(12);
            int next = 0;
            for (int i = 0; i < 12; i++)
            {
                k[i, i] = 2 * d[i] * d[i];
                for (int j = 0; j < i; j++)
                {
                    k[i, j] = k[j, i] = couple[next++] * d[i] * d[j];
                }
            }

            return new Problem(k, [.. t.Take(3), .. r.Take(3), .. t.Skip(3), .. r.Skip(3)], [.. Ring(rings[0], 0), .. Ring(rings[1], 1)]);
        });

    private static IEnumerable<ContactPoint> Ring((double Tilt, double Azimuth, double Gap) ring, int site)
    {
        (double st, double ct) = Math.SinCos(ring.Tilt * Math.PI / 180);
        (double sa, double ca) = Math.SinCos(ring.Azimuth * Math.PI / 180);
        Vec3 normal = new(st * ca, st * sa, ct);
        return Enumerable.Range(0, 4).Select(i =>
        {
            (double s, double c) = Math.SinCos((i + 0.2) * Math.PI / 2);
            double x = (12 + Math.Cos(3.0 * i)) * c, y = 13 * s;
            return new ContactPoint(new(x, y, -((normal.X * x) + (normal.Y * y)) / normal.Z), normal, ring.Gap * ct, 2e4 + (100 * i), site);
        });
    }

    // Every set of touching points in turn, by dense elimination: the one whose touching points are pressed and whose others are open.
    // A point that only grazes, as with no gap and no load, is in balance either way but for rounding.
    private static double[] Enumerated(Problem p)
    {
        Matrix<double> k = Matrix<double>.Build.Dense(12, 12, (r, c) => p.K[r, c]);
        Vector<double> load = k * Vector<double>.Build.Dense(p.Free);
        Vector<double>[] b = [.. p.Points.Select(q =>
        {
            Vec3 m = q.OffsetMm.Cross(q.Normal);
            Vector<double> v = Vector<double>.Build.Dense(12);
            v.SetSubVector(6 * q.Site, 6, Vector<double>.Build.Dense([q.Normal.X, q.Normal.Y, q.Normal.Z, m.X, m.Y, m.Z]));
            return v;
        })];
        for (int set = 0; set < 1 << p.Points.Length; set++)
        {
            Matrix<double> h = k.Clone();
            Vector<double> right = load.Clone();
            for (int i = 0; i < b.Length; i++)
            {
                if ((set >> i & 1) != 0)
                {
                    h += p.Points[i].StiffnessNPerMm * b[i].OuterProduct(b[i]);
                    right -= p.Points[i].StiffnessNPerMm * p.Points[i].GapMm * b[i];
                }
            }

            Vector<double> d = h.Cholesky().Solve(right);
            if (Enumerable.Range(0, b.Length).All(i => (p.Points[i].GapMm + (b[i] * d)) * ((set >> i & 1) != 0 ? -1 : 1) > -Rounding))
            {
                return d.ToArray();
            }
        }

        throw new InvalidOperationException("No set of touching points is in balance.");
    }

    // A frame that resists each site's freedoms but z by springs of its own.
    private static SquareMatrix Frame(int sites)
    {
        SquareMatrix k = new(6 * sites);
        for (int i = 0; i < 6 * sites; i++)
        {
            k[i, i] = (i % 6 < 3 ? 400 : 9e4) + (10 * i);
        }

        return k;
    }

    // Energy ½K₁(d₁ + d₂)² + ½K₂d₂² along z: the upper block moves d₁ + d₂, the middle one d₂.
    private static void Between(SquareMatrix k, double k1, double k2)
    {
        k[2, 2] = k[2, 8] = k[8, 2] = k1;
        k[8, 8] = k1 + k2;
    }

    private static SiteEquilibrium Blocks(double onUpperN, double onMiddleN)
    {
        SquareMatrix k = Frame(2);
        Between(k, K1, K2);
        SiteEquilibrium sites = Sites(2, new(default, _up, Gap1, C1, 0), new(default, _up, Gap2, C2, 1));
        double[] t = new double[12];
        (t[2], t[8]) = ((onMiddleN / K2) - (onUpperN / K1), -onMiddleN / K2);
        Assert.Equal(ContactStatus.Solved, sites.Solve(k, t, null, [], 0));
        return sites;
    }

    private static (double X, double Y) Two(double a, double b, double p, double c, double d, double q)
    {
        double det = (a * d) - (b * c);
        return (((p * d) - (b * q)) / det, ((a * q) - (c * p)) / det);
    }

    private static SiteEquilibrium Sites(int count, params ContactPoint[] points)
    {
        SiteEquilibrium sites = new(points.Length, count);
        sites.SetPoints(points);
        return sites;
    }

    private sealed record Problem(SquareMatrix K, double[] Free, ContactPoint[] Points);
}
