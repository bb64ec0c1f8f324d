using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Segments;

/// <summary>Frames that bridge two fractures, against frames with one, full models and statics by hand.</summary>
public class SegmentAnalysisTests
{
    private static readonly double[] _load = [31, -17, -430, 2100, -3300, 1700];

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void TwoGaps_oneFilledWithBone_areTheOtherAlone(int open)
    {
        // The bone that a gap leaves out is put back as a layer between its faces: what is left is the frame with one gap, and the two
        // share nothing but the members.
        int filled = 1 - open;
        FrameAnalyser both = SegmentBench.Analysed(SegmentBench.Six, SegmentBench.Both), one = SegmentBench.Analysed(SegmentBench.Six, [SegmentBench.Both[open]]);
        Fracture f = SegmentBench.Both[filled];
        SquareMatrix layer = new(12);
        Write(layer, 6 * filled, new BoneFlexibility(BoneShape.For(Bench.TibiaLimb), BeamTheory.Timoshenko).Between(f.LevelMm - (f.GapMm / 2), f.LevelMm + (f.GapMm / 2)));
        SiteEquilibrium sites = new(0, 2);
        sites.Solve(both.Site.SiteStiffness, Free(both), layer, [], 0);

        double[] alone = Free(one);
        for (int c = 0; c < 6; c++)
        {
            Assert.Equal(alone[c], sites.Motion[(6 * open) + c], 1e-7 * alone.Max(Math.Abs));
        }
    }

    // The site stiffness of the assessment, inverted: moments on the two faces alone, all other motions free.
    [Fact]
    public void BetweenBending_ofTwoGaps_isTheWeakestOfTheirOwnSiteStiffness()
    {
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Six, SegmentBench.Both);
        double softest = 0;
        for (int site = 0; site < 2; site++)
        {
            SquareMatrix k = new(6), c = new(6);
            ImmutableArray<ImmutableArray<double>> own = StiffnessReadout.ReadSite(analyser, site)!.NMmRad;
            for (int i = 0; i < 36; i++)
            {
                k[i / 6, i % 6] = own[i / 6][i % 6];
            }

            Assert.True(k.TryInvertInto(c));
            for (double turn = 0; turn < Math.PI; turn += Math.PI / 3600)
            {
                (double sin, double cos) = Math.SinCos(turn);
                softest = Math.Max(softest, (c[3, 3] * cos * cos) + (2 * c[3, 4] * sin * cos) + (c[4, 4] * sin * sin));
            }
        }

