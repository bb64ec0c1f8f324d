using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Validity;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Healing;
using Halfpin.Stability.Movement;
using Halfpin.Stability.Tests.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Healing;

/// <summary>Callus as an elastic disc, against closed forms, derived figures and the whole frame with a member in its gap.</summary>
public class HealingTests
{
    private static readonly Fracture _gap = Bench.Gap with { GapMm = 2.3, Contact = true };

    // The bone of the derived figures: 28/14 mm, A 462 mm², I 28 300 mm⁴.
    private static readonly TubeShape _round = new(360, new() { OuterDiameterMm = 28, InnerDiameterMm = 14, YoungsModulusMPa = 17_000, PoissonRatio = 0.3 });

    private static readonly DoubleRod _dynamised = new()
    {
        Placement = PinPlacement.FarFar,
        FarMm = 97,
        AzimuthDeg = 23,
        StandoffMm = 37,
        RodSpacingMm = 31,
        Pin = Bench.Pin,
        Rod = Bench.Rod,
        Dynamised = true,
    };

    // DERIVED in the mechanics notes: axial stiffness of the gap's disc, 2 mm high; print rounding.
    [Theory]
    [InlineData(0.2, 46, 0.5)]
    [InlineData(1, 231, 0.5)]
    [InlineData(10, 2310, 5)]
    public void Disc_2MmHigh_hasTheDerivedAxialStiffness(double modulusMPa, double nPerMm, double rounding) =>
        Assert.Equal(nPerMm, Stiffness(_round, 2, modulusMPa)[2, 2], rounding);

    // DERIVED in the mechanics notes: the modulus at which the disc bends with 15 N·m/deg; print rounding of half a MPa.
    [Theory]
    [InlineData(2, 61)]
    [InlineData(5, 152)]
    [InlineData(10, 304)]
    public void Disc_ofTheDerivedModulus_bendsWith15NmPerDeg(double gapMm, double modulusMPa)
    {
        CallusBending b = Disc(_round, gapMm).Bending(modulusMPa);

        Assert.Equal(15, b.Ap, 15 * 0.5 / modulusMPa);
        Assert.Equal(b.Ap, b.Ml, 1e-9);
    }

    [Fact]
    public void Disc_inTorsionAndShear_followsGJAndGAOverItsHeight()
    {
        SquareMatrix k = Stiffness(_round, 2.7, 31);
        double g = 31 / 2.6, j = Math.PI / 32 * (Math.Pow(28, 4) - Math.Pow(14, 4)), a = Math.PI / 4 * ((28 * 28) - (14 * 14));

        Assert.Equal(g * j / 2.7, k[5, 5], 1e-6);
        Assert.Equal(g * a / 2.7, k[0, 0], 1e-9);
    }

    [Fact]
    public void DiscOfATibia_turnedAboutAnyAxis_takesTheWorkOfItsColumns()
    {
        // ½θᵀKθ against ½∫E/g·(r_x·y − r_y·x)²dA over the wall in small sectors, about its centroid. The outline turns a bone's two
        // bending planes into each other, so the sign of the product of inertia shows.
        const int Sectors = 3600;
        BoneShape tibia = BoneShape.For(Bench.TibiaLimb);
        SquareMatrix k = Stiffness(tibia, 3.1, 47);
        double rx = Math.Cos(0.7), ry = Math.Sin(0.7), area = 0, first = 0, second = 0;
        for (int i = 0; i < Sectors; i++)
        {
            double azimuth = (i + 0.5) * 360 / Sectors, outer = tibia.OuterRadiusMm(181, azimuth), canal = tibia.CanalRadiusMm(181, azimuth);
            double across = (rx * Math.Sin(azimuth * Math.PI / 180)) - (ry * Math.Cos(azimuth * Math.PI / 180)), d = 2 * Math.PI / Sectors;
            area += d * (Math.Pow(outer, 2) - Math.Pow(canal, 2)) / 2;
            first += d * across * (Math.Pow(outer, 3) - Math.Pow(canal, 3)) / 3;
            second += d * across * across * (Math.Pow(outer, 4) - Math.Pow(canal, 4)) / 4;
        }

        double work = 47 / 3.1 * (second - (first * first / area));

        // Outlines are polygons: 0.2 % at most.
        Assert.Equal(1, ((k[3, 3] * rx * rx) + (2 * k[3, 4] * rx * ry) + (k[4, 4] * ry * ry)) / work, 2e-3);
        Assert.True(Math.Abs(2 * k[3, 4] * rx * ry) / work > 0.01);
    }

    [Fact]
    public void Collar_ofATube_isARingFromItsCanal()
    {
        SquareMatrix k = Stiffness(_round, 2, 7, collarMm: 43);

        // Canal as a polygon of 360 corners: 5e-5 of its area.
        Assert.Equal(7 / 2.0 * Math.PI / 4 * ((43 * 43) - (14 * 14)), k[2, 2], 0.05);
        Assert.Equal(7 / 2.0 * Math.PI / 64 * (Math.Pow(43, 4) - Math.Pow(14, 4)), k[3, 3], 5.0);
    }

