using CsCheck;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using MathNet.Numerics.LinearAlgebra;
using Xunit;

namespace Halfpin.Mechanics.Tests.Contact;

public class SiteEquilibriumTests
{
    private static readonly Vec3 _up = Vec3.UnitZ;

    [Fact]
    public void OnePoint_onASpring_closesTheGapThenSharesTheLoad()
    {
        // Two springs: frame 47 N/mm, contact 3100 N/mm behind a gap of 2 mm. F = 47d + 3100(d − 2): d = (F + 6200)/3147 downwards.
        SquareMatrix k = Diagonal(400, 500, 47, 9e4, 8e4, 7e4);
        SiteEquilibrium site = Site(new ContactPoint(default, _up, 2, 3100));
        ContactStatus status = site.Solve(k, [0, 0, -150.0 / 47, 0, 0, 0], null, [], 0);

        Assert.Equal(ContactStatus.Solved, status);
        Assert.Equal(-(150 + 6200) / 3147.0, site.Motion[2], 1e-12);
        Assert.Equal(3100 * (((150 + 6200) / 3147.0) - 2), site.NormalForcesN[0], 1e-9);
        Assert.Equal(site.NormalForcesN[0], site.WrenchOnUpperFace().ForceN.Z, 1e-9);
    }

    [Fact]
    public void OnePoint_beforeItTouches_leavesTheFrameAlone()
    {
        SiteEquilibrium site = Site(new ContactPoint(default, _up, 2, 3100));
        site.Solve(Diagonal(400, 500, 47, 9e4, 8e4, 7e4), [0.1, 0.2, -1.9, 0.01, 0, 0], null, [], 0);

        Assert.Equal([0.1, 0.2, -1.9, 0.01, 0, 0], site.Motion.ToArray());
        Assert.Equal(0, site.NormalForcesN[0]);
    }

    [Fact]
    public void TwoPoints_underAnEccentricLoad_beginWithOneAndEndWithBoth()
    {
        // Signorini's problem of a rigid bar on two unilateral springs at x = ±11 beside its own springs (Signorini 1959; here by hand).
        // With both closed: (K + ΣkbbT)d = Kt − Σk·gap·b in z and ry.
        SquareMatrix k = Diagonal(400, 500, 47, 9e4, 8e4, 7e4);
        ContactPoint right = new(new(11, 0, 0), _up, 0.5, 3100), left = new(new(-11, 0, 0), _up, 0.5, 2700);
        double[] t = [0, 0, -900.0 / 47, 0, 0.05, 0];
        SiteEquilibrium site = Site(right, left);
        site.Solve(k, t, null, [], 0);

        // uz(x) = z − x·ry; unknowns z, ry.
        double a = 47 + 3100 + 2700, b = (-11 * 3100) + (11 * 2700), d = 8e4 + (121 * 5800.0);
        double p = (47 * t[2]) - (0.5 * 5800), q = (8e4 * 0.05) - (0.5 * ((-11 * 3100) + (11 * 2700)));
        double det = (a * d) - (b * b);
        Assert.Equal(((d * p) - (b * q)) / det, site.Motion[2], 1e-10);
        Assert.Equal(((a * q) - (b * p)) / det, site.Motion[4], 1e-12);
        Assert.True(site.NormalForcesN[0] > 0 && site.NormalForcesN[1] > 0);
    }

    [Fact]
    public void Layer_besideTheFrame_actsInParallel()
    {
        SquareMatrix k = Diagonal(400, 500, 47, 9e4, 8e4, 7e4), layer = Diagonal(30, 30, 231, 4e3, 5e3, 6e3);
        SiteEquilibrium site = Site();
        site.Solve(k, [0, 0, -2, 0, 0.01, 0], layer, [], 0);

        Assert.Equal(-2 * 47 / (47 + 231.0), site.Motion[2], 1e-12);
        Assert.Equal(0.01 * 8 / 8.5, site.Motion[4], 1e-12);
    }

