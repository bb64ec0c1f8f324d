using System.Collections.Immutable;
using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Validity;
using Halfpin.Reports.Figures;
using Halfpin.Workbench.Runs;
using Halfpin.Workbench.Varying;
using Xunit;

namespace Halfpin.Workbench.Tests.Varying;

public class VaryRunTests
{
    private static readonly ProgramStamp _program = new("halfpin", "test");

    [Fact]
    public void Variables_ofEveryFrame_haveUsualRangesThatAreAllowed()
    {
        Case parts = Works.Demo with { Frames = [.. Works.Demo.Frames, new Frame { Id = "by-parts", Parts = ConstructBuilder.Build(Works.Demo.Frames[0].Construct!, Works.Demo.Fractures) }] };
        foreach (Frame frame in parts.Frames)
        {
            ImmutableArray<Variable> all = VariableList.Of(parts, frame.Id);
            Assert.NotEmpty(all);
            foreach (Variable v in all)
            {
                VaryRun run = new(_program, TimeProvider.System);
                (ImmutableArray<Fault> faults, _) = run.Start(parts, new(frame.Id, [new(v.Name, v.From, v.To, v.Values)]));
                run.Run.Stop();
                Assert.True(faults.IsEmpty, $"{frame.Id} {v.Name} {v.From}..{v.To}: {string.Join(' ', faults.Select(f => f.Message))}");
            }
        }
    }

    [Fact]
    public void Variable_ofStandoff_hasTheValueOfTheCaseAmongItsValues()
    {
        Variable standoff = VariableList.Of(Works.Demo, "far-far").Single(v => v.Name == "standoffMm");
        double step = (standoff.To - standoff.From) / (standoff.Values - 1);
        Assert.Equal((52, "mm"), (standoff.Now, standoff.Unit));
        Assert.Equal(0, Math.IEEERemainder(standoff.Now - standoff.From, step), 9);
    }

    [Fact]
    public async Task Variation_ofStandoff_tellsFallingStiffnessAndMarksTheCase()
    {
        RunResult<VariationReport> result = await Varied(new("far-far", [new("standoffMm", 32, 72, 5)]));
        VariationView view = VariationWriter.Of(result, Works.Demo);
        Assert.Contains("while rod to bone runs from 32 to 72 mm, axial stiffness goes from", view.Headline, StringComparison.Ordinal);
        Assert.Equal("Rod to bone, mm", view.Headings[0]);
        Assert.Equal([false, false, true, false, false], view.Rows.Select(r => r.IsNominal));
        double[] axial = [.. result.Report.Rows.Select(r => r.Stiffness!.AxialNPerMm)];
        Assert.Equal(axial.OrderDescending(), axial);
        Assert.Equal(result.Report.Changes.Length, view.Rows.Sum(r => r.Changes.Length));
        Assert.NotEmpty(view.Changes);
    }

    [Fact]
    public async Task Figure_ofAVariation_namesNumbersAndRulesAsThePageDoes()
    {
        RunResult<VariationReport> result = await Varied(new("far-far", [new("standoffMm", 32, 72, 5)]));
        string svg = VariationFigure.Draw(result.Report, VariationWriter.Words(result));
        Assert.Contains(">Rod to bone, mm</text>", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("standoffMm", svg, StringComparison.Ordinal);
        Assert.All(result.Report.Changes, c => Assert.DoesNotContain($". {c.Check}: ", svg, StringComparison.Ordinal));
        Assert.StartsWith("standoffMm", Encoding.UTF8.GetString(VaryRun.Csv(result.Report)).TrimStart('\ufeff'), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Variation_ofAnotherFrame_isNotStaleWhenOneIsChanged()
    {
        RunResult<VariationReport> result = await Varied(new("far-far", [new("standoffMm", 32, 72, 3)]));
        Case other = Works.Demo with { Frames = Works.Demo.Frames.RemoveAt(3) };
        Assert.False(VariationWriter.Of(result, other).IsStale);
        Assert.True(VariationWriter.Of(result, Works.Demo with { Frames = Works.Demo.Frames.RemoveAt(0) }).IsStale);
    }

    [Fact]
    public async Task Csv_ofAVariation_hasARowForEachValue()
    {
        RunResult<VariationReport> result = await Varied(new("near-far", [new("/limb/lengthMm", 340, 360, 3), new("nearMm", 30, 40, 2)]));
        string[] lines = Encoding.UTF8.GetString(VaryRun.Csv(result.Report)).TrimEnd('\n').Split('\n');
        Assert.Equal(7, lines.Length);
        Assert.StartsWith("/limb/lengthMm,nearMm,status,axialNPerMm", lines[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Request_withTextForNumbers_tellsEachAndStartsNothing()
    {
        VaryRun run = new(_program, TimeProvider.System);
        (ImmutableArray<Fault> faults, Task? running) = run.Start(Works.Demo, new("far-far", [new("standoffMm", null, 72, null), new("", 1, 2, 3)]));
        Assert.Null(running);
        Assert.Equal(["First value", "First value", "Second value"], faults.Select(f => f.Pointer));
        Assert.Equal(RunState.Idle, run.Run.State);
    }

    [Fact]
    public void Request_beyondWhatIsAllowed_isRefusedInWordsOfTheForm()
    {
        (ImmutableArray<Fault> faults, _) = new VaryRun(_program, TimeProvider.System).Start(Works.Demo, new("far-far", [new("standoffMm", 32, 900, 5), new("/limb/nothing", 1, 2, 3)]));
        Assert.Equal(["First value", "Second value"], faults.Select(f => f.Pointer));
        Assert.All(faults, f => Assert.DoesNotContain("--over", f.Message + f.Allowed + f.Try, StringComparison.Ordinal));
    }

    [Fact]
    public void Request_forTooManyRows_isRefused()
    {
        (ImmutableArray<Fault> faults, _) = new VaryRun(_program, TimeProvider.System).Start(Works.Demo, new("far-far", [new("standoffMm", 32, 72, 101), new("farMm", 80, 110, 101)]));
        Assert.Contains("10201 rows", Assert.Single(faults).Message, StringComparison.Ordinal);
    }

    private static async Task<RunResult<VariationReport>> Varied(VaryRequest request)
    {
        VaryRun run = new(_program, TimeProvider.System);
        (ImmutableArray<Fault> faults, Task? running) = run.Start(Works.Demo, request);
        Assert.Empty(faults);
        await running!;
        return run.Run.Result ?? throw new InvalidOperationException(run.Run.Problem);
    }
}
