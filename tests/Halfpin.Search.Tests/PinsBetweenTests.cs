using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Xunit;

namespace Halfpin.Search.Tests;

/// <summary>What is said and done about a fragment between fractures that no pin holds. Its edges are at 139 and 211.5 mm.</summary>
public class PinsBetweenTests
{
    private static readonly Case _case = Bench.Segmental();
    private static readonly Frame _fourPins = _case.Frames.Single(f => f.Id == "four-pins"), _oneRod = _case.Frames.Single(f => f.Id == "one-rod"), _twoRods = _case.Frames.Single(f => f.Id == "two-rods");

    [Fact]
    public void Words_forOneFragment_tellLevelsAndRodOfTheLayout() =>
        Assert.Equal("add 2 pins in the fragment between the fractures at levels 162 and 188.5 mm on rod r1", Only(_case, _fourPins, 2, 23).Words);

    // Midway, and no matter how far from the edges its two bounds are.
    [Fact]
    public void Words_forOnePin_tellWhereItStands() =>
        Assert.Equal("add a pin in the fragment between the fractures at level 175.3 mm on rod r1", Only(_case, _fourPins, 1, 23).Words);

    [Fact]
    public void Words_forThreeFractures_countThePinsOfBothFragments() =>
        Assert.Equal("add 2 pins in each fragment between the fractures (4 in all) at levels 162, 188.5, 239.5 and 251 mm on rod r1", Only(WithThree(), _fourPins, 2, 23).Words);

    [Fact]
    public void Words_forAV_nameItsFirstRod()
    {
        Frame v = _fourPins with { Construct = VOf((SingleRod)_fourPins.Construct!) };

        Assert.EndsWith(" mm on rod r1", Only(_case, v, 2, 23).Words, StringComparison.Ordinal);
    }

    // Together with a second rod the pins stand on both.
    [Fact]
    public void Words_afterASecondRodWasAdded_nameBoth()
    {
        Frame twin = _fourPins with { Construct = DoubleOf((SingleRod)_fourPins.Construct!, false) };

        Assert.EndsWith(" mm on rods r1 and r2", Only(_case, _fourPins, 2, 23).WordsOn!(twin), StringComparison.Ordinal);
    }

    [Fact]
    public void Ways_withOnePinAtTheSamePlace_areOne() =>
        Assert.Equal(3, Ways(_case with { Search = _case.Search with { MiddlePins = [1], MiddleEdgeMm = [20, 26] } }, _fourPins).Length);

    [Fact]
    public void FrameByParts_withNothingBetween_gainsPinsWithAClampOnEachRodThatPasses()
    {
        FrameChange way = Only(_case, WithoutBetween(_twoRods), 2, 23);
        Parts parts = way.Apply(WithoutBetween(_twoRods)).Parts!;

        Assert.EndsWith("at levels 162 and 188.5 mm on rods r1 and r2", way.Words, StringComparison.Ordinal);
        Assert.Equal(["p3 r1", "p4 r1", "p3 r2", "p4 r2"], parts.Clamps.Where(c => c.Pin is "p3" or "p4").Select(c => $"{c.Pin} {c.Rod}"));
        Assert.Equal(parts.Pins.Single(p => p.Id == "p2") with { Id = "p3", LevelMm = 162 }, parts.Pins.Single(p => p.Id == "p3"));
    }

    [Fact]
    public void FrameByParts_withNothingBetween_isMendedToAValidFrameThatPasses()
    {
        Frame free = WithoutBetween(_oneRod);
        SmallestChange change = Assert.Single(Bench.Suggest(_case with { Frames = [free] }).SmallestChanges);
        Case changed = _case with { Frames = [change.Changed!] };

        Assert.Contains("dd 2 pins in the fragment between the fractures at levels ", change.Text, StringComparison.Ordinal);
        Assert.Empty(new CaseReader(CaseValidity.Rules).Read(CaseWriter.Write(changed)).Faults);
        Assert.Empty(Assert.Single(Bench.Suggest(changed).CaseFrames).Violates);
    }

    [Fact]
    public void DynamisedDoubleRod_gainsTightClamps_andSaysWhatThatDoes()
    {
        Frame dynamised = _fourPins with { Construct = DoubleOf((SingleRod)_fourPins.Construct!, true) };
        FrameChange way = Only(_case, dynamised, 2, 23);
        Parts parts = way.Apply(dynamised).Parts!;

        Assert.EndsWith("on rods r1 and r2 with tight clamps (loose ones there then slide less or not at all)", way.Words, StringComparison.Ordinal);
        Assert.Equal(4, parts.Clamps.Count(c => c.Pin is "p5" or "p6" && c.State == ClampState.Tight));
        Assert.Equal(4, parts.Clamps.Count(c => c.State == ClampState.Loose));
    }

