using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Xunit;

namespace Halfpin.Mechanics.Tests.Contact;

/// <summary>Slides with constant resistance and stops, against closed forms and the energy they must make least.</summary>
public class LimitedSlideTests
{
    private static readonly SlideLaw _free = new(0, double.NegativeInfinity, double.PositiveInfinity);

    // A spring k to ground through a slide of resistance F, drawn by t: what the spring carries is k·t up to F and F from there.
    [Theory]
    [InlineData(0.3, 30)]
    [InlineData(0.49, 49)]
    [InlineData(0.7, 50)]
    [InlineData(-0.7, -50)]
    public void Spring_behindASlide_carriesItsForceUpToTheResistance(double motionMm, double forceN)
    {
        (double p, double q, ContactStatus status) = Pull(new(50, double.NegativeInfinity, double.PositiveInfinity), motionMm);

        Assert.Equal(ContactStatus.Solved, status);
        Assert.Equal(forceN, q, 1e-6);
        Assert.Equal(motionMm - (forceN / 100), p, 1e-6);
    }

    // A stop at s takes up the motion from s on, resistance or not.
    [Theory]
    [InlineData(0, 0.25, 0.9, 65)]
    [InlineData(20, 0.25, 0.9, 65)]
    [InlineData(20, 0.25, 0.4, 20)]
    [InlineData(0, 0, -0.9, -90)]
    public void Spring_behindASlideWithAStop_carriesWhatIsBeyondIt(double resistanceN, double stopMm, double motionMm, double forceN)
    {
        (_, double q, _) = Pull(new(resistanceN, -stopMm, stopMm), motionMm);

        Assert.Equal(forceN, q, 1e-6);
    }

    [Fact]
    public void SlideOneWay_holdsTheOther()
    {
        SlideLaw law = new(0, 0, double.PositiveInfinity);

        Assert.Equal(0, Pull(law, 0.8).ForceN, 1e-9);
        Assert.Equal(-80, Pull(law, -0.8).ForceN, 1e-9);
    }

    // Two slides in one free motion: what drives them beyond the sum of their resistances runs away, or to the nearer stop.
    [Fact]
    public void SlidesInAMechanism_holdTheSumOfTheirResistances()
    {
        double[] motion = [0, 0, -1, 0, 0, 0];
        SquareMatrix stiffness = new(2);
        (stiffness[0, 0], stiffness[1, 1], stiffness[0, 1], stiffness[1, 0]) = (70, 70, -70, -70);
        ContactStatus Under(double each, SlideLaw second, out double[] travel)
        {
            LimitedSlides slides = new(new(0), 2);
            ContactStatus status = slides.Solve(
                Identity(900), new double[6], null, [], 0, [new([.. motion.Select(m => m / 2)], each), new([.. motion.Select(m => m / 2)], each)], stiffness, [new(11, double.NegativeInfinity, double.PositiveInfinity), second]);
            travel = slides.TravelMm.ToArray();
            return status;
        }

        Assert.Equal(ContactStatus.Solved, Under(14.9, new(19, -9, double.PositiveInfinity), out _));
        Assert.Equal(ContactStatus.Unrestrained, Under(15.1, new(19, -9, double.PositiveInfinity), out _));
        Assert.Equal(ContactStatus.Solved, Under(15.1, new(19, -9, 1.7), out double[] stopped));
        Assert.Equal(1.7, stopped[1], 1e-9);
    }

    // The equilibrium is where the energy, written down here once more, is least: nothing near or far that may be has less.
    [Fact]
    public void Equilibrium_ofRandomSites_hasTheLeastEnergy()
    {
        Random random = new(20417);
        int contacts = 0, stops = 0, slips = 0;
        for (int run = 0; run < 60; run++)
        {
            RandomSite site = new(random);
            LimitedSlides slides = new(site.Equilibrium, RandomSite.Slides);
            Assert.Equal(ContactStatus.Solved, slides.Solve(site.K, site.Free, null, [], 0, site.Limited, site.M, site.Laws));
            double[] d = site.Equilibrium.Motion.ToArray(), p = slides.TravelMm.ToArray();
            double least = site.Energy(d, p);
            contacts += site.Equilibrium.NormalForcesN.ContainsAnyExcept(0.0) ? 1 : 0;
            for (int i = 0; i < p.Length; i++)
            {
                stops += p[i] == site.Laws[i].MostMm || p[i] == site.Laws[i].LeastMm ? 1 : 0;
                slips += p[i] != 0 ? 1 : 0;
                Assert.InRange(p[i], site.Laws[i].LeastMm - 1e-8, site.Laws[i].MostMm + 1e-8);
            }

            for (int other = 0; other < 300; other++)
            {
                double size = Math.Pow(10, -5 * random.NextDouble());
                double[] x = [.. d.Select((v, i) => v + (size * (random.NextDouble() - 0.5) * (i < 3 ? 1 : 0.02)))];
                double[] y = [.. p.Select((v, i) => Math.Clamp(v + (size * (random.NextDouble() - 0.5)), site.Laws[i].LeastMm, site.Laws[i].MostMm))];
                Assert.True(site.Energy(x, y) >= least - (1e-9 * (1 + Math.Abs(least))));
            }
        }

        // The draw has met all there is.
        Assert.True(contacts > 5 && stops > 20 && slips > 60, $"{contacts} {stops} {slips}");
    }