    [Theory]
    [InlineData(0.7, true)]
    [InlineData(0.5, false)]
    public void BlockOnAPlaneOf30Degrees_sticksAboveTanAndSlidesBelow(double friction, bool sticks)
    {
        // A rigid block pressed vertically on an inclined plane by a soft frame: it stays when μ > tan 30° = 0.577 (Coulomb). In the
        // frame's own stiffness of 1 N/mm a sliding block runs far, a sticking one moves only by the contact's give.
        Vec3 normal = new(Math.Sin(Math.PI / 6), 0, Math.Cos(Math.PI / 6));
        SiteEquilibrium site = Site(new ContactPoint(default, normal, 0, 1e5));
        ContactStatus status = site.Solve(Diagonal(1, 1, 1, 1e9, 1e9, 1e9), [0, 0, -100, 0, 0, 0], null, [], friction);

        Assert.Equal(ContactStatus.Solved, status);
        double along = (site.Motion[0] * Math.Cos(Math.PI / 6)) - (site.Motion[2] * Math.Sin(Math.PI / 6));
        Assert.True(sticks ? Math.Abs(along) < 0.01 : Math.Abs(along) > 1);
    }

    [Fact]
    public void SlidingBlock_isHeldByExactlyTheFriction()
    {
        Vec3 normal = new(Math.Sin(Math.PI / 6), 0, Math.Cos(Math.PI / 6));
        SiteEquilibrium site = Site(new ContactPoint(default, normal, 0, 1e5));
        site.Solve(Diagonal(1, 1, 1, 1e9, 1e9, 1e9), [0, 0, -100, 0, 0, 0], null, [], 0.3);

        // The tangential part of the wrench on the upper face is μ times the normal one.
        Vec3 f = site.WrenchOnUpperFace().ForceN;
        double n = f.Dot(normal), t = (f - (n * normal)).Length;
        Assert.Equal(0.3 * n, t, 1e-6 * n);
    }

    [Fact]
    public void Slide_underLoad_runsToTheTouchAndThenTheContactCarriesAllOfIt()
    {
        // The frame gives way freely along z; a load of 90 N closes 3 mm and then rests on the point.
        SiteEquilibrium site = Site(new ContactPoint(default, _up, 3, 3100));
        ContactStatus status = site.Solve(Diagonal(400, 500, 47, 9e4, 8e4, 7e4), [0, 0, 0, 0, 0, 0], null, [new([0, 0, -1, 0, 0, 0], 90)], 0);

        Assert.Equal(ContactStatus.Solved, status);
        Assert.Equal(90, site.NormalForcesN[0], 1e-7);
        Assert.Equal(-3 - (90 / 3100.0), site.Motion[2], 1e-9);
    }

    [Fact]
    public void Slide_withNothingToTouch_isUnrestrained()
    {
        SiteEquilibrium site = Site(new ContactPoint(default, _up, 3, 3100));

        Assert.Equal(ContactStatus.Unrestrained, site.Solve(Diagonal(400, 500, 47, 9e4, 8e4, 7e4), [0, 0, 0, 0, 0, 0], null, [new([0, 0, 1, 0, 0, 0], 90)], 0));
    }

    [Fact]
    public void AnyRing_anyLoad_meetsTheConditionsOfUnilateralContact() => _problems.Sample(
        p =>
        {
            SiteEquilibrium site = Site(p.Points);
            if (site.Solve(p.K, p.Free, null, [], 0) != ContactStatus.Solved)
            {
                return false;
            }

            for (int i = 0; i < p.Points.Length; i++)
            {
                double opening = site.OpeningMm(i), force = site.NormalForcesN[i];
                if (force < 0 || (opening > 1e-12 && force > 0) || Math.Abs(force - (p.Points[i].StiffnessNPerMm * Math.Max(0, -opening))) > 1e-9 * (1 + force))
                {
                    return false;
                }
            }

            return true;
        },
        iter: 2000);

    [Fact]
    public void AnyRing_startedFromWherever_endsAtOneAnswer() => _problems.Sample(
        p =>
        {
            // Order of points and repeated solution do not matter: the answer is unique.
            SiteEquilibrium a = Site(p.Points), b = Site([.. p.Points.Reverse()]);
            a.Solve(p.K, p.Free, null, [], 0);
            b.Solve(p.K, p.Free, null, [], 0);
            return Enumerable.Range(0, 6).All(c => Math.Abs(a.Motion[c] - b.Motion[c]) < 1e-8 * (1 + Math.Abs(a.Motion[c])));
        },
        iter: 500);

