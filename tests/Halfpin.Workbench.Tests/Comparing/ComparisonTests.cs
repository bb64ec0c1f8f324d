using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Comparing;
using Xunit;

namespace Halfpin.Workbench.Tests.Comparing;

public class ComparisonTests
{
    private static readonly ProgramStamp _program = new("halfpin", "test");
    private static readonly FrameAnswers _answers = new(_program);

    [Fact]
    public void Frames_askedFor_areThoseOfTheCaseInItsOrder() =>
        Assert.Equal(["far-far", "two-plane"], ComparisonWriter.Chosen(Works.Demo, "two-plane,none,far-far").Select(f => f.Id));

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("nobody")]
    public void Frames_notAskedFor_areTheFirstEight(string? asked)
    {
        Case many = Works.Demo with { Frames = [.. Works.Demo.Frames, .. Works.Demo.Frames.Select(f => f with { Id = f.Id + "-b" })] };
        Assert.Equal(many.Frames.Take(8), ComparisonWriter.Chosen(many, asked));
    }

    [Fact]
    public void Row_ofAxialStiffness_marksTheStiffestAndTellsFactors()
    {
        ImmutableArray<Frame> frames = ComparisonWriter.Chosen(Works.Demo, "far-far,three-pins,double-rod");
        ComparisonView view = ComparisonWriter.Of(Works.Demo, frames, _answers);
        ComparedRow axial = view.Results[0].Rows.Single(r => r.Key == "axialNPerMm");
        double[] values = [.. frames.Select(f => _answers.Assess(Works.Demo, f).Stiffness!.AtFracture.AxialNPerMm)];
        Assert.Equal(values.Max(), values[Array.FindIndex([.. axial.Cells], c => c.Mark == "highest")]);
        Assert.Single(axial.Cells, c => c.Mark.Length > 0);
        Assert.Equal("", axial.Cells[0].Against);
        Assert.Equal($"×{(values[2] / values[0]).ToString("0.0#", CultureInfo.InvariantCulture)}", axial.Cells[2].Against);
    }

    [Fact]
    public void Row_whereAFrameIsFree_saysSoAndMarksNoFreedomAsBest()
    {
        ComparisonView view = ComparisonWriter.Of(Works.Demo, ComparisonWriter.Chosen(Works.Demo, "double-rod,double-rod-dynamised"), _answers);
        ComparedCell free = view.Results[0].Rows.Single(r => r.Key == "axialNPerMm").Cells[1];
        Assert.Equal(("free", "", "freed"), (free.Text, free.Mark, free.Against));
    }

    [Fact]
    public void Row_ofAMechanism_givesNoNumber()
    {
        Frame loose = Works.Demo.Frames[0] with { Id = "loose", Construct = null, Parts = Loose() };
        Case value = Works.Demo with { Frames = [Works.Demo.Frames[0], loose] };
        ComparisonView view = ComparisonWriter.Of(value, value.Frames, _answers);
        Assert.All(view.Results[0].Rows, r => Assert.Equal("does not hold", r.Cells[1].Text));
        Assert.All(view.Panels, p => Assert.Null(p.Bars[1].Share));
    }

    [Fact]
    public void Construction_ofFramesThatDifferInOneValue_putsItFirst()
    {
        ComparisonView view = ComparisonWriter.Of(Works.Demo, ComparisonWriter.Chosen(Works.Demo, "near-far,near-far-close"), _answers);
        Assert.Equal(["standoff"], view.Construction.Where(r => r.Differs).Select(r => r.Key));
        Assert.Equal(("standoff", "52", "40"), (view.Construction[0].Key, view.Construction[0].Cells[0].Text, view.Construction[0].Cells[1].Text));
    }

    [Fact]
    public void Panel_withBands_holdsThemOnItsScale()
    {
        ComparisonView view = ComparisonWriter.Of(Works.Demo, ComparisonWriter.Chosen(Works.Demo, null), _answers);
        Assert.Equal(4, view.Panels.Length);
        Assert.All(view.Panels.SelectMany(p => p.Bars).Where(b => b.HighShare is not null), b => Assert.InRange(b.HighShare!.Value, b.LowShare!.Value, 1));
    }

    [Fact]
    public void Csv_ofFrames_hasUnitsInItsHeadingsAndFullNumbers()
    {
        ImmutableArray<Frame> frames = ComparisonWriter.Chosen(Works.Demo, "near-far,two-plane");
        string[][] rows = [.. ComparisonCsv.Of(Works.Demo, frames, _answers).TrimEnd('\n').Split('\n').Select(l => l.Split(','))];
        Assert.Equal(["frame", "name", "status", "axialNPerMm", "low.axialNPerMm", "high.axialNPerMm"], rows[0].Take(6));
        Assert.Equal(3, rows.Length);
        double full = _answers.Assess(Works.Demo, frames[0]).Stiffness!.AtFracture.AxialNPerMm;
        Assert.Contains(full.ToString("R", CultureInfo.InvariantCulture), rows[1]);
        Assert.Contains("Planning and teaching aid", string.Join(',', rows[1]), StringComparison.Ordinal);
    }

    [Fact]
    public void Page_ofChosenFrames_tellsOfThemAlone()
    {
        string page = ComparisonPage.Html(Works.Demo, ComparisonWriter.Chosen(Works.Demo, "far-far,two-plane"), _program);
        Assert.Contains("Two-plane V, two cross-links, 52 mm", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Single rod, three pins a side", page, StringComparison.Ordinal);
        Assert.Contains(Safety.ShortNote, page, StringComparison.Ordinal);
    }

    // Every clamp of the distal fragment's pins off: nothing holds it.
    private static Parts Loose()
    {
        Parts parts = ConstructBuilder.Build(Works.Demo.Frames[0].Construct!, Works.Demo.Fractures);
        HashSet<string> distal = [.. parts.Pins.Where(p => p.LevelMm > Works.Demo.Fractures[0].LevelMm).Select(p => p.Id)];
        return parts with { Clamps = [.. parts.Clamps.Select(c => c.Pin is string pin && distal.Contains(pin) ? c with { State = ClampState.Off } : c)] };
    }
}
