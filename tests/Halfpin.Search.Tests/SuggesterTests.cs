using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability;
using Xunit;

namespace Halfpin.Search.Tests;

public class SuggesterTests
{
    [Fact]
    public void Suggestion_onTheDemo_isNoLessSimpleThanAnyOfItsFramesThatPass()
    {
        SuggestReport report = Bench.Suggest(Bench.Demo());

        Assert.NotNull(report.Simplest);
        Assert.All(report.CaseFrames.Where(f => f.Violates.IsEmpty), f => Assert.True(f.Parts >= report.Simplest.Parts.Pins + report.Simplest.Parts.Rods + report.Simplest.Parts.Clamps));
    }

    [Fact]
    public void Suggestion_assessedAsAFrameOfTheCase_failsNoCheck()
    {
        Case value = Bench.Demo();
        Frame frame = Bench.Suggest(value).Simplest!.Frame;

        Assert.DoesNotContain(new Assessor(value with { Frames = [frame] }).Assess(null, new("halfpin", "test"), "").Frames[0].Checks, c => c.Verdict == Verdict.Fail);
    }

    [Fact]
    public void SmallestChange_ofAFrameTooCloseToTheSkin_movesItsRodOutAndThenPasses()
    {
        Case value = Bench.Demo();
        SmallestChange change = Bench.Suggest(value).SmallestChanges.Single(c => c.Frame == "near-far-close");
        SuggestReport again = Bench.Suggest(value with { Frames = [change.Changed!] });

        Assert.StartsWith("Move the rod out from 40 to", change.Text, StringComparison.Ordinal);
        Assert.Empty(Assert.Single(again.CaseFrames).Violates);
    }

    [Fact]
    public void SmallestChange_isTheSmallest()
    {
        // A millimetre less than what is proposed still misses.
        Case value = Bench.Demo();
        SingleRod changed = (SingleRod)Bench.Suggest(value).SmallestChanges.Single(c => c.Frame == "near-far-close").Changed!.Construct!;
        Frame less = new() { Id = "less", Construct = changed with { StandoffMm = changed.StandoffMm - 1 } };

        Assert.NotEmpty(Assert.Single(Bench.Suggest(value with { Frames = [less] }).CaseFrames).Violates);
    }

    [Fact]
    public void Conflict_whenAStiffnessIsAskedThatNoFrameHas_namesItAloneWithTheNearestMiss()
    {
        SuggestReport report = Bench.Suggest(Bench.Demo() with { Requirements = new() { LeastAxialNPerMm = 9000 } });

        Assert.Null(report.Simplest);
        Assert.Contains(report.Conflicts, c => c.Requirements is ["axial-stiffness"] && c.NearestMiss is not null);
    }

    [Fact]
    public void Conflict_whenNoPlaceIsLeft_namesTheRulesThatTurnCandidatesAway()
    {
        Case value = Bench.Demo() with { Wounds = [new() { FromLevelMm = 20, ToLevelMm = 330, FromAzimuthDeg = -20, ToAzimuthDeg = 100 }] };
        SuggestReport report = Bench.Suggest(value);

        Assert.Equal(0, report.Searched.Solved);
        Assert.Contains("wound", Assert.Single(report.Conflicts).Requirements);
    }

    [Fact]
    public void Requirement_madeHarder_neverLeavesMoreFrames()
    {
        long usual = Bench.Suggest(Bench.Demo()).Searched.Feasible;
        long harder = Bench.Suggest(Bench.Demo() with { Requirements = new() { MostAxialMm = 0.42 } }).Searched.Feasible;

        Assert.InRange(harder, 1, usual - 1);
    }

    [Fact]
    public void Requirement_ofTheCase_isTaggedAsGiven() => Assert.Equal(
        ("GIVEN", 0.42), Bench.Suggest(Bench.Demo() with { Requirements = new() { MostAxialMm = 0.42 } }).Requirements.Where(r => r.Id == "axial-motion").Select(r => (r.Tag, r.Limit)).Single());

    [Fact]
    public void DefinitiveFrame_withALoad_mustAlsoMoveEnough() =>
        Assert.Contains(Bench.Suggest(Bench.Demo() with { Purpose = Purpose.Definitive }).Requirements, r => r.Id == "axial-motion-least" && r.Limit == 0.2);

    [Fact]
    public void Stock_withThreePins_leavesNothingToBuild()
    {
        Domain.Stocks.Stock stock = new()
        {
            Format = Domain.Stocks.Stock.FormatName,
            FormatVersion = 1,
            Title = "Invented",
            Items =
            [
                new Domain.Stocks.StockPin { Name = "pin", Quantity = 3, DiameterMm = 5, LengthMm = 180, ThreadLengthMm = 30, Tip = PinTip.Predrilled, Material = "steel" },
                new Domain.Stocks.StockRod { Name = "rod", Quantity = 4, DiameterMm = 11, LengthMm = 350, Material = "carbon" },
                new Domain.Stocks.StockClamp { Name = "clamp", Quantity = 20, Joins = Domain.Stocks.ClampJoint.PinToRod, FromDiameterMm = 4, ToDiameterMm = 6, RodDiameterMm = 11, OpenSided = true },
            ],
        };
        SuggestReport short3 = Bench.Suggest(Bench.Demo(), 2, stock);
        SuggestReport four = Bench.Suggest(Bench.Demo(), 2, stock with { Items = stock.Items.SetItem(0, stock.Items[0] with { Quantity = 4 }) });

        Assert.Null(short3.Simplest);
        Assert.Equal(4, four.Simplest!.Parts.Pins);
        Assert.True(four.Searched.Feasible > 0);
    }

    [Fact]
    public void Suggestion_staysWithinTheChoicesGiven()
    {
        Construct found = Bench.Suggest(Bench.Example("02-bench-comparators.json") with { Search = Bench.Small }).Simplest!.Frame.Construct!;

        Assert.InRange(found.StandoffMm, 44, 66);
        Assert.InRange(found.FarMm, 71, 103);
        Assert.InRange(found.AzimuthDeg, 27, 71);
    }
}
