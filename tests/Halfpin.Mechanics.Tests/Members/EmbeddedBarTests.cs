using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Xunit;

namespace Halfpin.Mechanics.Tests.Members;

public class EmbeddedBarTests
{
    private static readonly ElasticModuli _steel = ElasticModuli.Isotropic(193_000, 0.3);
    private static readonly BarRigidity _core = BarRigidity.Solid(_steel, 4.3, 5), _shank = BarRigidity.Solid(_steel, 5, 5);
    private static readonly GroundSpan[] _spans = [new(5.3, 4700, _core), new(12.9, 0, _core), new(4.1, 4700, _core)];
    private static readonly GroundSpan[] _stepped = [new(2.2, 4700, _shank), new(3.1, 4700, _core), new(12.9, 0, _core), new(4.1, 4700, _core)];
    private static readonly Vec3 _port = new(7.3, -2.9, 31.7);
    private static readonly Vec3 _inward = new Vec3(0.7, 0.4, -0.2).Normalised();

    // An independent model: many short beams with lumped springs to a rigid ground, whose error falls with the square of the
    // spacing; 200 lumps per cortex leave 2e-5.
    private const double LumpedError = 1e-4;

    [Fact]
    public void Pin_underPortForce_movesLikeBeamsOnLumpedSprings()
    {
        Wrench load = new(new(31, -17, 23), new(410, 170, -290));

        Motion exact = PortMotion(EmbeddedBar.Stiffness(_spans, _port, _inward), load);
        Motion lumped = LumpedMotion(load, 200, _spans);

        Assert.Equal(0, (exact - lumped).TranslationMm.Length / lumped.TranslationMm.Length, LumpedError);
        Assert.Equal(0, (exact - lumped).RotationRad.Length / lumped.RotationRad.Length, LumpedError);
    }

    [Fact]
    public void SteppedPin_underPortForce_movesLikeBeamsOnLumpedSprings()
    {
        Wrench load = new(new(31, -17, 23), new(410, 170, -290));

        Motion exact = PortMotion(EmbeddedBar.Stiffness(_stepped, _port, _inward), load);
        Motion lumped = LumpedMotion(load, 200, _stepped);

        Assert.Equal(0, (exact - lumped).TranslationMm.Length / lumped.TranslationMm.Length, LumpedError);
        Assert.Equal(0, (exact - lumped).RotationRad.Length / lumped.RotationRad.Length, LumpedError);
    }

    // A cut through a span changes nothing, however near to its end it falls.
    [Theory]
    [InlineData(2.7)]
    [InlineData(1e-2)]
    [InlineData(1e-5)]
    [InlineData(1e-14)]
    public void Spans_cutInTwo_giveTheSameStiffness(double firstMm)
    {
        foreach (int cut in (int[])[0, 1, 2])
        {
            GroundSpan whole = _spans[cut];
            GroundSpan[] parts = [.. _spans[..cut], whole with { LengthMm = firstMm }, whole with { LengthMm = whole.LengthMm - firstMm }, .. _spans[(cut + 1)..]];
            MemberStiffness one = EmbeddedBar.Stiffness(_spans, _port, _inward), two = EmbeddedBar.Stiffness(parts, _port, _inward);

            Assert.Equal(1, two.ForcePerTranslation.XX / one.ForcePerTranslation.XX, 1e-11);
            Assert.Equal(1, two.ForcePerRotation.XY / one.ForcePerRotation.XY, 1e-11);
            Assert.Equal(1, two.MomentPerRotation.YY / one.MomentPerRotation.YY, 1e-11);
        }
    }

    [Theory]
    [InlineData(2.7)]
    [InlineData(1e-5)]
    [InlineData(1e-14)]
    public void Profile_ofSpansCutInTwo_isTheSameBeyondTheCut(double firstMm)
    {
        GroundSpan[] parts = [_spans[0] with { LengthMm = firstMm }, _spans[0] with { LengthMm = 5.3 - firstMm }, .. _spans[1..]];
        BarStation[] two = new BarStation[4 * Stations];
        EmbeddedBar.Profile(parts, Stations, two);

        Assert.Equal(1, two[^1].DeflectionPerForceMm / Profile()[^1].DeflectionPerForceMm, 1e-10);
        Assert.Equal(1, two[2 * Stations].MomentPerForceNmm / Profile()[Stations].MomentPerForceNmm, 1e-10);
    }

    [Fact]
    public void LumpedSprings_refined_approachThePinWithTheSquareOfTheirSpacing()
    {
        Wrench load = new(new(31, -17, 23), new(410, 170, -290));
        Motion exact = PortMotion(EmbeddedBar.Stiffness(_spans, _port, _inward), load);
        double[] gaps = [.. new[] { 8, 16, 32 }.Select(n => (LumpedMotion(load, n, _spans) - exact).TranslationMm.Length)];

        Assert.InRange(gaps[0] / gaps[1], 3.7, 4.3);
        Assert.InRange(gaps[1] / gaps[2], 3.7, 4.3);
    }

