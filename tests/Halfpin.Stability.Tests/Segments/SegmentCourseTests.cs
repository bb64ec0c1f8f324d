using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Condensation;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Dynamisation;
using Halfpin.Stability.Healing;
using Xunit;

namespace Halfpin.Stability.Tests.Segments;

/// <summary>Healing and stages of two fractures.</summary>
public class SegmentCourseTests
{
    private static readonly ImmutableArray<Fracture> _both = SegmentBench.Both;

    private static readonly Case _case = Bench.CaseOf(new Frame { Id = "f", Parts = SegmentBench.Six }, 7) with
    {
        Limb = Bench.TibiaLimb,
        Fractures = _both,
        Healing = new() { Weeks = [new() { Week = 3, CallusModulusMPa = 1.7 }] },
    };

    // Callus as springs L beside the frame's K: (K + L)·d = K·T·w for all twelve motions, solved here at once.
    [Fact]
    public void Callus_atBothFractures_movesAsSpringsBesideTheFrame()
    {
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Six, _both);
        SquareMatrix layer = new(12), sum = new(12), inverse = new(12), k = analyser.Site.SiteStiffness;
        for (int f = 0; f < 2; f++)
        {
            new CallusDisc(BoneShape.For(Bench.TibiaLimb), _both[f], _case.Healing).Write(1.7, layer, f);
        }

        for (int i = 0; i < 144; i++)
        {
            sum[i / 12, i % 12] = k[i / 12, i % 12] + layer[i / 12, i % 12];
        }

        Assert.True(sum.TryInvertInto(inverse));
        double[] free = [.. Enumerable.Range(0, 12).Select(r => -7 * 9.81 * analyser.Site.EndToSite[r / 6][r % 6, 2])];
        double[] held = [.. Enumerable.Range(0, 12).Select(r => Enumerable.Range(0, 12).Sum(c => k[r, c] * free[c]))];
        double[] d = [.. Enumerable.Range(0, 12).Select(r => Enumerable.Range(0, 12).Sum(c => inverse[r, c] * held[c]))];
        HealingWeekResult week = Assert.Single(Heal(_case).Weeks);

        Assert.Equal(d[2], week.Fractures[0].Motion!.AxialMm, 1e-6 * Math.Abs(d[2]));
        Assert.Equal(d[8], week.Fractures[1].Motion!.AxialMm, 1e-6 * Math.Abs(d[8]));
        Assert.Equal(d[11] * 180 / Math.PI, week.Fractures[1].Motion!.TwistDeg, 1e-6 * Math.Abs(d[11]));

        // What callus carries along the axis is its stiffness times its closing.
        double carried = -layer[8, 8] * d[8] / (7 * 9.81);
        Assert.Equal(1 - carried, week.Fractures[1].FrameLoadShare!.Value, 1e-6);
    }

    [Fact]
    public void Week_ofTwoFractures_namesTheMoreStrainedAndSpeaksOfTheFirst()
    {
        HealingWeekResult week = Assert.Single(Heal(_case).Weeks);
        double?[] strain = [.. week.Fractures.Select(f => f.Motion!.StrainPercent)];

        Assert.Equal(strain[0] > strain[1] ? 1 : 2, week.MostStrainedFracture);
        Assert.Equal(week.Fractures[0].Motion, week.Motion);
        Assert.Equal(week.Fractures[0].CallusBendingNmPerDeg, week.CallusBendingNmPerDeg);
        Assert.NotEqual(week.Fractures[0].CallusBendingNmPerDeg, week.Fractures[1].CallusBendingNmPerDeg);
    }

    [Fact]
    public void Healing_ofTwoFractures_saysThatOnePaceIsAssumed() =>
        Assert.Contains(Heal(_case).Assumptions, a => a is { Name: "Pace of several fractures", Tag: "ASSUMED" });

    [Fact]
    public void Healing_whereOneOfTwoGapsIsNothing_namesIt()
    {
        HealingReport report = Heal(_case with { Fractures = [_both[0], _both[1] with { GapMm = 0 }] });

        Assert.Empty(report.Weeks);
        Assert.Contains("at fracture 2", report.Frames[0].Diagnosis!.Message, StringComparison.Ordinal);
    }

    // The distal fragment is let slide along both rods: the load reaches neither fracture until bone bears, so all axial stiffness is freed.
    [Fact]
    public void Stage_ofTwoFractures_keepsAtEachWhatAssessSays()
    {
        Case value = _case with
        {
            Fractures = [_both[0], _both[1] with { GapMm = 2.1, Contact = true, TiltDeg = 31, TiltAzimuthDeg = 57 }],
            Frames = [new() { Id = "f", Parts = SegmentBench.Twin }],
            Stages = [new() { Id = "s", Frame = "f", Loosen = ["c5", "c6", "d5", "d6"] }],
        };
        StageResult[] stages = [.. new DynamisationAssessor(value).Assess(null, new("halfpin", "test"), "").Stages];
        FrameAssessment before = Bench.Assess(value), after = Bench.Assess(value with { Frames = [new() { Id = "f", Parts = SegmentBench.Loosened(SegmentBench.Twin, "c5", "c6", "d5", "d6") }] });

        Assert.Equal(2, stages[1].Fractures.Length);
        for (int f = 0; f < 2; f++)
        {
            Assert.Equal(after.Fractures[f].AtFracture.MlBendingNmPerDeg / before.Fractures[f].AtFracture.MlBendingNmPerDeg, stages[1].Fractures[f].Kept!.Ml, 1e-9);
            Assert.Equal(after.Fractures[f].Motion, stages[1].Fractures[f].Motion);
            Assert.Equal(0, stages[1].Fractures[f].Kept!.Axial);
        }

        Assert.Equal(stages[1].Fractures.MinBy(f => f.Kept!.LeastShare()), stages[1].Fractures[stages[1].LeastKeptFracture!.Value - 1]);
        Assert.Contains(stages[1].Warnings, w => w.StartsWith("Fracture 2: ", StringComparison.Ordinal));
    }

    [Fact]
    public void MiddleFragment_leftOnOnePin_isWarnedAbout()
    {
        Case value = _case with { Stages = [new() { Id = "s", Frame = "f", Remove = ["p4"] }] };

        Assert.Contains("The middle fragment is left on one pin.", new DynamisationAssessor(value).Assess(null, new("halfpin", "test"), "").Stages[1].Warnings);
    }

    private static HealingReport Heal(Case value) => new HealingAssessor(value).Assess(null, new("halfpin", "test"), "");
}
