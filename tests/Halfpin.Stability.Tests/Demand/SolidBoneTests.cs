using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;
using Halfpin.Stability.Placement;
using Xunit;

namespace Halfpin.Stability.Tests.Demand;

/// <summary>Pins in a bone without a canal, where the demand follows from one beam on one foundation.</summary>
public class SolidBoneTests
{
    private static readonly EndLoad _load = EndLoad.Compression(137);

    // Hetényi: a half-infinite beam sinks in at its end by 2λ(V − λM)/k. λL = 24 here.
    [Fact]
    public void Bearing_ofASlenderPin_isThatOfTheHalfInfiniteBeam()
    {
        FrameAnalyser analyser = Analysed(59.3, 1.5, 5000);
        DemandAnalysis demand = new(analyser);
        double lambda = FoundationSpan.Lambda(193_000 * Math.PI * Math.Pow(1.5, 4) / 64, 5000);
        DemandItem worst = demand.Under(_load).ToArray().Single(i => i.Limit == Limit.BoneBearing && i.Part == 1);
        (Vec3 force, Vec3 moment) = AcrossAtTheSurface(analyser, demand, 1);
        double pressureMPa = 2 * lambda * (force - (lambda * moment)).Length / 1.5;

        Assert.True(lambda * 59.3 > 20);
        Assert.InRange(worst.Value * analyser.Data.Bone.Tissue.TransverseStrengthMPa / pressureMPa, 1 - 1e-9, 1.1);
    }

    private static FrameAnalyser Analysed(double boneMm, double pinMm, double modulusNPerMm2)
    {
        Limb limb = Bench.TubeLimb with { BoneModel = Bench.Tube with { OuterDiameterMm = boneMm, InnerDiameterMm = 0 } };
        Parts parts = Bench.PartsOf(Bench.NearFar with { Pin = Bench.Pin with { DiameterMm = pinMm } });
        return Bench.Analysed(parts, limb, new() { PinFixity = new Domain.Modelling.FoundationFixity { ModulusNPerMm2 = modulusNPerMm2 } });
    }

    // Force and (moment × inward) on the pin in the bone at its port, across the pin.
    private static (Vec3 Force, Vec3 Moment) AcrossAtTheSurface(FrameAnalyser analyser, DemandAnalysis demand, int pin)
    {
        PlacedPin placed = analyser.Data.PlacedPins[pin];
        int member = analyser.Plan.Members.ToList().FindIndex(m => m.Kind == MemberKind.PinInBone && m.Part == pin);
        Wrench w = demand.WrenchAbout(member, placed.At(placed.SurfaceMm), _load);
        Vec3 inward = -placed.Outward;
        return (w.ForceN - (w.ForceN.Dot(inward) * inward), w.MomentNmm.Cross(inward));
    }
}
