using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability;
using Halfpin.Stability.Variants;
using Halfpin.Storage.Cases;
using Halfpin.Studies.Inputs;
using Halfpin.Studies.Uncertainty;
using Xunit;

namespace Halfpin.Studies.Tests;

/// <summary>The wall of the parametric tibia as an input of studies.</summary>
public class WallStudyTests
{
    private static readonly Case _demo = Read("01-oblique-fracture.json");
    private static readonly Parts _parts = new Assessor(_demo).PartsOf(_demo.Frames.First(f => f.Id == "near-far"));

    // Handbook, anatomy section 6: canal and wall are a model from memory; sweep wall ± 30 % in the uncertainty study.
    [Fact]
    public void Inputs_ofAnAnatomicalBone_holdTheWallAsTheHandbookAsks()
    {
        StudyInput wall = DefaultInputs.Of(_demo, [_parts]).Single(i => i.Name == UncertainInputs.BoneWall);

        Assert.Equal((1, 0.7, 1.3, "MEMORY"), (wall.Nominal, wall.Spread.Low, wall.Spread.High, wall.Tag));
    }

    [Fact]
    public void Inputs_ofATube_holdNoWall()
    {
        Case bench = Read("02-bench-comparators.json");

        Assert.DoesNotContain(DefaultInputs.Of(bench, [new Assessor(bench).PartsOf(bench.Frames[0])]), i => i.Name == UncertainInputs.BoneWall);
    }

    [Fact]
    public void Inputs_whereTheCaseNamesTheWall_takeItsSpread()
    {
        Case own = _demo with { Uncertainty = [new() { Input = UncertainInputs.BoneWall, Distribution = Spread.Triangular, Low = 0.62, Mode = 0.8, High = 1.04 }] };

        StudyInput wall = DefaultInputs.Of(own, [_parts]).Single(i => i.Name == UncertainInputs.BoneWall);
        Assert.Equal((1, 0.62, "GIVEN"), (wall.Nominal, wall.Spread.Low, wall.Tag));
    }

    [Fact]
    public void Wall_ofTheModel_givesTheResultsOfTheAssessment()
    {
        VariantAssessor assessor = new();
        _ = Of(assessor, 0.81);
        VariantResult found = Of(assessor, 1);
        FrameAssessment told = new Assessor(_demo).Assess("near-far", new("halfpin", "test"), "").Frames[0];

        Assert.Equal(told.Stiffness!.AtFracture, found.Stiffness);
        Assert.Equal(told.Motion, found.Motion);
        Assert.Equal(told.FirstLimit!.LoadKg, found.FirstLimitKg);
    }

    // More bone of the same outer shape, and longer grip of every pin in both cortices.
    [Fact]
    public void Wall_thicker_stiffensTheFrameInEveryWay()
    {
        FourStiffnesses thin = Of(new(), 0.73).Stiffness!, thick = Of(new(), 1.26).Stiffness!;

        Assert.True(thick.AxialNPerMm > thin.AxialNPerMm && thick.ApBendingNmPerDeg > thin.ApBendingNmPerDeg && thick.MlBendingNmPerDeg > thin.MlBendingNmPerDeg && thick.TorsionNmPerDeg > thin.TorsionNmPerDeg);
    }

    // What is remembered of a wall and of the placement under it never reaches a row of another.
    [Fact]
    public void Walls_toAndFro_giveTheResultsOfFreshAssessors()
    {
        VariantAssessor kept = new();
        foreach ((double wall, double moduli) in new[] { (0.71, 1.0), (1.29, 0.93), (0.71, 0.93), (1, 1), (0.71, 1.0), (1.13, 1.07), (1.29, 1), (1.13, 1.07) })
        {
            VariantResult one = Of(kept, wall, moduli), fresh = Of(new(), wall, moduli);
            Assert.Equal(fresh.Stiffness, one.Stiffness);
            Assert.Equal(fresh.Motion, one.Motion);
            Assert.Equal(fresh.WorstUtilisation, one.WorstUtilisation);
            Assert.Equal(fresh.Verdicts.AsEnumerable(), one.Verdicts);
        }
    }

    // A pin that ends within the far cortex holds it or not by the thickness of its wall: at 30 mm from the joint line some 3 mm.
    [Fact]
    public void Placement_ofAPinThatEndsInTheFarCortex_isJudgedOnTheWallOfTheRow()
    {
        Parts shallow = _parts with { Pins = [.. _parts.Pins.Select(p => p with { TipBeyondMm = -2.9 })] };

        Assert.Equal(FrameStatus.Invalid, new VariantAssessor().Assess(new(_demo, shallow) { BoneWallShare = 0.7 }).Status);
        Assert.NotEqual(FrameStatus.Invalid, new VariantAssessor().Assess(new(_demo, shallow) { BoneWallShare = 1.3 }).Status);
    }

    [Fact]
    public void Report_ofTheDemo_namesTheWallAmongItsInputs()
    {
        UncertaintyStudy study = new(UncertaintyStudy.Plan(_demo, "", "near-far", null, 600, 3)!, 600, null, 2);
        while (!study.IsFinished)
        {
            study.Next();
        }

        UncertaintyReport report = study.Report(new("halfpin", "test"));
        Assert.Contains(report.Inputs, i => i is { Input: "boneWallShare", Spread: "uniform 0.7–1.3", Nominal: 1 });
        Assert.Contains(report.Indices, i => i is { Input: "boneWallShare", Output: "axialNPerMm", Total: > 0 });
    }

    private static VariantResult Of(VariantAssessor assessor, double wall, double moduli = 1) =>
        assessor.Assess(new(_demo, _parts) { BoneWallShare = wall, BoneModuliShare = moduli });

    private static Case Read(string example) => new CaseReader(CaseValidity.Rules).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", example))).Case!;
}
