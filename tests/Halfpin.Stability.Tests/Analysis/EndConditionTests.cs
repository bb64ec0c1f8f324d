using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;
using Xunit;

namespace Halfpin.Stability.Tests.Analysis;

/// <summary>Ball and guided ends read from the potted solution, against full models with those very supports.</summary>
public class EndConditionTests
{
    // Two factorisations of one frame: rounding times its condition.
    private const double Rounding = 1e-6;

    private static readonly TwoPlane _lopsided = new()
    {
        Placement = PinPlacement.NearFar,
        NearMm = 27,
        FarMm = 93,
        AzimuthDeg = 17,
        SecondAzimuthDeg = 84,
        StandoffMm = 43,
        Pin = Bench.Pin,
        Rod = Bench.Rod,
    };

    private readonly FrameAnalyser _analyser = Bench.Analysed(Bench.PartsOf(_lopsided), Bench.TibiaLimb);

    [Fact]
    public void Ball_axially_equalsTheFullModelWithBallJoints()
    {
        // Translations held at both ends but along the axis above; turning held about the axis below only.
        FrameSystem full = With(Freedoms.Ux | Freedoms.Uy, Freedoms.Translations | Freedoms.Rz);
        Motion top = Solve(full, new(new(0, 0, -100), default));

        Assert.Equal(StiffnessReadout.Read(_analyser).AtLoad.Ball.AxialNPerMm, 100 / -top.TranslationMm.Z, Rounding * 200);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Ball_inBending_equalsTheFullModelUnderOppositeEndMoments(bool ap)
    {
        FrameSystem full = With(Freedoms.Ux | Freedoms.Uy, Freedoms.Translations | Freedoms.Rz);
        Wrench moment = new(default, ap ? new(0, 1000, 0) : new(1000, 0, 0));
        int bottom = _analyser.Plan.Stations.Length - 1;
        full.AddLoad(0, bottom, full.Node(bottom), -1 * moment);
        Motion top = Solve(full, moment), below = full.MotionOf(bottom, 0);
        double relative = ap ? top.RotationRad.Y - below.RotationRad.Y : top.RotationRad.X - below.RotationRad.X;
        FourStiffnesses ball = StiffnessReadout.Read(_analyser).AtLoad.Ball;

        Assert.Equal(1, (ap ? ball.ApBendingNmPerDeg : ball.MlBendingNmPerDeg) / (1 / (relative * 180 / Math.PI)), Rounding);
    }

    [Fact]
    public void Guided_axially_equalsTheFullModelWithRotationsHeld()
    {
        FrameSystem full = With(Freedoms.Rotations, Freedoms.All);
        Motion top = Solve(full, new(new(0, 0, -100), default));

        Assert.Equal(1, StiffnessReadout.Read(_analyser).AtLoad.Guided.AxialNPerMm / (100 / -top.TranslationMm.Z), Rounding);
    }

    private FrameSystem With(Freedoms top, Freedoms bottom)
    {
        FramePlan plan = _analyser.Plan;
        FrameSystem system = new(new(plan.Nodes.Length, plan.Topology.Members, [new(0, top), new(plan.Stations.Length - 1, bottom)]), 1);
        for (int n = 0; n < plan.Nodes.Length; n++)
        {
            system.SetNode(n, _analyser.System.Node(n));
        }

        for (int m = 0; m < plan.Members.Length; m++)
        {
            system.SetMember(m, _analyser.System.Member(m));
        }

        Assert.True(system.Factorise().IsStable);
        return system;
    }

    private static Motion Solve(FrameSystem system, Wrench onTop)
    {
        system.AddLoad(0, 0, system.Node(0), onTop);
        system.Solve();
        return system.MotionOf(0, 0);
    }
}
