using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Studies.Uncertainty;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Comparing;
using Halfpin.Workbench.Runs;
using Halfpin.Workbench.Uncertain;
using Halfpin.Workbench.Varying;
using Xunit;

namespace Halfpin.Workbench.Tests.Comparing;

/// <summary>What the pages of studies and of the comparison say of a case with two fractures.</summary>
public class SegmentTests
{
    private static readonly Case _case = Examples.Segmental;
    private static readonly ProgramStamp _program = new("halfpin", "test");
    private static readonly FrameAnswers _answers = new(_program);
    private static readonly ImmutableArray<Frame> _held = ComparisonWriter.Chosen(_case, "one-rod,two-rods");

    [Fact]
    public void Comparison_tellsStiffnessAndMovementOfEachFracture()
    {
        ComparisonView view = ComparisonWriter.Of(_case, _held, _answers);

        Assert.Equal(["Stiffness at fracture 1", "Movement of fracture 1 at 5 kg", "Stiffness at fracture 2", "Movement of fracture 2 at 5 kg", "Limits and parts"], view.Results.Select(g => g.Name));
        Assert.Equal(Numbers(0), Cell(view, 0, "axialNPerMm@1").Text);
        Assert.Equal(Numbers(1), Cell(view, 2, "axialNPerMm@2").Text);
        Assert.Equal(8, view.Panels.Length);
        Assert.Equal("Fracture 2: axial", view.Panels[4].Label);
    }

    // An assessment puts its bands about the first fracture only; the page says so.
    [Fact]
    public void Comparison_withoutAStudy_hasBandsOfTheFirstFractureAndSaysSo()
    {
        ComparisonView view = ComparisonWriter.Of(_case, _held, _answers);

        Assert.NotEmpty(Cell(view, 0, "axialNPerMm@1").Band);
        Assert.Empty(Cell(view, 2, "axialNPerMm@2").Band);
        Assert.Contains("at the first fracture", view.BandWords, StringComparison.Ordinal);
    }

    [Fact]
    public void Comparison_ofAFrameThatLeavesAFragmentFree_tellsWhyItHasNoNumbers() =>
        Assert.Equal("does not hold", Cell(ComparisonWriter.Of(_case, _case.Frames, _answers), 2, "axialNPerMm@2").Text);

    [Fact]
    public async Task Bands_ofAStudy_standAtEachFractureAndChancesGoByTheWorst()
    {
        SharedBandsRun run = new(TimeProvider.System);
        await run.Start(_case, ["one-rod", "two-rods"], 128).Running!;
        RunResult<SharedReport> result = run.Run.Result!;
        ComparisonView view = ComparisonWriter.Of(_case, _held, _answers, result.Report);
        SharedBandsView bands = SharedBandsWriter.Of(result, _case, _held, "one-rod");

        Assert.Contains("median", Cell(view, 0, "axialNPerMm@1").Band, StringComparison.Ordinal);
        Assert.Contains("median", Cell(view, 2, "torsionNmPerDeg@2").Band, StringComparison.Ordinal);
        Assert.Contains("the fracture where each frame is least stiff", bands.Words, StringComparison.Ordinal);
        Assert.Contains("loads of its own is not in it", bands.Words, StringComparison.Ordinal);
        Assert.Equal("100 %", bands.Chances.Single().Cells[0].Text);
        Assert.Contains(",median.axialNPerMm@2,", ComparisonCsv.Of(_case, _held, _answers, result.Report), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Variation_hasColumnsOfEachFractureAndMarksTheWorst()
    {
        VaryRun run = new(_program, TimeProvider.System);
        await run.Start(_case, new("one-rod", [new("/parts/pins/2/levelMm", 160, 172, 4)])).Running!;
        VariationView view = VariationWriter.Of(run.Run.Result!, _case);
        int first = view.Headings.IndexOf("Fracture 1: axial, N/mm"), second = view.Headings.IndexOf("Fracture 2: axial, N/mm");

        Assert.True(first > 0 && second > first);
        Assert.All(view.Rows, r => Assert.True(r.Cells[first].EndsWith('*') != r.Cells[second].EndsWith('*')));
        Assert.Contains("axial stiffness at the fracture where it is least goes from", view.Headline, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Uncertainty_namesTheFractureOfEveryBand()
    {
        UncertaintyRun run = new(_program, TimeProvider.System);
        await run.Start(_case, new("one-rod", "two-rods", 400, 3)).Running!;
        UncertaintyView view = UncertaintyWriter.Of(run.Run.Result!, _case);

        Assert.Contains(view.Bands, b => b.Label == "Fracture 2: axial stiffness, N/mm");
        Assert.Contains(view.Influences, g => g.Label == "Fracture 1: AP bending");
        Assert.Matches("axial stiffness at fracture [12], where it is least, [0-9.]+ N/mm", view.Headline);
        Assert.Equal(["Axial stiffness", "AP bending", "ML bending", "Torsion"], view.Ranking.Select(r => r.Label));
        Assert.Equal("axial-stiffness", ResultTerms.Of("axialNPerMm@2"));
    }

    [Fact]
    public async Task Uncertainty_againstAFrameThatHoldsNothing_tellsNoShareButWhy()
    {
        UncertaintyRun run = new(_program, TimeProvider.System);
        await run.Start(_case, new("one-rod", "four-pins", 300, 7)).Running!;
        UncertaintyView view = UncertaintyWriter.Of(run.Run.Result!, _case);

        Assert.All(view.Ranking, r => Assert.Equal(new(r.Label, "no sample has both", null), r));
        Assert.StartsWith("four-pins holds nothing: ", view.RankingLost, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Variation_acrossRowsThatCannotBeAssessed_saysThatTheyStandBetween()
    {
        VaryRun run = new(_program, TimeProvider.System);
        await run.Start(_case, new("one-rod", [new("/parts/pins/2/levelMm", 130, 225, 11)])).Running!;
        VariationView view = VariationWriter.Of(run.Run.Result!, _case);

        Assert.Contains(view.Changes, c => c.Words.EndsWith("somewhere between 130 and 149 mm (rows between could not be assessed)", StringComparison.Ordinal));
        Assert.Equal("somewhere between 130 and 149 (rows between could not be assessed)", view.Rows[2].Since);
        Assert.Empty(view.Rows[5].Since);
    }

    private static ComparedCell Cell(ComparisonView view, int group, string key) => view.Results[group].Rows.Single(r => r.Key == key).Cells[0];

    private static string Numbers(int fracture) =>
        Reports.Words.Numbers.Stiffness(_answers.Assess(_case, _held[0]).Fractures[fracture].AtFracture.AxialNPerMm);
}