        Assert.Equal(Math.PI / 180 / 1000 / softest, StiffnessReadout.BetweenBending(analyser)!.Value, 1e-5);
    }

    // Loads on the end of the bone run past the fragment between, so that their stiffness hardly knows how it is held; this one does.
    [Theory]
    [InlineData(157.1, 211.9, 181.3, 189.7)]
    [InlineData(157.1, 211.9, 184.4, double.NaN)]
    public void BetweenBending_ofPinsCloserOrOneLess_isLess(double upper, double lower, double closerUpper, double closerLower)
    {
        FrameAnalyser wide = SegmentBench.Analysed(With(upper, lower), SegmentBench.Both), close = SegmentBench.Analysed(With(closerUpper, closerLower), SegmentBench.Both);

        Assert.True(StiffnessReadout.BetweenBending(close) < 0.9 * StiffnessReadout.BetweenBending(wide));
        Assert.Equal(StiffnessReadout.AtFracture(wide).AxialNPerMm, StiffnessReadout.AtFracture(close).AxialNPerMm, 0.02 * StiffnessReadout.AtFracture(wide).AxialNPerMm);

        static Parts With(double a, double b) => SegmentBench.On(SegmentBench.Six.Rods[0], [.. new[] { 41.3, 98.7, a, b, 261.7, 327.3 }.Where(double.IsFinite)]);
    }

    [Fact]
    public void BetweenBending_ofOneGap_isNone() => Assert.Null(StiffnessReadout.BetweenBending(SegmentBench.Analysed(SegmentBench.Six, [SegmentBench.Upper])));

    [Fact]
    public void TwoGaps_withSpringsAcrossThem_moveLikeTheFullModel()
    {
        // Springs of any kind across both gaps, once as layers on the condensed sites, once as members of the whole frame.
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Six, SegmentBench.Both);
        FramePlan plan = analyser.Plan;
        MemberStiffness[] springs = [.. Enumerable.Range(0, 2).Select(s => Spring.Stiffness(
            analyser.SitePointsMm[s], Mat3.FromRows(Vec3.UnitX, Vec3.UnitY, Vec3.UnitZ), new(70 + s, 110, 41), new(3e5, 5e5, 2e5 + (1e4 * s))))];
        FrameSystem full = new(
            new(plan.Nodes.Length, [.. plan.Topology.Members, .. plan.Sites.Select(s => new MemberEnds(s.LowerNode, s.UpperNode))], [new(plan.Stations.Length - 1, Freedoms.All)]), 1);
        analyser.Writer.Write(plan, full, new bool[plan.Clamps.Length]);
        SquareMatrix layer = new(12);
        for (int s = 0; s < 2; s++)
        {
            full.SetMember(plan.Members.Length + s, springs[s]);
            Write(layer, 6 * s, springs[s]);
        }

        Assert.True(full.Factorise().IsStable);
        full.AddLoad(0, 0, full.Node(0), new(new(_load[0], _load[1], _load[2]), new(_load[3], _load[4], _load[5])));
        full.Solve();
        SiteEquilibrium sites = new(0, 2);
        sites.Solve(analyser.Site.SiteStiffness, Free(analyser), layer, [], 0);
        for (int s = 0; s < 2; s++)
        {
            Vec3 at = analyser.SitePointsMm[s];
            Motion upper = full.MotionOf(plan.Sites[s].UpperNode, 0).At(at - full.Node(plan.Sites[s].UpperNode));
            Motion lower = full.MotionOf(plan.Sites[s].LowerNode, 0).At(at - full.Node(plan.Sites[s].LowerNode));
            Motion m = upper - lower;
            double[] expected = [m.TranslationMm.X, m.TranslationMm.Y, m.TranslationMm.Z, m.RotationRad.X, m.RotationRad.Y, m.RotationRad.Z];
            for (int c = 0; c < 6; c++)
            {
                Assert.Equal(expected[c], sites.Motion[(6 * s) + c], 1e-8 * (c < 3 ? 10 : 0.1));
            }
        }
    }

    [Fact]
    public void SiteCompliance_ofTwoSites_isSymmetric()
    {
        // Betti and Maxwell: the motion at one gap under opposite wrenches at the other.
        SquareMatrix c = SegmentBench.Analysed(SegmentBench.Six, SegmentBench.Both).Site.SiteCompliance;
        for (int i = 0; i < 12; i++)
        {
            for (int j = 0; j < i; j++)
            {
                Assert.Equal(0, (c[i, j] - c[j, i]) / Math.Sqrt(c[i, i] * c[j, j]), 1e-8);
            }
        }
    }

    [Fact]
    public void EndToSite_ofEachSite_isReciprocalToTheEndsMotion()
    {
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Six, SegmentBench.Both);
        for (int s = 0; s < 2; s++)
        {
            for (int i = 0; i < 6; i++)
            {
                Motion end = analyser.System.MotionOf(FramePlan.LoadedNode, SiteAnalysis.SiteColumn(s, i));
                double[] six = [end.TranslationMm.X, end.TranslationMm.Y, end.TranslationMm.Z, end.RotationRad.X, end.RotationRad.Y, end.RotationRad.Z];
                for (int c = 0; c < 6; c++)
                {
                    double size = Math.Sqrt(analyser.Site.SiteCompliance[(6 * s) + i, (6 * s) + i] * analyser.Site.EndCompliance[c, c]);
                    Assert.Equal(0, (six[c] - analyser.Site.EndToSite[s][i, c]) / size, 1e-8);
                }
            }
        }
    }

    [Fact]
    public void SiteStiffness_ofTwoSites_doesNotDependOnWhichEndIsHeld()
    {
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Six, SegmentBench.Both);
        FramePlan plan = analyser.Plan;
        int bottom = plan.Stations.Length - 1;
        FrameSystem turned = new(new(plan.Nodes.Length, plan.Topology.Members, [new(0, Freedoms.All)]), SiteAnalysis.ColumnsFor(2));
        analyser.Writer.Write(plan, turned, new bool[plan.Clamps.Length]);
        Assert.True(turned.Factorise().IsStable);
        SiteAnalysis other = new(turned, bottom, plan.Sites.AsSpan());
        other.Run(turned.Node(bottom), analyser.SitePointsMm.AsSpan(), 100);
        for (int i = 0; i < 12; i++)
        {
            for (int j = 0; j < 12; j++)
            {
                double size = Math.Sqrt(analyser.Site.SiteStiffness[i, i] * analyser.Site.SiteStiffness[j, j]);
                Assert.Equal(0, (other.SiteStiffness[i, j] - analyser.Site.SiteStiffness[i, j]) / size, 1e-7);
            }
        }
    }

    [Fact]
    public void RigidFragments_motionsAtTheGaps_addUpToTheEndsMotion()
    {
        // Rigid bodies: the loaded end against the held one moves by both gaps' relative motions, each carried to the end.
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Six, SegmentBench.Both, Bench.TubeLimb with { BoneModel = RigidBone });
        for (int c = 0; c < 6; c++)
        {
            Motion sum = default;
            for (int s = 0; s < 2; s++)
            {
                SquareMatrix t = analyser.Site.EndToSite[s];
                sum += new Motion(new(t[0, c], t[1, c], t[2, c]), new(t[3, c], t[4, c], t[5, c])).At(-analyser.SitePointsMm[s]);
            }

            SquareMatrix end = analyser.Site.EndCompliance;
            double[] six = [sum.TranslationMm.X, sum.TranslationMm.Y, sum.TranslationMm.Z, sum.RotationRad.X, sum.RotationRad.Y, sum.RotationRad.Z];
            for (int i = 0; i < 6; i++)
            {
                Assert.Equal(0, (six[i] - end[i, c]) / Math.Sqrt(end[i, i] * end[c, c]), 1e-4);
            }
        }
    }

    [Fact]
    public void SymmetricBridge_rigidButForItsPins_closesBothGapsAlike()
    {
        // Rigid bone, rod and clamps; two pins of 5 mm steel in each fragment, fixed at the bone's surface R = 13.7 mm from its axis, free
        // over L = 50 mm, 60 mm apart. The middle fragment carries nothing and follows the rod; each outer one is held by two
        // built-in beams: ½(12EI/L³ δ² + 12EI/L² δφ + 4EI/L φ² + EA/L h²θ²) each, δ = u − Rθ, φ = −θ. Statics by hand.
        const double L = 50, R = 13.7, H = 30, E = 193_000;
        const double I = Math.PI * 625 / 64, A = Math.PI * 25 / 4;
        const double Uu = 2 * 12 * E * I / (L * L * L), Ut = 2 * E * I * ((-12 * R / (L * L * L)) - (6 / (L * L)));
        const double Tt = (2 * E * I * ((12 * R * R / (L * L * L)) + (12 * R / (L * L)) + (4 / L))) + (2 * E * A / L * H * H);
        Rod rod = new() { Id = "r1", DiameterMm = 40, Material = "rigid", From = new() { LevelMm = 40, AzimuthDeg = 19, StandoffMm = L }, To = new() { LevelMm = 322, AzimuthDeg = 19, StandoffMm = L }, OverhangMm = 20 };
        ImmutableArray<Fracture> gaps = [SegmentBench.Upper with { LevelMm = 127, GapMm = 5 }, SegmentBench.Upper with { LevelMm = 235, GapMm = 5 }];
        ModelOptions model = new() { PinFixity = new FixedAtSurface(), Clamp = new RigidClamp(), Beam = BeamChoice.EulerBernoulli };
        BoneShape bone = BoneShape.For(Bench.TubeLimb with { BoneModel = RigidBone with { YoungsModulusMPa = 1e8 } });
        FrameAnalyser analyser = new(bone, gaps, model, new MaterialTable([new() { Id = "rigid", YoungsModulusMPa = 2e7, ShearModulusMPa = 8e6, YieldMPa = 100 }]), new BoneFlexibility(bone, BeamTheory.EulerBernoulli));
        Assert.Equal(AnalysisStatus.Ok, analyser.Analyse(SegmentBench.On(rod, 51, 111, 151, 211, 251, 311)));

        double axial = Uu - (Ut * Ut / Tt);
        Assert.Equal(1, StiffnessReadout.AtFracture(analyser, 0).AxialNPerMm / axial, 1e-3);
        Assert.Equal(1, StiffnessReadout.AtFracture(analyser, 1).AxialNPerMm / axial, 1e-3);
    }

    [Fact]
    public void SiteStiffness_ofOneOfTwoFractures_isWhatItsOwnFacesMeet()
    {
        // With the other gap open: K_own − K_across·K_other⁻¹·K_acrossᵀ of the stiffness of both, which the compliance route never forms.
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Six, SegmentBench.Both);
        SquareMatrix all = analyser.Site.SiteStiffness, other = new(6), inverse = new(6);
        for (int i = 0; i < 6; i++)
        {
            for (int j = 0; j < 6; j++)
            {
                other[i, j] = all[i, j];
            }
        }

        Assert.True(other.TryInvertInto(inverse));
        ImmutableArray<ImmutableArray<double>> own = StiffnessReadout.ReadSite(analyser, 1)!.NMmRad;
        for (int i = 0; i < 6; i++)
        {
            for (int j = 0; j < 6; j++)
            {
                double left = all[6 + i, 6 + j];
                for (int p = 0; p < 6; p++)
                {
                    for (int q = 0; q < 6; q++)
                    {
                        left -= all[6 + i, p] * inverse[p, q] * all[q, 6 + j];
                    }
                }

                Assert.Equal(0, (own[i][j] - left) / Math.Sqrt(all[6 + i, 6 + i] * all[6 + j, 6 + j]), 1e-7);
            }
        }
    }

    [Fact]
    public void InternalForces_ofThreeFragments_areNumberedFromProximal()
    {
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Six, SegmentBench.Both);
        var forces = new InternalForces(analyser, new(analyser), EndLoad.Compression(100)).All();

        Assert.Equal(["fragment1", "fragment2", "fragment3"], forces.Select(f => f.Part).Where(p => p.StartsWith("fragment", StringComparison.Ordinal)));
        Assert.Equal(
            ["distal face of fracture 1", "pin p3", "pin p4", "proximal face of fracture 2"],
            forces.Single(f => f.Part == "fragment2").Stations.Select(s => s.Place).Distinct());
    }

    [Fact]
    public void OpenGaps_leaveTheFacesWithoutForce()
    {
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Six, SegmentBench.Both);
        var middle = new InternalForces(analyser, new(analyser), EndLoad.Compression(100)).All().Single(f => f.Part == "fragment2").Stations;

        Assert.Equal(0, middle[0].AxialN, 1e-5);
        Assert.Equal(0, middle[^1].BendingNm, 1e-5);
    }

    [Fact]
    public void Variants_ofATwoFractureFrame_areAnalysedWithoutAllocation()
    {
        FrameAnalyser analyser = SegmentBench.Analyser(SegmentBench.Both);
        Parts[] variants = [.. new[] { 4.7, 5.1, 5.6 }.Select(d => SegmentBench.Six with { Pins = [.. SegmentBench.Six.Pins.Select(p => p with { DiameterMm = d })] })];
        foreach (Parts v in variants)
        {
            analyser.Analyse(v);
        }

        long before = GC.GetAllocatedBytesForCurrentThread();
        foreach (Parts v in variants)
        {
            analyser.Analyse(v);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    private static TubeBone RigidBone => Bench.Tube with { YoungsModulusMPa = 1e9 };

    private static double[] Free(FrameAnalyser analyser) => [.. analyser.Site.EndToSite.SelectMany(t =>
        Enumerable.Range(0, 6).Select(r => Enumerable.Range(0, 6).Sum(c => t[r, c] * _load[c])))];

    private static void Write(SquareMatrix to, int at, in MemberStiffness k)
    {
        double[] n = Values(k.ForcePerTranslation), q = Values(k.ForcePerRotation), m = Values(k.MomentPerRotation);
        for (int r = 0; r < 3; r++)
        {
            for (int c = 0; c < 3; c++)
            {
                to[at + r, at + c] = n[(3 * r) + c];
                to[at + r, at + 3 + c] = to[at + 3 + c, at + r] = q[(3 * r) + c];
                to[at + 3 + r, at + 3 + c] = m[(3 * r) + c];
            }
        }
    }

    private static double[] Values(in Mat3 m) => [m.XX, m.XY, m.XZ, m.YX, m.YY, m.YZ, m.ZX, m.ZY, m.ZZ];
}