    [Fact]
    public void OneOfTwoFragments_withoutPins_aloneGainsSome()
    {
        Frame three = _oneRod with { Parts = _oneRod.Parts! with { Pins = _oneRod.Parts.Pins.RemoveAt(4), Clamps = _oneRod.Parts.Clamps.RemoveAt(4) } };
        FrameChange way = Only(WithThree(), three, 2, 23);

        Assert.Equal("add 2 pins in the fragment between the fractures that has none at levels 239.5 and 251 mm on rod r1", way.Words);
    }

    // Two rods that end before the fragment: nothing can be clamped there.
    [Fact]
    public void FrameByParts_withNoRodPastTheFragment_saysThatNothingHoldsIt()
    {
        Frame free = WithoutBetween(_oneRod);
        Rod rod = free.Parts!.Rods[0];
        Frame apart = free with
        {
            Parts = free.Parts with
            {
                Rods = [rod with { To = rod.To with { LevelMm = 110 } }, rod with { Id = "r2", From = rod.From with { LevelMm = 238 } }],
                Clamps = [.. free.Parts.Clamps.Select(c => c with { Rod = c.Pin is "p1" or "p2" ? "r1" : "r2" })],
            },
        };

        Assert.Equal("Nothing holds the fragment between 138 and 214 mm, and no rod that holds pins passes there: add a rod and pins by hand.", Change(_case, apart));
    }

    [Fact]
    public void Frame_whoseFragmentHasNoRoom_saysSo() =>
        Assert.Equal(
            "Nothing holds the fragment between 138 and 214 mm, and the distances of search.middleEdgeMm leave no room for pins there: choose less, or one pin (search.middlePins).",
            Change(_case with { Search = _case.Search with { MiddleEdgeMm = [61] } }, _fourPins));

    // Four ways and all other changes: one way and one change make a pair.
    [Fact]
    public void NoChangeThatHelps_withAFreeFragment_countsWaysAndPairsThatFitEachOther()
    {
        Case value = _case with { Search = _case.Search with { MiddlePins = [2], MiddleEdgeMm = [20, 23] }, Requirements = new() { LeastAxialNPerMm = 9000 } };
        Frame free = WithoutBetween(_oneRod);
        int other = ChangeCatalogue.Of(value, free, new(value, null)).Length;

        Assert.Equal(
            $"None of the 4 ways to set pins where nothing holds the bone mends holds, axial-stiffness, alone or with one of {other} other changes ({4 * other} pairs, all tried).", Change(value, free));
    }

    [Fact]
    public void NoChangeThatHelps_withoutAFreeFragment_saysHowManyPairsThereAre()
    {
        Case value = _case with { Requirements = new() { LeastAxialNPerMm = 9000 } };

        Assert.Matches("^None of [0-9]+ single changes mends holds, axial-stiffness, nor do two of them together \\(the 600 smallest of [0-9]+ pairs tried\\)\\.$", Change(value, _oneRod));
    }

    private static string Change(Case value, Frame frame)
    {
        CandidateSet set = new(value, null);
        ImmutableArray<Requirement> requirements = RequirementList.Of(value);
        FrameTrial trial = new(value, null, new(value, set, null, requirements), requirements);
        return new SmallestChangeFinder(value, set, trial).Of(frame, ["holds", "axial-stiffness"], TestContext.Current.CancellationToken).Text;
    }

    private static ImmutableArray<FrameChange> Ways(Case value, Frame frame) => PinsBetween.Ways(value, frame, new(value, null));

    private static FrameChange Only(Case value, Frame frame, int pins, double edgeMm) => Assert.Single(Ways(value with { Search = value.Search with { MiddlePins = [pins], MiddleEdgeMm = [edgeMm] } }, frame));

    // A third fracture at 276 mm with a gap of 4: edges of the lower fragment between at 216.5 and 274 mm.
    private static Case WithThree() => _case with { Fractures = [.. _case.Fractures, _case.Fractures[1] with { LevelMm = 276, GapMm = 4 }] };

    private static Frame WithoutBetween(Frame frame) => frame with
    {
        Parts = frame.Parts! with { Pins = [.. frame.Parts.Pins.Where(p => p.Id is not ("p3" or "p4"))], Clamps = [.. frame.Parts.Clamps.Where(c => c.Pin is not ("p3" or "p4"))] },
    };

    private static DoubleRod DoubleOf(SingleRod c, bool dynamised) => new()
    {
        Placement = c.Placement, PinsPerFragment = c.PinsPerFragment, NearMm = c.NearMm, FarMm = c.FarMm, AzimuthDeg = c.AzimuthDeg, StandoffMm = c.StandoffMm, Pin = c.Pin, Rod = c.Rod, RodSpacingMm = 31, Dynamised = dynamised,
    };

    private static TwoPlane VOf(SingleRod c) => new()
    {
        Placement = c.Placement, PinsPerFragment = c.PinsPerFragment, NearMm = c.NearMm, FarMm = c.FarMm, AzimuthDeg = c.AzimuthDeg, StandoffMm = c.StandoffMm, Pin = c.Pin, Rod = c.Rod, SecondAzimuthDeg = c.AzimuthDeg + 47,
    };
}
