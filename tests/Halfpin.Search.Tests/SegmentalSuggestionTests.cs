using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Xunit;

namespace Halfpin.Search.Tests;

/// <summary>Suggestions for two fractures: frames by their parts.</summary>
public class SegmentalSuggestionTests
{
    private static readonly Lazy<SuggestReport> _usual = new(() => Bench.Suggest(Bench.Segmental()));

    [Fact]
    public void EveryFrameOffered_isAValidFrameOfTheCase()
    {
        ImmutableArray<Frame> frames = [_usual.Value.Simplest!.Frame, .. _usual.Value.Pareto.Select(p => p.Frame), .. _usual.Value.SmallestChanges.Select(c => c.Changed).OfType<Frame>()];
        CaseReading read = new CaseReader(CaseValidity.Rules).Read(CaseWriter.Write(Bench.Segmental() with { Frames = frames }));

        Assert.Empty(read.Faults);
        Assert.All(read.Case!.Frames, f => Assert.NotNull(f.Parts));
    }

    [Fact]
    public void Suggestion_holdsEveryFragmentByTwoPinsOrMore()
    {
        Case value = Bench.Segmental();
        double[] levels = [.. _usual.Value.Simplest!.Frame.Parts!.Pins.Select(p => p.LevelMm)];

        Assert.True(levels.Count(l => l < value.Fractures[0].LevelMm) >= 2);
        Assert.True(levels.Count(l => l > value.Fractures[0].LevelMm && l < value.Fractures[1].LevelMm) >= 2);
        Assert.True(levels.Count(l => l > value.Fractures[1].LevelMm) >= 2);
    }

    [Fact]
    public void Suggestion_assessedAsAFrameOfTheCase_failsNoCheckAndHasItsNumbersAtTheWorseFracture()
    {
        SuggestedFrame found = _usual.Value.Simplest!;
        FrameAssessment full = new Assessor(Bench.Segmental() with { Frames = [found.Frame] }).Assess(null, new("halfpin", "test"), "").Frames[0];

        Assert.DoesNotContain(full.Checks, c => c.Verdict == Verdict.Fail);
        Assert.Equal(found.AxialNPerMm, full.Fractures.Min(f => f.AtFracture.AxialNPerMm), 9);
    }

    [Fact]
    public void Suggestion_againAsAFrameOfTheCase_meetsAllRequirements()
    {
        SuggestReport again = Bench.Suggest(Bench.Segmental() with { Frames = [_usual.Value.Simplest!.Frame] });

        Assert.Empty(Assert.Single(again.CaseFrames).Violates);
    }

    [Fact]
    public void Suggestion_staysWithinTheChoicesOfThePinsBetween()
    {
        Case value = Bench.Segmental();
        double[] between = [.. _usual.Value.Simplest!.Frame.Parts!.Pins.Select(p => p.LevelMm).Where(l => l > value.Fractures[0].LevelMm && l < value.Fractures[1].LevelMm)];

        Assert.InRange(between.Min() - 139, 20, 51);
        Assert.InRange(211.5 - between.Max(), 20, 51);
    }

    // Four pins about two fractures leave the middle free; of one rod the pins between stand 23 mm apart where there is room for 32 mm.
    [Theory]
    [InlineData("four-pins", "add 2 pins in the fragment between the fractures at levels ")]
    [InlineData("one-rod", "move pin p")]
    public void SmallestChange_ofAFrameThatHoldsTheMiddleTooLittle_mendsItThereAndThenPasses(string frame, string words)
    {
        SmallestChange change = _usual.Value.SmallestChanges.Single(c => c.Frame == frame);
        SuggestReport again = Bench.Suggest(Bench.Segmental() with { Frames = [change.Changed!] });

        Assert.Contains(words, change.Text, StringComparison.OrdinalIgnoreCase);
        Assert.Empty(Assert.Single(again.CaseFrames).Violates);
    }

    [Fact]
    public void Conflict_whenAStiffnessIsAskedThatNoFrameHas_hasANearestMissThatACaseCanHold()
    {
        Case value = Bench.Segmental() with { Requirements = new() { LeastAxialNPerMm = 9000 } };
        RequirementConflict conflict = Bench.Suggest(value).Conflicts.Single(c => c.Requirements is ["axial-stiffness"]);

        Assert.Empty(new CaseReader(CaseValidity.Rules).Read(CaseWriter.Write(value with { Frames = [conflict.NearestMiss!] })).Faults);
    }

    // 43.5 mm of bone between: no room for two pins 20 mm from either fracture.
    [Fact]
    public void Conflict_whenAFragmentBetweenIsTooShort_saysWhatWouldHelp() =>
        Assert.Contains("has 44 mm of bone", Assert.Single(Bench.Suggest(WithShortFragment()).Conflicts).Words, StringComparison.Ordinal);

    [Fact]
    public void ShortFragment_withOnePinBetweenAndItsCautionAccepted_isHeld()
    {
        Case value = WithShortFragment();
        SuggestReport report = Bench.Suggest(value with { Search = value.Search with { MiddlePins = [1] }, Requirements = new() { AcceptCautions = ["pin-count"] } });

        Assert.Equal(5, report.Simplest!.Parts.Pins);
    }

    [Fact]
    public void Candidates_withMorePlacesBetween_areNeverWorse()
    {
        Case few = Bench.Segmental(), more = few with { Search = few.Search with { MiddleEdgeMm = [20, 23, 26, 51] } };

        Assert.True(Bench.Suggest(more).Searched.Feasible >= Bench.Suggest(few).Searched.Feasible);
    }

    [Fact]
    public void Candidates_ofOneFracture_doNotDependOnPlacesBetween()
    {
        Case one = Bench.Demo(), other = one with { Search = one.Search with { MiddleEdgeMm = [37], MiddlePins = [3] } };

        Assert.Equal(Bench.Text(Bench.Suggest(one)), Bench.Text(Bench.Suggest(other)));
    }

    private static Case WithShortFragment()
    {
        Case value = Bench.Segmental();
        return value with { Fractures = value.Fractures.SetItem(1, value.Fractures[1] with { LevelMm = 185 }) };
    }
}
