using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Halfpin.Studies.Uncertainty;
using Xunit;

namespace Halfpin.Studies.Tests;

public class SharedStudyTests
{
    private static readonly ProgramStamp _stamp = new("halfpin", "test");
    private static readonly Case _demo = new CaseReader(CaseValidity.Rules).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", "01-oblique-fracture.json"))).Case!;

    [Fact]
    public void Study_onOneAndOnTwoThreads_givesTheSameFigures()
    {
        SharedReport one = Study(_demo, 1, 70, "near-far", "two-plane"), two = Study(_demo, 2, 70, "near-far", "two-plane");
        Assert.Equal(one.Frames.SelectMany(f => f.Results), two.Frames.SelectMany(f => f.Results));
        Assert.Equal(one.Pairs.SelectMany(p => p.Stiffer), two.Pairs.SelectMany(p => p.Stiffer));
    }

    [Fact]
    public void Frames_alike_haveTheSameBandsAndAreNeverStifferThanEachOther()
    {
        Case twins = _demo with { Frames = [.. _demo.Frames, _demo.Frames.First(f => f.Id == "near-far") with { Id = "twin" }] };
        SharedReport report = Study(twins, 2, 50, "near-far", "twin");
        Assert.Equal(report.Frames[0].Results.AsEnumerable(), report.Frames[1].Results);
        Assert.All(report.Pairs.SelectMany(p => p.Stiffer), s => Assert.Equal(0, s.Probability));
    }

    // Nearer the bone is stiffer whatever parts and bone are: with the same draws it shows in every one.
    [Fact]
    public void Frame_nearerTheBone_isStifferInEveryDrawAlongTheBone()
    {
        SharedReport report = Study(_demo, 2, 90, "near-far", "near-far-close");
        StifferProbability axial = report.Pairs.Single(p => p.Frame == "near-far-close").Stiffer.Single(s => s.Output == "axialNPerMm");
        Assert.Equal((1, 90), (axial.Probability, axial.Pairs));
        Assert.Equal(0, report.Pairs.Single(p => p.Frame == "near-far").Stiffer.Single(s => s.Output == "axialNPerMm").Probability);
    }

    [Fact]
    public void OneFrameStiffer_andTheOther_neverAddUpToMoreThanAll()
    {
        SharedReport report = Study(_demo, 2, 64, "far-far", "near-far", "three-pins");
        Assert.Equal(6, report.Pairs.Length);
        foreach (FramePair pair in report.Pairs)
        {
            FramePair back = report.Pairs.Single(p => p.Frame == pair.Against && p.Against == pair.Frame);
            Assert.All(pair.Stiffer.Zip(back.Stiffer), s => Assert.InRange(s.First.Probability!.Value + s.Second.Probability!.Value, 0, 1));
        }
    }

    // The same inputs, drawn by another sequence: medians and ends of bands agree within what chance leaves.
    [Fact]
    public void Bands_ofAFrame_agreeWithTheStudyOfThatFrameAlone()
    {
        UncertaintyStudy alone = new(UncertaintyStudy.Plan(_demo, "", "near-far", null, 4000, 5)!, 4000, null, 2);
        while (!alone.IsFinished)
        {
            alone.Next();
        }

        UncertaintyReport theirs = alone.Report(_stamp);
        FrameBands ours = Study(_demo, 2, 512, "near-far").Of("near-far")!;
        foreach ((UncertainResult a, UncertainResult b) in theirs.Results.Zip(ours.Results).Where(r => r.First.Name.EndsWith("PerMm", StringComparison.Ordinal) || r.First.Name.EndsWith("PerDeg", StringComparison.Ordinal)))
        {
            Assert.Equal(a.Name, b.Name);
            Assert.Equal(a.Nominal!.Value, b.Nominal!.Value, 1e-9 * a.Nominal.Value);
            Assert.InRange(b.Median!.Value / a.Median!.Value, 0.95, 1.05);
            Assert.InRange(b.P5!.Value / a.P5!.Value, 0.85, 1.15);
            Assert.InRange(b.P95!.Value / a.P95!.Value, 0.85, 1.15);
        }
    }

    [Fact]
    public void Frame_thatIsFree_hasNilAlongItsFreedomInEveryDraw()
    {
        FrameBands free = Study(_demo, 2, 20, "double-rod-dynamised").Frames[0];
        UncertainResult axial = free.Results.Single(r => r.Name == "axialNPerMm");
        Assert.Equal((0, 0, 0), (axial.Median, axial.P5, axial.P95));
        Assert.Equal(0, free.Failed);
    }

    private static SharedReport Study(Case value, int threads, int samples, params string[] frames)
    {
        SharedStudy study = new(value, [.. frames], samples, 3, threads);
        while (!study.IsFinished)
        {
            study.Next();
        }

        return study.Report();
    }
}
