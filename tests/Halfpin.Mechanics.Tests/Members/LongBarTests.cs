using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Xunit;

namespace Halfpin.Mechanics.Tests.Members;

/// <summary>Bars that are stiff or slender against their ground, by λL.</summary>
public class LongBarTests
{
    private const double EI = 5.92e6, K = 4700;
    private const int Stations = 17;

    private static readonly BarRigidity _bar = new(EI, 3.8e6, 4.6e6, 5);

    // The general solution e^(±λx)(cos λx, sin λx) of EI w'''' + k w = 0 with its four end conditions (EI w''' = V, EI w'' = −M at the
    // port; both 0 at the free end), solved with 80 decimal digits by a general-purpose library. DERIVED; nothing of this program in it.
    // At a share of the length in sixteenths: w EIλ³/V, w EIλ²/M, EI w'' λ/V, EI w''/M.
    [Theory]
    [InlineData(0.05, 0, 20.00000119047614, -600.00013095237616, 0, -1)]
    [InlineData(0.05, 1, 18.125000786024296, -525.00007779017748, 2.7465820106532201e-3, -0.9887695290542907)]
    [InlineData(0.05, 3, 14.3750000758259, -375.00000007600947, 6.1889647042965413e-3, -0.90771482965372496)]
    [InlineData(0.05, 8, 4.9999994140625303, 5.2083330523778663e-5, 6.2499996473524483e-3, -0.49999996744791831)]
    [InlineData(0.05, 16, -9.9999991071429062, 599.99992261905213, 0, 0)]
    [InlineData(4, 0, 0.50038828871330209, -0.50076965270870168, 0, -1)]
    [InlineData(4, 1, 0.37749052417794709, -0.28119838249556115, 0.19263788028640638, -0.94719388528199519)]
    [InlineData(4, 3, 0.17260934830299735, -0.010987200700300761, 0.32176420054065301, -0.66733732152123592)]
    [InlineData(4, 8, -0.029503242512428478, 0.092907700468774544, 0.12429354312047821, -0.072047643002963531)]
    [InlineData(4, 16, 1.9008227366385973e-3, -0.027753289426547198, 0, 0)]
    [InlineData(15, 0, 0.50000000000026517, -0.50000000000015828, 0, -1)]
    [InlineData(15, 1, 0.11587709865113639, 0.041955850125337474, 0.31566589755238183, -0.54742009485466908)]
    [InlineData(15, 3, -0.028415946299815927, 0.038120315417352446, 0.019408738237023183, 0.037423154358633389)]
    [InlineData(15, 8, 9.5859279403947535e-5, 1.6353731856910637e-4, 5.1879276125192351e-4, -7.1051152016546656e-4)]
    [InlineData(15, 16, -4.3131485469903053e-7, 3.9784911859646505e-7, 0, 0)]
    [InlineData(40, 0, 0.5, -0.5, 0, -1)]
    [InlineData(40, 1, -0.03288093628985768, 0.057443728852465195, 0.04912558512521503, 0.016636287454500329)]
    [InlineData(40, 3, 9.5859288217889678e-5, 1.6353727495867981e-4, 5.1879312635313897e-4, -7.1051170278891833e-4)]
    [InlineData(40, 8, 4.2055990997943418e-10, 5.203002953332294e-10, 1.8817204106253271e-9, -2.7228402305841955e-9)]
    [InlineData(40, 16, -5.9988938182325168e-18, 6.3310093319924121e-18, 0, 0)]
    [InlineData(80, 0, 0.5, -0.5, 0, -1)]
    [InlineData(80, 1, 9.5565038564798531e-4, -4.1862408550563363e-3, -6.4611809388167021e-3, 4.5498801675207314e-3)]
    [InlineData(80, 3, -1.1619514770035112e-7, 2.1565742734944233e-7, 1.9892455929818242e-7, 3.3465736102519824e-8)]
    [InlineData(80, 8, -1.4166945761181554e-18, 2.9994469091162584e-18, 3.1655046659962061e-18, -3.3211551375989532e-19)]
    [InlineData(80, 16, 1.59458874615408e-35, -3.5876426327948305e-35, 0, 0)]
    public void Profile_anyLambdaL_equalsTheGeneralSolution(double lambdaL, int sixteenth, double wv, double wm, double mv, double mm)
    {
        double lambda = FoundationSpan.Lambda(EI, K);
        BarStation[] profile = new BarStation[Stations];
        EmbeddedBar.Profile([new(lambdaL / lambda, K, _bar)], Stations, profile);
        BarStation s = profile[sixteenth];

        // Rounding: of each value, and of the value at the port where a wave has died away.
        const double Relative = 1e-12;
        double absolute = 3e-15 * Math.Max(1, Math.Pow(lambdaL, -2));
        Assert.Equal(wv, s.DeflectionPerForceMm * EI * Math.Pow(lambda, 3), (Relative * Math.Abs(wv)) + absolute);
        Assert.Equal(wm, s.DeflectionPerMomentMm * EI * lambda * lambda, (Relative * Math.Abs(wm)) + absolute);
        Assert.Equal(mv, s.MomentPerForceNmm * lambda, (Relative * Math.Abs(mv)) + absolute);
        Assert.Equal(mm, s.MomentPerMoment, (Relative * Math.Abs(mm)) + absolute);
    }

