using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Demand;

public class DemandTests
{
    private const double LoadN = 137;

    [Fact]
    public void Rod_ofASingleRodFrame_carriesTheWholeLoadAtItsDistance()
    {
        // Statics: between the fragments the rod alone carries the load, eccentric by standoff and bone radius.
        // σ = F/A + F·e/W with A = π·11²/4, W = π·11³/32.
        double eccentricityMm = 47 + (27.4 / 2);
        double stress = (LoadN / (Math.PI * 121 / 4)) + (LoadN * eccentricityMm / (Math.PI * 1331 / 32));

        DemandItem rod = Worst(Under(Bench.NearFar, EndLoad.Compression(LoadN)), Limit.RodYield);

        Assert.Equal(1, rod.Value / (stress / 526), 1e-6);
    }

    [Fact]
    public void RodAtTheGap_inTorsionOfTheLimb_isTwistedByAllOfIt()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar) with { Loading = new() { TorsionNm = 1.7 } });
        ForceStation[] rod = [.. f.InternalForces.Single(p => p.Part == "r1").Stations];

        // The middle stretch lies between the second and third clamp; torsion about the rod's own axis stays what it is about the
        // limb's, since the two are parallel.
        Assert.Equal(1.7, Math.Abs(rod.First(s => s.Place == "clamp c3").TorsionNm), 1e-6);
    }

    [Fact]
    public void Bone_atTheLoadedEnd_carriesTheLoad()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 13));
        ForceStation end = f.InternalForces.Single(p => p.Part == "fragment1").Stations.First(s => s.Place == "proximal end");

        Assert.Equal(-13 * 9.81, end.AxialN, 1e-6);
        Assert.Equal(0, end.BendingNm, 1e-6);
    }

    [Fact]
    public void Bone_atTheFaces_carriesNothing()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 13));
        ForceStation face = f.InternalForces.Single(p => p.Part == "fragment1").Stations.First(s => s.Place == "proximal face");

        Assert.Equal(0, face.AxialN, 1e-6);
        Assert.Equal(0, face.BendingNm, 1e-6);
    }

    [Fact]
    public void Demand_ofTwiceTheLoad_isTwiceAsMuch()
    {
        DemandItem[] one = [.. Under(Bench.NearFar, EndLoad.Compression(LoadN))], two = [.. Under(Bench.NearFar, EndLoad.Compression(2 * LoadN))];

        Assert.All(one.Zip(two).Where(p => p.First.Value > 0), p => Assert.Equal(2, p.Second.Value / p.First.Value, 1e-9));
    }

    [Fact]
    public void Pins_ofASymmetricFrame_areUsedAlikeOnBothSides()
    {
        DemandItem[] items = [.. Under(Bench.NearFar, EndLoad.Compression(LoadN)).Where(i => i.Limit == Limit.PinYield)];

        Assert.Equal(items.Single(i => i.Part == 0).Value, items.Single(i => i.Part == 3).Value, 1e-8);
        Assert.Equal(items.Single(i => i.Part == 1).Value, items.Single(i => i.Part == 2).Value, 1e-8);
    }

    [Fact]
    public void FullWeight_overAnOpenGapOnFourPinsAt50Mm_exceedsTheYieldOfColdWorkedSteel()
    {
        // DERIVED in the notes: 0.7–1.4 GPa at 700 N against 690 MPa.
        DemandItem[] items = [.. Under(Bench.NearFar with { StandoffMm = 50 }, EndLoad.Compression(700))];

        Assert.True(Worst(items, Limit.PinYield).Value > 1);
    }

    [Fact]
    public void RigidClamps_areNotJudged() =>
        Assert.DoesNotContain(Under(Bench.NearFar, EndLoad.Compression(LoadN), new() { Clamp = new RigidClamp() }), i => i.Limit is Limit.ClampPivot or Limit.ClampSlide);

    [Fact]
    public void LooseClamp_isJudgedForNeitherSlideNorTurn()
    {
        Parts parts = Bench.PartsOf(Bench.NearFar);
        parts = parts with { Clamps = [.. parts.Clamps.Select(c => c.Id == "c3" ? c with { State = ClampState.Loose } : c)] };
        DemandItem[] items = [.. new DemandAnalysis(Bench.Analysed(parts)).Under(EndLoad.Compression(LoadN)).ToArray().Where(i => i.Part == 2)];

        Assert.DoesNotContain(items, i => i.Limit is Limit.ClampSlide or Limit.ClampSlipAboutRod);
        Assert.Contains(items, i => i.Limit == Limit.ClampPivot);
    }

    [Fact]
    public void FixedPins_areHeldByPressureInTheNearCortex()
    {
        DemandItem[] items = [.. Under(Bench.NearFar, EndLoad.Compression(LoadN), new() { PinFixity = new FixedAtSurface() })];

        Assert.All(items.Where(i => i.Limit == Limit.BoneBearing), i => Assert.Equal(DemandPlace.NearCortex, i.Place));
    }

    [Fact]
    public void PinAtTheSurface_underARigidRodAndClamp_carriesTheMomentOfStatics()
    {
        // The sum over a fragment's pins of axial-direction forces is the load: each pin's shear along the bone adds up to it.
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 10));
        double shear = f.InternalForces.Where(p => p.Part is "p1" or "p2").Sum(p => p.Stations.First(s => s.Place == "bone surface").ShearN);

        Assert.Equal(98.1, shear, 1e-4);
    }

    private static DemandItem[] Under(Construct construct, EndLoad load, ModelOptions? model = null) =>
        new DemandAnalysis(Bench.Analysed(Bench.PartsOf(construct), model: model)).Under(load).ToArray();

    private static DemandItem Worst(DemandItem[] items, Limit limit) => items.Where(i => i.Limit == limit).MaxBy(i => i.Value);
}