    [Fact]
    public void Pin_onHardeningFoundation_becomesFixedAtTheSurface()
    {
        Wrench load = new(new(31, -17, 23), new(410, 170, -290));
        double Size(double k) => PortMotion(EmbeddedBar.Stiffness([new(5.3, k, _shank), new(12.9, 0, _shank), new(4.1, k, _shank)], _port, _inward), load).RotationRad.Length;

        // Semi-infinite behaviour: rotation falls as k^(−¼), so ten thousand times the foundation leaves a tenth.
        Assert.Equal(0.1, Size(1e13) / Size(1e9), 0.01);
    }

    [Fact]
    public void Pin_withoutFoundation_isNotHeld()
    {
        MemberStiffness s = EmbeddedBar.Stiffness([new(22.3, 0, _shank)], _port, _inward);
        FrameSystem system = new(new(1, [new(FrameTopology.Ground, 0)], []), 1);
        system.SetNode(0, _port);
        system.SetMember(0, s);

        Assert.False(system.Factorise().IsStable);
    }

    [Fact]
    public void Profile_atThePort_givesBackThePortLoads()
    {
        BarStation first = Profile()[0];

        Assert.Equal(0, first.MomentPerForceNmm, 1e-9);
        Assert.Equal(-1, first.MomentPerMoment, 1e-9);
    }

    [Fact]
    public void Profile_atTheTip_isFreeOfMoment()
    {
        BarStation last = Profile()[^1];

        Assert.Equal(0, last.MomentPerForceNmm, 1e-7);
        Assert.Equal(0, last.MomentPerMoment, 1e-8);
    }

    [Fact]
    public void Profile_whereSpansMeet_isContinuous()
    {
        BarStation[] p = Profile();
        for (int i = 1; i < _spans.Length; i++)
        {
            BarStation end = p[(i * Stations) - 1], start = p[i * Stations];
            Assert.Equal(end.DeflectionPerForceMm, start.DeflectionPerForceMm, 1e-12);
            Assert.Equal(end.MomentPerMoment, start.MomentPerMoment, 1e-9);
        }
    }

    [Fact]
    public void Profile_foundationPressure_balancesThePortForce()
    {
        // ∫k·w over both cortices equals the unit force, by Simpson's rule on the stations.
        BarStation[] p = Profile();
        double sum = 0;
        for (int s = 0; s < _spans.Length; s++)
        {
            double h = _spans[s].LengthMm / (Stations - 1);
            for (int i = 0; i < Stations; i++)
            {
                double weight = i == 0 || i == Stations - 1 ? 1 : i % 2 == 1 ? 4 : 2;
                sum += weight * h / 3 * _spans[s].FoundationNPerMm2 * p[(s * Stations) + i].DeflectionPerForceMm;
            }
        }

        Assert.Equal(1, sum, 1e-6);
    }

    private const int Stations = 41;

    private static BarStation[] Profile()
    {
        BarStation[] stations = new BarStation[_spans.Length * Stations];
        EmbeddedBar.Profile(_spans, Stations, stations);
        return stations;
    }

    private static Motion PortMotion(MemberStiffness stiffness, Wrench load)
    {
        FrameSystem system = new(new(1, [new(FrameTopology.Ground, 0)], []), 1);
        system.SetNode(0, _port);
        system.SetMember(0, stiffness);
        Assert.True(system.Factorise().IsStable);
        system.AddLoad(0, 0, _port, load);
        system.Solve();
        return system.MotionOf(0, 0);
    }

    private static Motion LumpedMotion(Wrench load, int perSpan, GroundSpan[] spans)
    {
        List<Vec3> nodes = [_port];
        List<MemberEnds> ends = [];
        List<MemberStiffness> members = [];
        Vec3 normal = _inward.AnyNormal();
        Mat3 axes = Mat3.FromRows(_inward, normal, _inward.Cross(normal));
        foreach (GroundSpan span in spans)
        {
            Section section = Section.Round(span.Bar == _core ? 4.3 : 5, 0, 0.9);
            double h = span.LengthMm / perSpan;
            for (int i = 0; i < perSpan; i++)
            {
                nodes.Add(nodes[^1] + (h * _inward));
                int b = nodes.Count - 1;
                ends.Add(new(b - 1, b));
                members.Add(Beam.Stiffness(nodes[b - 1], nodes[b], _steel, section, BeamTheory.EulerBernoulli, normal));
                foreach (int node in (ReadOnlySpan<int>)[b - 1, b])
                {
                    double k = span.FoundationNPerMm2 * h / 2;
                    ends.Add(new(FrameTopology.Ground, node));
                    members.Add(Spring.Stiffness(nodes[node], axes, new(k, k, k), new(k * 25 / 4, 0, 0)));
                }
            }
        }

        FrameSystem system = new(new(nodes.Count, ends, []), 1);
        for (int n = 0; n < nodes.Count; n++)
        {
            system.SetNode(n, nodes[n]);
        }

        for (int m = 0; m < members.Count; m++)
        {
            system.SetMember(m, members[m]);
        }

        Assert.True(system.Factorise().IsStable);
        system.AddLoad(0, 0, _port, load);
        system.Solve();
        return system.MotionOf(0, 0);
    }
}
