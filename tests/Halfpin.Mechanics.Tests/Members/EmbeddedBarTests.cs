using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Xunit;

namespace Halfpin.Mechanics.Tests.Members;

public class EmbeddedBarTests
{
    private static readonly ElasticModuli _steel = ElasticModuli.Isotropic(193_000, 0.3);
    private static readonly GroundSpan[] _spans = [new(5.3, 4700), new(12.9, 0), new(4.1, 4700)];
    private static readonly Vec3 _port = new(7.3, -2.9, 31.7);
    private static readonly Vec3 _inward = new Vec3(0.7, 0.4, -0.2).Normalised();

    // An independent model: many short beams with lumped springs to a rigid ground, whose error falls with the square of the
    // spacing; 200 lumps per cortex leave 2e-5.
    private const double LumpedError = 1e-4;

    [Fact]
    public void Pin_underPortForce_movesLikeBeamsOnLumpedSprings()
    {
        Wrench load = new(new(31, -17, 23), new(410, 170, -290));

        Motion exact = PortMotion(EmbeddedBar.Stiffness(_spans, BarRigidity.Solid(_steel, 4.3, 5), _port, _inward), load);
        Motion lumped = LumpedMotion(load, 200);

        Assert.Equal(0, (exact - lumped).TranslationMm.Length / lumped.TranslationMm.Length, LumpedError);
        Assert.Equal(0, (exact - lumped).RotationRad.Length / lumped.RotationRad.Length, LumpedError);
    }

    [Fact]
    public void LumpedSprings_refined_approachThePinWithTheSquareOfTheirSpacing()
    {
        Wrench load = new(new(31, -17, 23), new(410, 170, -290));
        Motion exact = PortMotion(EmbeddedBar.Stiffness(_spans, BarRigidity.Solid(_steel, 4.3, 5), _port, _inward), load);
        double[] gaps = [.. new[] { 8, 16, 32 }.Select(n => (LumpedMotion(load, n) - exact).TranslationMm.Length)];

        Assert.InRange(gaps[0] / gaps[1], 3.7, 4.3);
        Assert.InRange(gaps[1] / gaps[2], 3.7, 4.3);
    }

    [Fact]
    public void Pin_onHardeningFoundation_becomesFixedAtTheSurface()
    {
        Wrench load = new(new(31, -17, 23), new(410, 170, -290));
        double Size(double k) => PortMotion(EmbeddedBar.Stiffness([new(5.3, k), new(12.9, 0), new(4.1, k)], BarRigidity.Solid(_steel, 5, 5), _port, _inward), load).RotationRad.Length;

        // Semi-infinite behaviour: rotation falls as k^(−¼), so ten thousand times the foundation leaves a tenth.
        Assert.Equal(0.1, Size(1e13) / Size(1e9), 0.01);
    }

    [Fact]
    public void Pin_withoutFoundation_isNotHeld()
    {
        MemberStiffness s = EmbeddedBar.Stiffness([new(22.3, 0)], BarRigidity.Solid(_steel, 5, 5), _port, _inward);
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
        EmbeddedBar.Profile(_spans, BarRigidity.Solid(_steel, 4.3, 5).BendingNmm2, Stations, stations);
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

    private static Motion LumpedMotion(Wrench load, int perSpan)
    {
        List<Vec3> nodes = [_port];
        List<MemberEnds> ends = [];
        List<MemberStiffness> members = [];
        Section core = Section.Round(4.3, 0, 0.9);
        Vec3 normal = _inward.AnyNormal();
        Mat3 axes = Mat3.FromRows(_inward, normal, _inward.Cross(normal));
        foreach (GroundSpan span in _spans)
        {
            double h = span.LengthMm / perSpan;
            for (int i = 0; i < perSpan; i++)
            {
                nodes.Add(nodes[^1] + (h * _inward));
                int b = nodes.Count - 1;
                ends.Add(new(b - 1, b));
                members.Add(Beam.Stiffness(nodes[b - 1], nodes[b], _steel, core, BeamTheory.EulerBernoulli, normal));
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
