using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.Placement;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Demand;

/// <summary>Pins in a bone without a canal, where the demand follows from one beam on one foundation.</summary>
public class SolidBoneTests
{
    private const double LoadN = 137;

    // Hetényi: a half-infinite beam sinks in at its end by 2λ(V − λM)/k. λL = 90 here.
    [Fact]
    public void Bearing_ofASlenderPin_isThatOfTheHalfInfiniteBeam()
    {
        FrameAnalyser analyser = Analysed(59.3, 1.5, 1e6);
        DemandAnalysis demand = new(analyser);
        double lambda = FoundationSpan.Lambda(193_000 * Math.PI * Math.Pow(1.5, 4) / 64, 1e6);
        DemandItem worst = demand.Under(EndLoad.Compression(LoadN)).ToArray().Single(i => i.Limit == Limit.BoneBearing && i.Part == 1);
        (Vec3 force, Vec3 moment) = AcrossAtTheSurface(analyser, 1);
        double pressureMPa = 2 * lambda * (force - (lambda * moment)).Length / 1.5;

        Assert.True(lambda * 59.3 > 80);
        Assert.InRange(worst.Value * analyser.Data.Bone.Tissue.TransverseStrengthMPa / pressureMPa, 1 - 1e-9, 1.1);
    }

    // Clamps that hardly hold a moment leave it to grow from the surface inwards: the worst of 40 001 places. Von Mises stress of beam
    // theory by hand: F/A + 32 M/πd³.
    [Theory]
    [InlineData(500)]
    [InlineData(5000)]
    [InlineData(77_000)]
    [InlineData(1e6)]
    public void PinStress_whereTheMomentPeaksBelowTheSurface_isThatOfADenseScan(double modulusNPerMm2)
    {
        FrameAnalyser analyser = Analysed(59.3, 5, modulusNPerMm2, 1.3, new SpringClamp { RotationalNmPerRad = 0.7 });
        DemandItem worst = new DemandAnalysis(analyser).Under(EndLoad.Compression(LoadN)).ToArray().Single(i => i.Limit == Limit.PinYield && i.Part == 1);
        (Vec3 force, Vec3 moment) = AcrossAtTheSurface(analyser, 1);
        GroundSpan[] spans = new GroundSpan[FrameWriter.MaxSpans];
        BarStation[] dense = new BarStation[40_001];
        EmbeddedBar.Profile(spans.AsSpan(0, analyser.Writer.SpansOf(1, spans)), dense.Length, dense);
        double most = dense.Max(s => ((s.MomentPerForceNmm * force) + (s.MomentPerMoment * moment)).Length);
        double axial = Math.Abs(Load(analyser, 1).ForceN.Dot(analyser.Data.PlacedPins[1].Outward));
        double stressMPa = (axial / (Math.PI * 25 / 4)) + (32 * most / (Math.PI * 125));

        Assert.Equal(1, worst.Value * analyser.Materials["steel"].YieldMPa / stressMPa, 0.01);
        Assert.Equal(DemandPlace.InBone, worst.Place);
    }

    private static FrameAnalyser Analysed(double boneMm, double pinMm, double modulusNPerMm2, double standoffMm = 47, ClampModel? clamp = null)
    {
        Limb limb = Bench.TubeLimb with { BoneModel = Bench.Tube with { OuterDiameterMm = boneMm, InnerDiameterMm = 0 } };
        Parts parts = Bench.PartsOf(Bench.NearFar with { StandoffMm = standoffMm, Pin = Bench.Pin with { DiameterMm = pinMm } });
        return Bench.Analysed(parts, limb, new()
        {
            PinFixity = new FoundationFixity { ModulusNPerMm2 = modulusNPerMm2 },
            Clamp = clamp ?? new SpringClamp(),
        });
    }

    // Force and (moment × inward) on the pin in the bone at its port, across the pin.
    private static (Vec3 Force, Vec3 Moment) AcrossAtTheSurface(FrameAnalyser analyser, int pin)
    {
        Wrench w = Load(analyser, pin);
        Vec3 inward = -analyser.Data.PlacedPins[pin].Outward;
        return (w.ForceN - (w.ForceN.Dot(inward) * inward), w.MomentNmm.Cross(inward));
    }

    private static Wrench Load(FrameAnalyser analyser, int pin)
    {
        PlacedPin placed = analyser.Data.PlacedPins[pin];
        int member = analyser.Plan.Members.ToList().FindIndex(m => m.Kind == MemberKind.PinInBone && m.Part == pin);
        return (-LoadN * analyser.System.WrenchOn(member, SiteAnalysis.EndColumn(2))).About(placed.At(placed.SurfaceMm) - analyser.System.Member(member).AtMm);
    }
}
