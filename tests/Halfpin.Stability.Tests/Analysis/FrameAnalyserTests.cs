using CsCheck;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Diagnosis;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Analysis;

public class FrameAnalyserTests
{
    private const double LeverMm = 100;

    [Fact]
    public void Analyser_variantsOfAConstruct_areAnalysedWithoutAllocation()
    {
        FrameAnalyser analyser = Bench.Analyser(Bench.TibiaLimb);
        Parts[] variants = [.. new[] { 41.3, 47.9, 52.1, 58.7 }.Select(s => Bench.PartsOf(Bench.NearFar with { StandoffMm = s, AzimuthDeg = 50 }))];
        DemandAnalysis demand = new(analyser);
        void All()
        {
            foreach (Parts parts in variants)
            {
                analyser.Analyse(parts);
                demand.Under(EndLoad.Compression(100));
            }
        }

        All();
        long before = GC.GetAllocatedBytesForCurrentThread();
        All();

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void Analyser_usedAgain_givesTheSameBitsAsAFreshOne()
    {
        FrameAnalyser used = Bench.Analyser();
        used.Analyse(Bench.PartsOf(Bench.NearFar with { StandoffMm = 71 }));
        used.Analyse(Bench.PartsOf(Bench.NearFar));

        Assert.Equal(Bench.AtFracture(Bench.NearFar), StiffnessReadout.AtFracture(used));
    }

    [Fact]
    public void Analyser_pinsListedInAnotherOrder_givesTheSameStiffness()
    {
        Parts parts = Bench.PartsOf(Bench.NearFar);
        Parts shuffled = parts with { Pins = [.. parts.Pins.Reverse()], Clamps = [.. parts.Clamps.Skip(2), .. parts.Clamps.Take(2)] };

        Assert.Equal(Bench.AtFracture(Bench.NearFar).AxialNPerMm, StiffnessReadout.AtFracture(Bench.Analysed(shuffled)).AxialNPerMm, 1e-6);
    }

    [Fact]
    public void Limb_onTheOtherSide_hasTheSameNumbers()
    {
        Construct oblique = Bench.NearFar with { AzimuthDeg = 37 };

        Assert.Equal(Bench.AtFracture(oblique, Bench.TibiaLimb), Bench.AtFracture(oblique, Bench.TibiaLimb with { Side = Side.Left }));
    }

    [Fact]
    public void Tube_pinsMirroredInTheSagittalPlane_hasTheSameStiffness()
    {
        FourStiffnesses medial = Bench.AtFracture(Bench.NearFar with { AzimuthDeg = 37 }), lateral = Bench.AtFracture(Bench.NearFar with { AzimuthDeg = -37 });

        Assert.Equal(1, medial.AxialNPerMm / lateral.AxialNPerMm, 1e-8);
        Assert.Equal(1, medial.MlBendingNmPerDeg / lateral.MlBendingNmPerDeg, 1e-8);
    }

    [Fact]
    public void Pins_onAHardeningFoundation_approachFixityAtTheSurface()
    {
        double At(PinFixity fixity) => Bench.AtFracture(Bench.NearFar, model: new() { PinFixity = fixity }).AxialNPerMm;
        double bound = At(new FixedAtSurface());

        Assert.InRange(At(new FoundationFixity { ModulusNPerMm2 = 1e6 }) / bound, 0.85, 1);
        Assert.InRange(At(new FoundationFixity { ModulusNPerMm2 = 1e4 }) / At(new FoundationFixity { ModulusNPerMm2 = 1e6 }), 0.5, 1);
    }

    [Fact]
    public void Clamps_ofGrowingStiffness_approachRigidOnes()
    {
        double At(ClampModel clamp) => Bench.AtFracture(Bench.NearFar, model: new() { Clamp = clamp }).AxialNPerMm;

        Assert.Equal(1, At(new SpringClamp { RotationalNmPerRad = 1e6, TranslationalNPerMm = 1e7 }) / At(new RigidClamp()), 1e-3);
    }

    [Fact]
    public void Pin_withThreadOutsideTheBone_isSofter()
    {
        Construct shank = Bench.NearFar, thread = Bench.NearFar with { Pin = Bench.Pin with { CoreDiameterMm = 4.2, ThreadLengthMm = 50 } };

        Assert.True(Bench.AtFracture(thread).AxialNPerMm < Bench.AtFracture(shank).AxialNPerMm);
    }

    [Fact]
    public void Pin_threadedAsFarAsTheClamp_bendsLikeAPinOfCoreDiameterButForItsHold()
    {
        // The bone's hold about the pin counts the outer diameter, which leaves under a per cent; bending is the core's throughout.
        double threaded = Bench.AtFracture(Bench.NearFar with { Pin = Bench.Pin with { CoreDiameterMm = 4.2, ThreadLengthMm = 200 } }).MlBendingNmPerDeg;
        double core = Bench.AtFracture(Bench.NearFar with { Pin = Bench.Pin with { DiameterMm = 4.2 } }).MlBendingNmPerDeg;

        Assert.Equal(1, threaded / core, 0.01);
    }

    [Fact]
    public void Pin_whoseThreadBarelyReaches_bendsLikeItsShank()
    {
        FourStiffnesses tip = Bench.AtFracture(Threaded(1e-6)), shank = Bench.AtFracture(Bench.NearFar);

        Assert.Equal(1, tip.AxialNPerMm / shank.AxialNPerMm, 1e-8);
        Assert.Equal(1, tip.TorsionNmPerDeg / shank.TorsionNmPerDeg, 1e-8);
    }

    // The tube is 27.4 mm wide with a canal of 13.6 mm: threads that end in the far cortex, at both faces of the canal, in it, in the
    // near cortex, at the surface and outside.
    [Fact]
    public void Pin_withALongerThread_isNeverStifferInAnyDirection()
    {
        double[] threads = [1.3, 6.9, 11.7, 20.5, 24.1, 27.4, 31.9, 60];

        Assert.All(threads.Zip(threads.Skip(1)), t => Assert.True(Grows(Bench.PartsOf(Threaded(t.Second)), Bench.PartsOf(Threaded(t.First))), $"{t}"));
    }

    // Either side of every face the stiffness is the same: no jump where the number of spans changes.
    [Theory]
    [InlineData(6.9)]
    [InlineData(20.5)]
    [InlineData(27.4)]
    public void Pin_whoseThreadEndsAtAFace_isContinuousThere(double faceMm)
    {
        double before = Bench.AtFracture(Threaded(faceMm - 1e-9)).AxialNPerMm, after = Bench.AtFracture(Threaded(faceMm + 1e-9)).AxialNPerMm;

        Assert.Equal(1, after / before, 1e-8);
        Assert.Equal(1, Bench.AtFracture(Threaded(faceMm)).AxialNPerMm / before, 1e-8);
    }

    [Fact]
    public void Pin_threadedThroughTheFarCortexOnly_isStressedOnItsShankInTheNearOne()
    {
        // The worst place in bone lies in the near cortex: there the thread weakens nothing but the way it yields deeper.
        double Worst(Construct c) => new DemandAnalysis(Bench.Analysed(Bench.PartsOf(c))).Under(EndLoad.Compression(137)).ToArray()
            .Where(i => i.Limit == Limit.PinYield).Max(i => i.Value);

        Assert.Equal(1, Worst(Threaded(5.1)) / Worst(Bench.NearFar), 0.02);
        Assert.InRange(Worst(Threaded(27.5)) / Worst(Bench.NearFar), 1.5, 1.8);
    }

    [Fact]
    public void Clamp_withABody_shortensTheFreePin()
    {
        Parts parts = Bench.PartsOf(Bench.NearFar);
        Parts bodies = parts with { Clamps = [.. parts.Clamps.Select(c => c with { BodyLengthMm = 20 })] };

        // A free length of 37 instead of 47 mm with rigid clamps: like a rod 10 mm closer but for the lever of its distance.
        Assert.True(StiffnessReadout.AtFracture(Bench.Analysed(bodies)).TorsionNmPerDeg > StiffnessReadout.AtFracture(Bench.Analysed(parts)).TorsionNmPerDeg);
    }

    [Fact]
    public void SiteStiffness_anyPartThickened_neverFallsInAnyDirection() => Gen.Select(_frames, Gen.Int[0, 100], Gen.Double[1.03, 1.5]).Sample(
        (parts, pick, factor) => Grows(parts, Thickened(parts, pick, factor)), iter: 40);

    [Fact]
    public void SiteStiffness_withAnotherPin_neverFallsInAnyDirection() => Gen.Select(_frames, Gen.Double[0.2, 0.8]).Sample(
        (parts, share) =>
        {
            Pin near = parts.Pins[0], next = parts.Pins[1];
            Pin extra = near with { Id = "extra", LevelMm = near.LevelMm + (share * (next.LevelMm - near.LevelMm)) };

            // Where a link's clamp stands, the placement rules leave no room for another.
            return parts.Rods.Any(r => r.Id != "r1" && Math.Abs(r.From.LevelMm - extra.LevelMm) < 5)
                || Grows(parts, parts with { Pins = [.. parts.Pins, extra], Clamps = [.. parts.Clamps, new() { Id = "extra-clamp", Pin = "extra", Rod = "r1" }] });
        },
        iter: 40);

    [Fact]
    public void LoadPoint_anyPartThickened_isNeverSofter() => Gen.Select(_frames, Gen.Int[0, 100], Gen.Double[1.03, 1.5]).Sample(
        (parts, pick, factor) =>
        {
            FourStiffnesses before = StiffnessReadout.Read(Bench.Analysed(parts)).AtLoad.Potted;
            FourStiffnesses after = StiffnessReadout.Read(Bench.Analysed(Thickened(parts, pick, factor))).AtLoad.Potted;
            return after.AxialNPerMm >= before.AxialNPerMm * (1 - 1e-9)
                && after.ApBendingNmPerDeg >= before.ApBendingNmPerDeg * (1 - 1e-9)
                && after.MlBendingNmPerDeg >= before.MlBendingNmPerDeg * (1 - 1e-9)
                && after.TorsionNmPerDeg >= before.TorsionNmPerDeg * (1 - 1e-9);
        },
        iter: 40);

    [Fact]
    public void Gap_widened_hardlyChangesStiffness()
    {
        // READ: rat femur frames, gaps 1.0, 1.5 and 2.0 mm: 32.6, 32.5, 32.4 N/mm (PMC6715773). Pins keep their places here.
        Parts parts = Bench.PartsOf(Bench.NearFar);
        double narrow = StiffnessReadout.AtFracture(Bench.Analysed(parts, fracture: Bench.Gap with { GapMm = 1 })).AxialNPerMm;
        double wide = StiffnessReadout.AtFracture(Bench.Analysed(parts, fracture: Bench.Gap with { GapMm = 17 })).AxialNPerMm;

        Assert.Equal(1, wide / narrow, 0.01);
    }

    // Random one- and two-plane frames on the tube.
    private static readonly Gen<Parts> _frames =
        Gen.Select(Gen.Double[12, 40], Gen.Double[60, 120], Gen.Double[-90, 90], Gen.Double[25, 80], Gen.Double[4, 6], Gen.Bool, Gen.Double[35, 120]).Select(
            (near, far, azimuth, standoff, diameter, v, turn) =>
            {
                PinSpec pin = Bench.Pin with { DiameterMm = diameter };
                return Bench.PartsOf(v
                    ? new TwoPlane { Placement = PinPlacement.NearFar, NearMm = near, FarMm = far, AzimuthDeg = azimuth, SecondAzimuthDeg = azimuth > 0 ? azimuth - turn : azimuth + turn, StandoffMm = standoff, Pin = pin, Rod = Bench.Rod }
                    : new SingleRod { Placement = PinPlacement.NearFar, NearMm = near, FarMm = far, AzimuthDeg = azimuth, StandoffMm = standoff, Pin = pin, Rod = Bench.Rod });
            });

    private static SingleRod Threaded(double lengthMm) => Bench.NearFar with { Pin = Bench.Pin with { CoreDiameterMm = 4.2, ThreadLengthMm = lengthMm } };

    private static Parts Thickened(Parts parts, int pick, double factor) => pick % 2 == 0
        ? parts with { Pins = [.. parts.Pins.Select((p, i) => i == pick / 2 % parts.Pins.Length ? p with { DiameterMm = factor * p.DiameterMm } : p)] }
        : parts with { Rods = [.. parts.Rods.Select((r, i) => i == pick / 2 % parts.Rods.Length ? r with { DiameterMm = factor * r.DiameterMm } : r)] };

    private static bool Grows(Parts before, Parts after)
    {
        FrameAnalyser a = Bench.Analysed(before), b = Bench.Analysed(after);
        double[,] growth = new double[6, 6];
        double most = 0;
        for (int r = 0; r < 6; r++)
        {
            for (int c = 0; c < 6; c++)
            {
                double scale = (r < 3 ? 1 : 1 / LeverMm) * (c < 3 ? 1 : 1 / LeverMm) / 2;
                growth[r, c] = scale * (b.Site.SiteStiffness[r, c] + b.Site.SiteStiffness[c, r] - a.Site.SiteStiffness[r, c] - a.Site.SiteStiffness[c, r]);
                most = Math.Max(most, Math.Abs(scale * b.Site.SiteStiffness[r, c]));
            }
        }

        return SymmetricEigen.Solve(growth).Values[0] > -1e-8 * most;
    }
}