    [Fact]
    public void Solution_afterTheFirst_allocatesNothing()
    {
        RandomSite site = new(new(77));
        LimitedSlides slides = new(site.Equilibrium, RandomSite.Slides);
        slides.Solve(site.K, site.Free, null, [], 0, site.Limited, site.M, site.Laws);
        long before = GC.GetAllocatedBytesForCurrentThread();
        slides.Solve(site.K, site.Free, null, [], 0, site.Limited, site.M, site.Laws);

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void SlidesWithoutLimits_areFreeOnes()
    {
        Random random = new(3);
        RandomSite site = new(random);
        LimitedSlides slides = new(site.Equilibrium, RandomSite.Slides);
        SlideLaw[] laws = [_free, _free, _free];
        Assert.Equal(ContactStatus.Solved, slides.Solve(site.K, site.Free, null, [], 0, site.Limited, site.M, laws));

        Assert.All(slides.ForceN.ToArray(), q => Assert.Equal(0, q, 1e-6));
    }

    // A site that t pulls along z and a slide that follows it, behind a spring of 100 N/mm that is all of M; K is far stiffer than it.
    private static (double TravelMm, double ForceN, ContactStatus Status) Pull(SlideLaw law, double motionMm)
    {
        SquareMatrix stiffness = new(1);
        stiffness[0, 0] = 100;
        LimitedSlides slides = new(new(0), 1);
        ContactStatus status = slides.Solve(Identity(1e5), new double[6], null, [], 0, [new(new double[6], 100 * motionMm)], stiffness, [law]);
        return (slides.TravelMm[0], slides.ForceN[0], status);
    }

    private static SquareMatrix Identity(double times)
    {
        SquareMatrix k = new(6);
        for (int i = 0; i < 6; i++)
        {
            k[i, i] = times;
        }

        return k;
    }

    // K and M of random directions, M held up a little so that nothing runs away; three contacts and three slides.
    private sealed class RandomSite
    {
        public const int Slides = 3;

        private readonly ContactPoint[] _points;

        public RandomSite(Random random)
        {
            K = Square(random, 6, 400);
            M = Square(random, Slides, 60);
            Free = [.. Enumerable.Range(0, 6).Select(i => (random.NextDouble() - 0.5) * (i < 3 ? 2 : 0.04))];
            Limited = [.. Enumerable.Range(0, Slides).Select(_ => new SlideFreedom(
                [.. Enumerable.Range(0, 6).Select(i => (random.NextDouble() - 0.5) * (i < 3 ? 1 : 0.01))], 160 * (random.NextDouble() - 0.5)))];
            Laws = [.. Enumerable.Range(0, Slides).Select(_ => new SlideLaw(
                random.Next(2) * 40 * random.NextDouble(), random.Next(3) == 0 ? 0 : -random.NextDouble(), random.Next(3) == 0 ? 0 : random.NextDouble()))];
            _points = [.. Enumerable.Range(0, 3).Select(i => new ContactPoint(new(13 * Math.Cos(2.1 * i), 13 * Math.Sin(2.1 * i), 0), Vec3.UnitZ, 0.3 * random.NextDouble(), 3000))];
            Equilibrium = new(3);
            Equilibrium.SetPoints(_points);
        }

        public SquareMatrix K { get; }

        public SquareMatrix M { get; }

        public double[] Free { get; }

        public SlideFreedom[] Limited { get; }

        public SlideLaw[] Laws { get; }

        public SiteEquilibrium Equilibrium { get; }

        // ½eᵀKe + ½pᵀMp − drive·p + Σ resistance·|p| + ½k⟨−opening⟩², e = d − t − Dp.
        public double Energy(double[] d, double[] p)
        {
            double sum = 0;
            double[] e = [.. d.Select((v, i) => v - Free[i] - Enumerable.Range(0, Slides).Sum(s => Limited[s].SiteMotion[i] * p[s]))];
            for (int i = 0; i < 36; i++)
            {
                sum += 0.5 * e[i / 6] * K[i / 6, i % 6] * e[i % 6];
            }

            for (int i = 0; i < Slides; i++)
            {
                sum += (Laws[i].ResistanceN * Math.Abs(p[i])) - (Limited[i].Drive * p[i]);
                for (int k = 0; k < Slides; k++)
                {
                    sum += 0.5 * p[i] * M[i, k] * p[k];
                }
            }

            Vec3 u = new(d[0], d[1], d[2]), r = new(d[3], d[4], d[5]);
            foreach (ContactPoint c in _points)
            {
                double opening = c.GapMm + (u + r.Cross(c.OffsetMm)).Z;
                sum += opening < 0 ? 0.5 * c.StiffnessNPerMm * opening * opening : 0;
            }

            return sum;
        }

        private static SquareMatrix Square(Random random, int n, double size)
        {
            SquareMatrix square = new(n);
            for (int v = 0; v < n + 2; v++)
            {
                double[] x = [.. Enumerable.Range(0, n).Select(i => (random.NextDouble() - 0.5) * (i < 3 ? 1 : 20))];
                for (int i = 0; i < n * n; i++)
                {
                    square[i / n, i % n] += size * x[i / n] * x[i % n];
                }
            }

            return square;
        }
    }
}