    public static TheoryData<Construct, EndLoad, double> Loaded => new()
    {
        { Bench.NearFar, EndLoad.Compression(130), 0.7 },
        { Bench.NearFar with { AzimuthDeg = 57 }, new(9, -4, -110, 700, 1900, -1300), 13 },
        { _dynamised, EndLoad.Compression(170), 3 },
        { _dynamised, new(0, 0, -170, 900, -600, 1200), 900 },
    };

    [Theory]
    [MemberData(nameof(Loaded))]
    public void Faces_withCallus_moveAsInTheWholeFrameWithAMemberInItsGap(Construct construct, EndLoad load, double modulusMPa)
    {
        FrameAnalyser analyser = Bench.Analysed(Bench.PartsOf(construct, _gap), fracture: _gap);
        FractureContact contact = new(analyser);
        SquareMatrix k = Stiffness(BoneShape.For(Bench.TubeLimb), 2.3, modulusMPa);
        SiteState state = contact.Under(load, k);
        FullModel full = new(analyser, contact.Rings, state, Spring.Stiffness(
            analyser.SitePointMm, Mat3.Identity, new(k[0, 0], k[1, 1], k[2, 2]), new(k[3, 3], k[4, 4], k[5, 5])));

        double size = full.Faces.TranslationMm.Length + (100 * full.Faces.RotationRad.Length);
        Assert.Equal(0, (full.Faces.TranslationMm - state.Faces.TranslationMm).Length / size, 1e-5);
        Assert.Equal(0, 100 * (full.Faces.RotationRad - state.Faces.RotationRad).Length / size, 1e-5);
    }

    [Fact]
    public void DynamisedFrame_withCallus_restsOnItByEAOverG()
    {
        // The frame gives way along the axis: callus alone carries the load there, u = P·g/(E·A).
        HealingWeekResult w = Weeks(CaseOf(_dynamised, 17, (9, 3, null)))[0];
        double area = Math.PI / 4 * ((27.4 * 27.4) - (13.6 * 13.6));

        Assert.Equal(-17 * 9.81 * 2.3 / (3 * area), w.Motion!.AxialMm, 1e-9);
        Assert.Equal(0, w.FrameLoadShare!.Value, 1e-9);
    }

    [Fact]
    public void VerySoftCallus_leavesTheOpenGapsAnswer()
    {
        FractureMotion open = Bench.Assess(Bench.CaseOf(Bench.NearFar, 6, _gap)).Motion!;
        HealingWeekResult w = Weeks(CaseOf(Bench.NearFar, 6, (0, 0.001, null)))[0];

        Assert.Equal(1, w.Motion!.AxialMm / open.AxialMm, 0.01);
        Assert.InRange(w.FrameLoadShare!.Value, 0.99, 1);
    }

    [Fact]
    public void FrameLoadShare_asCallusStiffens_falls()
    {
        double[] shares = [.. Weeks(Bench.CaseOf(Bench.NearFar, 6, _gap)).Select(w => w.FrameLoadShare!.Value)];

        Assert.Equal(5, shares.Length);
        Assert.Equal(shares.OrderDescending(), shares);
        Assert.True(shares[0] > 0.5 && shares[^1] < 0.01);
    }

    [Fact]
    public void Strain_atTheTwoCortices_isTheirClosingOverTheGap()
    {
        HealingWeekResult w = Weeks(CaseOf(Bench.NearFar, 6, (3, 1.7, null)))[0];

        Assert.Equal(100 * w.Motion!.ClosingNearMm / 2.3, w.StrainNearPercent!.Value, 1e-9);
        Assert.Equal(100 * w.Motion.ClosingFarMm / 2.3, w.StrainFarPercent!.Value, 1e-9);
        Assert.True(w.StrainFarPercent > w.StrainNearPercent);
    }

    [Fact]
    public void Load_ofAWeek_isItsOwnOrTheCases()
    {
        HealingWeekResult[] weeks = Weeks(CaseOf(Bench.NearFar, 6, (3, 1.7, null), (9, 20, 31)));

        Assert.Equal([6, 31], weeks.Select(w => w.LoadKg));
        Assert.Equal(31 * 9.81, weeks[1].Motion!.LoadN, 1e-9);
    }

    [Fact]
    public void Margin_isWhatTheNearestLimitLeaves()
    {
        HealingWeekResult w = Weeks(CaseOf(Bench.NearFar, 6, (3, 1.7, null)))[0];

        Assert.Equal(100 * (1 - w.NearestLimit!.Value), w.MarginPercent!.Value, 1e-9);
    }

