using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Path;
using Halfpin.TestKit.Paths;
using Xunit;

namespace Halfpin.Mechanics.Tests.Path;

/// <summary>
/// Beams and a portal with plastic hinges, against collapse loads of plastic theory (Neal, The Plastic Methods of Structural Analysis,
/// 3rd ed. 1977, ch. 2–3: MEMORY for the source, each load derived here by virtual work), and cantilevers that close gaps, against
/// beam theory.
/// </summary>
public class BeamPathTests
{
    private const double E = 193e3, DiameterMm = 5, PlasticNmm = 9300;
    private static readonly double _i = Math.PI / 64 * Math.Pow(DiameterMm, 4);

    [Fact]
    public void FixedBeam_underALoadOffItsMiddle_formsItsHingesOneByOneUpToTheCollapseLoad()
    {
        // Load at a from the left, b from the right. Elastic end moment Fab²/L² (left), so the first hinge at ML²/(ab²). Mechanism:
        // M(δ/a + δ/a + δ/b + δ/b) = Fδ, F = 2ML/(ab).
        const double A = 31, B = 67, L = A + B;
        LoadPath path = PathRun.Follow(FixedBeam(A, B), 1e4);

        Assert.Equal(PathStatus.GivesWay, path.Status);
        Assert.Equal("Slip0 Slip1 Slip2", PathRun.Story(path));
        Assert.Equal(PlasticNmm * L * L / (A * B * B), path.Events[0].LoadFactor, 1e-7);
        Assert.Equal(2 * PlasticNmm * L / (A * B), path.ReachedLoadFactor, 1e-7);
        Assert.Equal([0, 1, 2], path.GivingComponents.ToArray());

        // Hinge rotations of the mechanism: δ/a at the left end, −(δ/a + δ/b) under the load, δ/b at the right.
        Assert.Equal(-(A / B) - 1, path.Mechanism[1] / path.Mechanism[0], 1e-7);
        Assert.Equal(A / B, Math.Abs(path.Mechanism[2] / path.Mechanism[0]), 1e-7);
    }

    [Fact]
    public void FixedBeam_underALoadAtItsMiddle_formsAllHingesAtOnce()
    {
        // All three moments are FL/8: elastic up to the collapse load 8M/L.
        LoadPath path = PathRun.Follow(FixedBeam(49, 49), 1e4);

        Assert.Equal(PathStatus.GivesWay, path.Status);
        Assert.Equal(8 * PlasticNmm / 98, path.ReachedLoadFactor, 1e-7);
        Assert.Equal(path.ReachedLoadFactor * Math.Pow(98, 3) / (192 * E * _i), -path[path.TopPoint].EndMotion.TranslationMm.Z, 1e-9);
        Assert.Equal([0, 1, 2], path.GivingComponents.ToArray());
    }