    [Fact]
    public void AnyRing_againstSmallSteps_endsWhereTheyEnd() => _problems.Sample(
        p =>
        {
            SiteEquilibrium site = Site(p.Points);
            site.Solve(p.K, p.Free, null, [], 0);
            double[] slow = SmallSteps(p);
            double most = Enumerable.Range(0, 3).Max(c => Math.Abs(slow[c]));
            return Enumerable.Range(0, 3).All(c => Math.Abs(site.Motion[c] - slow[c]) < 1e-3 * (1 + most));
        },
        iter: 100);

    [Fact]
    public void Solve_afterWarmUp_allocatesNothing()
    {
        Problem p = _problems.Single();
        SiteEquilibrium site = Site(p.Points);
        site.Solve(p.K, p.Free, null, [], 0.2);
        long before = GC.GetAllocatedBytesForCurrentThread();
        site.Solve(p.K, p.Free, null, [], 0.2);

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    private static readonly Gen<Problem> _problems = Gen.Select(
        Gen.Double[50, 900].Array[3], Gen.Double[2e4, 9e5].Array[3], Gen.Double[-0.3, 0.3].Array[15], Gen.Double[-4, 1].Array[3], Gen.Double[-0.06, 0.06].Array[3],
        Gen.Select(Gen.Double[0, 60], Gen.Double[-180, 180], Gen.Double[0, 2], Gen.Int[12, 30])).Select((kt, kr, couple, t, r, ring) =>
        {
            // SPD by construction: S = D(I + c cᵀ-like coupling)D kept diagonally dominant.
            double[] d = [.. kt.Select(Math.Sqrt), .. kr.Select(Math.Sqrt)];
            SquareMatrix k = new(6);
            int next = 0;
            for (int i = 0; i < 6; i++)
            {
                k[i, i] = 2 * d[i] * d[i];
                for (int j = 0; j < i; j++)
                {
                    k[i, j] = k[j, i] = couple[next++] * d[i] * d[j];
                }
            }

            (double tilt, double azimuth, double gap, int n) = ring;
            (double st, double ct) = Math.SinCos(tilt * Math.PI / 180);
            (double sa, double ca) = Math.SinCos(azimuth * Math.PI / 180);
            Vec3 normal = new(st * ca, st * sa, ct);
            ContactPoint[] points = [.. Enumerable.Range(0, n).Select(i =>
            {
                (double s, double c) = Math.SinCos(2 * Math.PI * i / n);
                double x = (12 + Math.Cos(3.0 * i)) * c, y = 13 * s;
                return new ContactPoint(new(x, y, -((normal.X * x) + (normal.Y * y)) / normal.Z), normal, gap * ct, 2e4 + (100 * i));
            })];
            return new Problem(k, [.. t, .. r], points);
        });

    private static SiteEquilibrium Site(params ContactPoint[] points)
    {
        SiteEquilibrium site = new(points.Length);
        site.SetPoints(points);
        return site;
    }

    private static SquareMatrix Diagonal(params double[] values)
    {
        SquareMatrix m = new(values.Length);
        for (int i = 0; i < values.Length; i++)
        {
            m[i, i] = values[i];
        }

        return m;
    }

    // An independent way: the load in small steps, each solved by dense elimination with the points that touched at the end of the
    // step before: off by what a point does within a step.
    private static double[] SmallSteps(Problem p)
    {
        const int Steps = 4000;
        Matrix<double> k = Matrix<double>.Build.Dense(6, 6, (r, c) => p.K[r, c]);
        Vector<double> free = Vector<double>.Build.Dense(p.Free), d = Vector<double>.Build.Dense(6);
        for (int step = 1; step <= Steps; step++)
        {
            Vector<double> t = free * (step / (double)Steps);
            Matrix<double> h = k.Clone();
            Vector<double> right = k * t;
            foreach (ContactPoint q in p.Points)
            {
                Vec3 m = q.OffsetMm.Cross(q.Normal);
                Vector<double> b = Vector<double>.Build.Dense([q.Normal.X, q.Normal.Y, q.Normal.Z, m.X, m.Y, m.Z]);
                if (q.GapMm + (b * d) < 0)
                {
                    h += q.StiffnessNPerMm * b.OuterProduct(b);
                    right -= q.StiffnessNPerMm * q.GapMm * b;
                }
            }

            d = h.LU().Solve(right);
        }

        return d.ToArray();
    }

    private sealed record Problem(SquareMatrix K, double[] Free, ContactPoint[] Points);
}