    // Slender in both cortices: λL = 23 and 19.
    [Fact]
    public void Profile_ofSlenderSpans_balancesThePortForce()
    {
        GroundSpan[] spans = [new(191.7, 4700, _bar), new(12.9, 0, _bar), new(158.3, 4700, _bar)];
        BarStation[] p = new BarStation[3 * 2001];
        EmbeddedBar.Profile(spans, 2001, p);
        double sum = 0;
        foreach (int first in (int[])[0, 4002])
        {
            double h = spans[first / 2001].LengthMm / 2000;
            for (int i = 0; i < 2001; i++)
            {
                sum += (i is 0 or 2000 ? 1 : i % 2 == 1 ? 4 : 2) * h / 3 * 4700 * p[first + i].DeflectionPerForceMm;
            }
        }

        Assert.Equal(1, sum, 1e-9);
    }

    // The two forms of the solution, for short and for long spans, meet at λL = 2.
    [Theory]
    [InlineData(1.999999999)]
    [InlineData(2.000000001)]
    [InlineData(0.01)]
    [InlineData(21.3)]
    public void Profile_ofEitherForm_isContinuousIntoTheNextSpan(double lambdaL)
    {
        GroundSpan[] spans = [new(lambdaL / FoundationSpan.Lambda(EI, K), K, _bar), new(12.9, 0, _bar), new(4.1, K, _bar)];
        BarStation[] p = new BarStation[3 * Stations];
        EmbeddedBar.Profile(spans, Stations, p);

        Assert.Equal(1, p[Stations - 1].DeflectionPerForceMm / p[Stations].DeflectionPerForceMm, 1e-11);
        Assert.Equal(1, p[Stations - 1].MomentPerMoment / p[Stations].MomentPerMoment, 1e-11);
    }

    // Solid bone of 20–60 mm on soft to rigid ground, levers of 0.1–100 mm, force and moment in any planes: against the worst of 4001 places.
    [Fact]
    public void Peaks_atAnyLeverAndLength_areThoseOfADenseScan()
    {
        BarStation[] dense = new BarStation[4001];
        EmbeddedBarPeaks peaks = new();
        SpanPeak[] peak = new SpanPeak[1];
        Vec3 inward = new Vec3(0.7, 0.4, -0.2).Normalised(), force = inward.AnyNormal();
        foreach (double length in (double[])[20, 27.4, 41, 60])
        {
            foreach (double k in (double[])[500, 4.7e3, 3.1e4, 1e6])
            {
                GroundSpan[] spans = [new(length, k, _bar)];
                peaks.Set(spans);
                EmbeddedBar.Profile(spans, dense.Length, dense);
                foreach (double lever in Enumerable.Range(0, 31).Select(i => 0.1 * Math.Pow(10, i / 10.0)))
                {
                    foreach (double turn in (double[])[0, 0.9, 1.6, 2.6, 3.1416])
                    {
                        Vec3 cross = lever * ((Math.Cos(turn) * force) + (Math.Sin(turn) * inward.Cross(force)));
                        peaks.Find(force, inward.Cross(cross), inward, peak);

                        Assert.InRange(peak[0].MomentNmm / dense.Max(s => ((s.MomentPerForceNmm * force) + (s.MomentPerMoment * cross)).Length), 0.999, 1.0001);
                        Assert.InRange(peak[0].DeflectionMm / dense.Max(s => ((s.DeflectionPerForceMm * force) + (s.DeflectionPerMomentMm * cross)).Length), 0.999, 1.0001);
                    }
                }
            }
        }
    }

    // Peaks in every span of a bar across a canal, and in one that is free.
    [Fact]
    public void Peaks_ofABarInSpans_areThoseOfADenseScan()
    {
        GroundSpan[] spans = [new(5.3, K, _bar), new(12.9, 0, _bar), new(53.1, 9 * K, _bar)];
        BarStation[] dense = new BarStation[3 * 20_001];
        EmbeddedBarPeaks found = new();
        SpanPeak[] peaks = new SpanPeak[3];
        EmbeddedBar.Profile(spans, 20_001, dense);
        found.Set(spans);
        found.Find(new(31, 0, 0), new(0, 170, 0), Vec3.UnitZ, peaks);

        for (int i = 0; i < 3; i++)
        {
            Assert.InRange(peaks[i].MomentNmm / dense.Where(s => s.Span == i).Max(s => Math.Abs((31 * s.MomentPerForceNmm) + (170 * s.MomentPerMoment))), 0.999, 1.0001);
            Assert.InRange(peaks[i].DeflectionMm / dense.Where(s => s.Span == i).Max(s => Math.Abs((31 * s.DeflectionPerForceMm) + (170 * s.DeflectionPerMomentMm))), 0.999, 1.0001);
        }
    }

    // A workspace that has had other bars finds the same as a new one.
    [Fact]
    public void Peaks_ofABarSetAfterOthers_areThoseOfANewWorkspace()
    {
        GroundSpan[] bar = [new(5.3, K, _bar), new(12.9, 0, _bar), new(6.1, K, _bar)];
        EmbeddedBarPeaks used = new(), fresh = new();
        SpanPeak[] after = new SpanPeak[3], at = new SpanPeak[3];
        used.Set([new(71.7, 40 * K, _bar)]);
        used.Set([new(5.3, K, _bar), new(12.9, 0, _bar)]);
        used.Set(bar);
        fresh.Set(bar);
        used.Find(new(31, 7, 2), new(0, 170, -12), Vec3.UnitZ, after);
        fresh.Find(new(31, 7, 2), new(0, 170, -12), Vec3.UnitZ, at);

        Assert.Equal(at, after);
    }
}