    [Fact]
    public void Portal_underSwayAndBeamLoad_fallsInTheCombinedMechanism()
    {
        // Fixed bases, height h, span 2h, load F sideways and F down at the middle of the beam. Beam: Fh = 4M; sway: Fh = 4M; combined
        // (hinges at both bases, the far corner and the middle): 2Fh = 6M, the least: F = 3M/h.
        const double H = 83;
        StepModel model = Portal(H, PlasticNmm);
        LoadPath path = PathRun.Follow(model, 1e4);

        Assert.Equal(PathStatus.GivesWay, path.Status);
        Assert.Equal(3 * PlasticNmm / H, path.ReachedLoadFactor, 1e-6);
        Assert.Equal([0, 1, 3, 4], path.GivingComponents.ToArray());
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Portal_withOneStrongerHinge_neverGivesWayEarlier(int stronger)
    {
        // Metamorphic: the load at which a frame gives way never falls when a capacity is raised (bound theorems of plastic theory).
        StepModel model = Portal(83, PlasticNmm);
        YieldingComponent[] raised = [.. model.Components];
        raised[stronger] = raised[stronger] with { Capacity = 1.7 * PlasticNmm };
        LoadPath before = PathRun.Follow(model, 1e4), after = PathRun.Follow(model with { Components = raised }, 1e4);

        Assert.True(after.ReachedLoadFactor >= before.ReachedLoadFactor * (1 - 1e-9));
    }

    [Fact]
    public void Cantilever_closingAGapAtItsTip_isProppedFromThenOn()
    {
        // Tip deflection FL³/3EI = gap closes; then 3EI/L³·d + κ(d − gap) = F.
        const double L = 97, Gap = 1.3, Kappa = 2900;
        LoadPath path = PathRun.Follow(Cantilever(L, L, Gap, Kappa), 40, andBack: true);

        double k = 3 * E * _i / (L * L * L);
        Assert.Equal("Close0 Open0", PathRun.Story(path));
        Assert.Equal(k * Gap, path.Events[0].LoadFactor, 1e-9);
        Assert.Equal(-(40 + (Kappa * Gap)) / (k + Kappa), path[path.TopPoint].SiteMotion.TranslationMm.Z, 1e-9);
        Assert.Equal(k * Gap, path.Events[1].LoadFactor, 1e-9);
        Assert.Equal(0, path.PermanentSet!.Value.TranslationMm.Length, 1e-12);
    }

    [Fact]
    public void Cantilever_closingAGapOnItsWay_isProppedThere()
    {
        // Load F at L, support at a: closes at Fa²(3L − a)/6EI = gap; then Fa²(3L − a)/6EI − Ra³/3EI = gap + R/κ.
        const double L = 97, A = 61, Gap = 0.7, Kappa = 2900;
        LoadPath path = PathRun.Follow(Cantilever(A, L, Gap, Kappa), 40);

        double perForce = A * A * ((3 * L) - A) / (6 * E * _i), perReaction = (A * A * A / (3 * E * _i)) + (1 / Kappa);
        Assert.Equal(Gap / perForce, path.Events[0].LoadFactor, 1e-9);
        Assert.Equal(((40 * perForce) - Gap) / perReaction, path[path.TopPoint].ContactForcesN[0], 1e-7);
    }

    [Fact]
    public void Wrench_onABeamInThePath_isItsMomentAtTheHinge()
    {
        LoadPath path = PathRun.Follow(FixedBeam(31, 67), 300);
        int last = path.PointCount - 1;
        double atLoad = path.PositionOf(211.7)!.Value;

        // About the clamped end the first beam's moment is the hinge's force: at the end of the path, and between two points.
        StepModel model = FixedBeam(31, 67);
        double Moment(double position) => path.WrenchOn(0, position).About(model.Nodes[0] - model.Members[0].AtMm).MomentNmm.Y;
        Assert.Equal(path[last].ComponentForces[0], Moment(last), 1e-6);
        Assert.Equal(211.7, -path.WrenchOn(0, atLoad).ForceN.Z + path.WrenchOn(1, atLoad).ForceN.Z, 1e-6);
    }

    private static StepModel FixedBeam(double a, double b)
    {
        Vec3[] nodes = [default, new(a, 0, 0), new(a + b, 0, 0)];
        return new(
            nodes,
            [new(0, 1), new(1, 2)],
            [PathRun.Beam(nodes[0], nodes[1], E, DiameterMm), PathRun.Beam(nodes[1], nodes[2], E, DiameterMm)],
            [new(0, Freedoms.All), new(2, Freedoms.All)],
            [Hinge(0, nodes[0]), Hinge(0, nodes[1]), Hinge(1, nodes[2])],
            1, FrameTopology.Ground, nodes[1], [], 1, new(0, 0, -1), default);
    }

    // Bases 0 and 1, corners 2 and 3, middle of the beam 4; hinges in that order.
    private static StepModel Portal(double h, double plasticNmm)
    {
        Vec3[] nodes = [default, new(2 * h, 0, 0), new(0, 0, h), new(2 * h, 0, h), new(h, 0, h)];
        (int A, int B)[] ends = [(0, 2), (2, 4), (4, 3), (3, 1)];
        return new(
            nodes,
            [.. ends.Select(e => new MemberEnds(e.A, e.B))],
            [.. ends.Select(e => PathRun.Beam(nodes[e.A], nodes[e.B], E, DiameterMm))],
            [new(0, Freedoms.All), new(1, Freedoms.All)],
            [.. new[] { (0, 0), (3, 1), (0, 2), (3, 3), (1, 4) }.Select(p => Hinge(p.Item1, nodes[p.Item2]) with { Capacity = plasticNmm })],
            4, FrameTopology.Ground, nodes[4], [], 4, new(1, 0, -1), default);
    }

    private static StepModel Cantilever(double support, double length, double gapMm, double stiffnessNPerMm)
    {
        bool atTip = support == length;
        Vec3[] nodes = atTip ? [default, new(length, 0, 0)] : [default, new(support, 0, 0), new(length, 0, 0)];
        int last = nodes.Length - 1;
        return new(
            nodes,
            [.. Enumerable.Range(0, last).Select(i => new MemberEnds(i, i + 1))],
            [.. Enumerable.Range(0, last).Select(i => PathRun.Beam(nodes[i], nodes[i + 1], E, DiameterMm))],
            [new(0, Freedoms.All)],
            [],
            1, FrameTopology.Ground, nodes[1], [new ContactPoint(default, Vec3.UnitZ, gapMm, stiffnessNPerMm)], last, new(0, 0, -1), default);
    }

    private static YieldingComponent Hinge(int member, Vec3 at) => YieldingComponent.Moment(member, at, Vec3.UnitY, PlasticNmm);
}
