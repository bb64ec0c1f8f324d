using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Studies.Inputs;
using Halfpin.Workbench.Runs;
using Halfpin.Workbench.Uncertain;
using Xunit;

namespace Halfpin.Workbench.Tests.Uncertain;

public class UncertaintyRunTests
{
    private static readonly ProgramStamp _program = new("halfpin", "test");

    [Fact]
    public async Task Study_ofTwoFrames_tellsBandsInfluencesAndRank()
    {
        RunResult<UncertaintyReport> result = await Studied(new("near-far", "three-pins", 900, 7));
        UncertaintyView view = UncertaintyWriter.Of(result, Works.Demo);
        BandLine axial = view.Bands.Single(b => b.Name == "axialNPerMm");
        Assert.InRange(axial.MedianShare!.Value, axial.LowShare!.Value, axial.HighShare!.Value);
        Assert.Equal(4, view.Ranking.Length);
        Assert.Contains("what matters most is rotational stiffness of the clamps", view.Headline, StringComparison.Ordinal);
        Assert.All(view.Influences.SelectMany(g => g.Inputs), i => Assert.InRange(i.TotalShare, 0, 1));
        Assert.All(view.Unsure, p => Assert.Equal(1, p.PassShare + p.CautionShare + p.FailShare, 9));
        Assert.False(view.IsStale);
    }

    [Fact]
    public async Task Study_whoseOtherFrameChanged_isStale()
    {
        RunResult<UncertaintyReport> result = await Studied(new("near-far", "three-pins", 300, 7));
        Assert.True(UncertaintyWriter.Of(result, Works.Demo with { Frames = Works.Demo.Frames.RemoveAt(2) }).IsStale);
        Assert.False(UncertaintyWriter.Of(result, Works.Demo with { Frames = Works.Demo.Frames.RemoveAt(0) }).IsStale);
    }

    [Theory]
    [InlineData(null)]
    [InlineData(3.0)]
    [InlineData(700.5)]
    [InlineData(2e9)]
    public void Request_withSamplesThatCannotBe_isRefused(double? samples)
    {
        (ImmutableArray<Fault> faults, Task? running) = new UncertaintyRun(_program, TimeProvider.System).Start(Works.Demo, new("near-far", null, samples, 1));
        Assert.Equal("Samples", Assert.Single(faults).Pointer);
        Assert.Null(running);
    }

    [Fact]
    public void Request_againstItself_isRefused() =>
        Assert.Equal("Against", Assert.Single(new UncertaintyRun(_program, TimeProvider.System).Start(Works.Demo, new("near-far", "near-far", 900, 1)).Faults).Pointer);

    [Fact]
    public void Input_ofEveryStudy_hasANameForPeople()
    {
        Case value = Works.Demo;
        ImmutableArray<StudyInput> inputs = DefaultInputs.Of(value, [Domain.Frames.ConstructBuilder.Build(value.Frames[4].Construct!, value.Fractures)]);
        Assert.NotEmpty(inputs);
        Assert.All(inputs, i => Assert.DoesNotContain(i.Name.Split(':')[0], InputWords.Input(i.Name), StringComparison.Ordinal));
    }

    private static async Task<RunResult<UncertaintyReport>> Studied(UncertaintyRequest request)
    {
        UncertaintyRun run = new(_program, TimeProvider.System);
        (ImmutableArray<Fault> faults, Task? running) = run.Start(Works.Demo, request);
        Assert.Empty(faults);
        await running!;
        return run.Run.Result ?? throw new InvalidOperationException(run.Run.Problem);
    }
}