    [Fact]
    public void WithoutLoad_theShareIsThatOfASmallOneAndThereIsNoMargin()
    {
        HealingWeekResult idle = Weeks(CaseOf(Bench.NearFar, 0, (3, 1.7, null)))[0], loaded = Weeks(CaseOf(Bench.NearFar, 2, (3, 1.7, null)))[0];

        Assert.Equal(loaded.FrameLoadShare!.Value, idle.FrameLoadShare!.Value, 1e-9);
        Assert.Null(idle.Motion!.FrameShare);
        Assert.Null(idle.MarginPercent);
    }

    [Fact]
    public void Load_thatOnlyFirmCallusBears_isWithheldUntilThen()
    {
        HealingReport report = Report(CaseOf(Bench.NearFar with { StandoffMm = 120 }, 120, (1, 0.01, null), (30, 900, null)) with { Fractures = [_gap with { Contact = false }] });

        Assert.Equal(FrameStatus.OutOfRange, report.Frames[0].Status);
        Assert.Null(report.Weeks[0].Motion);
        Assert.Null(report.Weeks[0].FrameLoadShare);
        Assert.Contains("rotate", report.Weeks[0].Diagnosis!.Message, StringComparison.Ordinal);
        Assert.NotNull(report.Weeks[1].Motion);
    }

    [Fact]
    public void GapOfNothing_isDiagnosedAndHasNoWeeks()
    {
        HealingReport report = Report(Bench.CaseOf(Bench.NearFar, 6, _gap with { GapMm = 0 }));

        Assert.Equal(FrameStatus.Invalid, report.Frames[0].Status);
        Assert.Contains("no gap", report.Frames[0].Diagnosis!.Message, StringComparison.Ordinal);
        Assert.Empty(report.Weeks);
    }

    [Fact]
    public void Mechanism_isDiagnosedAndHasNoWeeks()
    {
        Parts parts = Bench.PartsOf(Bench.NearFar, _gap);
        HealingReport report = Report(Bench.CaseOf(new Frame { Id = "f", Parts = parts with { Clamps = [.. parts.Clamps.Take(2)] } }, 6, _gap));

        Assert.Equal(FrameStatus.Mechanism, report.Frames[0].Status);
        Assert.Empty(report.Weeks);
    }

    [Fact]
    public void PublishedThreshold_comesWithItsFailuresAndSource()
    {
        RemovalThreshold t = Report(Bench.CaseOf(Bench.NearFar, 6, _gap)).RemovalThreshold;

        Assert.Equal(15, t.BendingNmPerDeg);
        Assert.Contains("4 of 76", t.Failures, StringComparison.Ordinal);
        Assert.Equal("READ", t.Tag);
    }

    [Fact]
    public void Report_saysTheSafetyNoteAndThatItsWeeksAreAssumed()
    {
        HealingReport report = Report(Bench.CaseOf(Bench.NearFar, 6, _gap));

        Assert.Equal(Safety.Note, report.SafetyNote);
        Assert.Contains(report.Assumptions, a => a is { Name: "Weeks of healing", Tag: "ASSUMED", FromCase: false });
        Assert.Single(report.Assumptions, a => a.Name.Contains("Strength of callus", StringComparison.Ordinal));
        Assert.DoesNotContain(report.Assumptions, a => a.Name == "Callus");
    }

    [Fact]
    public void CollarWithinTheBone_isAFaultThatSaysHowWideTheBoneIs()
    {
        Case value = Bench.CaseOf(Bench.NearFar, 6, _gap) with { Healing = new() { CollarDiameterMm = 21 } };
        Fault fault = Assert.Single(HealingRules.Check(value));

        Assert.Equal("/healing/collarDiameterMm", fault.Pointer);
        Assert.Contains("27.4", fault.Allowed, StringComparison.Ordinal);
    }

    private static Case CaseOf(Construct construct, double allowedKg, params (double Week, double ModulusMPa, double? LoadKg)[] weeks) =>
        Bench.CaseOf(construct, allowedKg, _gap) with
        {
            Healing = new() { Weeks = [.. weeks.Select(w => new HealingWeek { Week = w.Week, CallusModulusMPa = w.ModulusMPa, LoadKg = w.LoadKg })] },
        };

    private static HealingReport Report(Case value) => new HealingAssessor(value).Assess(null, new("halfpin", "test"), "");

    private static HealingWeekResult[] Weeks(Case value) => [.. Report(value).Weeks];

    private static CallusDisc Disc(BoneShape bone, double gapMm, double? collarMm = null) =>
        new(bone, Bench.Gap with { GapMm = gapMm }, new() { CollarDiameterMm = collarMm });

    private static SquareMatrix Stiffness(BoneShape bone, double gapMm, double modulusMPa, double? collarMm = null)
    {
        SquareMatrix k = new(6);
        Disc(bone, gapMm, collarMm).Write(modulusMPa, k);
        return k;
    }
}
