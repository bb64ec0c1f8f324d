using CsCheck;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Kit;
using Halfpin.Stability;
using Xunit;

namespace Halfpin.Planning.Tests.Kit;

public class StockTests
{
    private const string Tools = "tool,Driver,1,,,,,,,,,,,,,powerDriver\ntool,Chuck,1,,,,,,,,,,,,,handChuck\ntool,Wrench,2,,,,,,,,,,,,,wrench\ntool,Sleeve,1,5,,,,,,,,,,,,pinSleeve\ntool,Trocar,1,5,,,,,,,,,,,,trocar\ntool,Drill sleeve,1,3.5,,,,,,,,,,,,drillSleeve\ntool,Drill,1,3.5,,,,,,,,,,,,drill\n";
    private const string Head = "kind,name,quantity,diameterMm,lengthMm,threadLengthMm,coreDiameterMm,tip,material,innerDiameterMm,joins,fromDiameterMm,toDiameterMm,rodDiameterMm,openSided,tool\n";

    private static readonly Case _tube = Cases.Tube.With(Cases.NearFar);

    [Fact]
    public void DemoStock_buildsEveryFrameOfTheExample() => Assert.All(Cases.Example.Frames, f =>
    {
        KitReport kit = Cases.Example.Kit(f.Id, Cases.DemoStock);

        Assert.Empty(kit.Shortages);
        Assert.Null(kit.Proposal);
        Assert.All(kit.Items, i => Assert.True(i.InStock >= i.Quantity));
    });

    // 101.7 mm are needed: 102 would do, 101 not; of pins long enough the shortest with least thread out of bone.
    [Fact]
    public void Pin_ofAStock_isTheShortestThatIsLongEnough()
    {
        KitReport kit = _tube.Kit(stock: Cases.Stock(Head + "pin,A,9,5,101,31,,predrilled,steel\npin,B,9,5,127,31,,predrilled,steel\npin,C,9,5,102,47,,predrilled,steel\npin,D,9,5,102,33,,predrilled,steel\n"));

        Assert.Equal("D", kit.Items[0].StockName);
        Assert.Equal((102.0, 33.0), (kit.PinLengths[0].LengthMm, kit.PinLengths[0].ThreadLengthMm));
    }

    // 27.4 mm of bone want 29.4 mm of thread.
    [Fact]
    public void Pin_withTooLittleThread_isNotTaken()
    {
        Shortage shortage = _tube.Kit(stock: Cases.Stock(Head + "pin,A,9,5,127,28,,predrilled,steel\n")).Shortages.First(s => s.Kind == KitKind.Pin);

        Assert.Equal(4, shortage.Missing);
        Assert.Contains("thread that the bone needs", shortage.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Pins_tooShort_sayByHowMuch()
    {
        Shortage shortage = _tube.Kit(stock: Cases.Stock(Head + "pin,A,9,5,93,31,,predrilled,steel\n")).Shortages.First(s => s.Kind == KitKind.Pin);

        Assert.Equal(8.7, shortage.TooShortByMm!.Value, 1e-9);
        Assert.Contains("8.7 mm too short", shortage.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Quantities_tooSmall_sayHowManyAreMissing()
    {
        Shortage shortage = _tube.Kit(stock: Cases.Stock(Head + "pin,A,3,5,127,31,,predrilled,steel\n")).Shortages.First(s => s.Kind == KitKind.Pin);

        Assert.Equal((4, 3, 1), (shortage.Needed, shortage.InStock, shortage.Missing));
    }

    // The closed clamp could serve the closed need only; taking the open one for that first would leave the open need without.
    [Fact]
    public void Picking_giveAndTake_meetsAsManyNeedsAsCanBeMet()
    {
        double? Rank(int need, int item) => (need, item) switch { (0, 0) => 0, (0, 1) => 1, (1, 0) => 0, _ => null };

        Assert.Equal([1, 0], Picking.Pick(2, [1, 1], Rank));
    }

    // Against every way of handing out: as many needs met as any way meets, and never more of an item than there are.
    [Fact]
    public void Picking_any_isTheBestThereIs() => Gen.Select(Gen.Bool.Array[20], Gen.Int[0, 2].Array[4]).Sample((fits, quantities) =>
    {
        int[] picked = Picking.Pick(5, quantities, (n, i) => fits[(4 * n) + i] ? (n + i) % 3 : null);
        int Best(int need, int[] left) => need == 5 ? 0 : Math.Max(
            Best(need + 1, left),
            Enumerable.Range(0, 4).Where(i => fits[(4 * need) + i] && left[i] > 0).Select(i => 1 + Best(need + 1, [.. left.Select((q, k) => k == i ? q - 1 : q)])).DefaultIfEmpty(0).Max());

        return picked.Count(p => p >= 0) == Best(0, quantities) && Enumerable.Range(0, 4).All(i => picked.Count(p => p == i) <= quantities[i])
            && picked.Select((p, n) => p < 0 || fits[(4 * n) + p]).All(ok => ok);
    });

    [Fact]
    public void CarbonRodsOut_proposesSteelOnesAndSaysWhatThatCosts()
    {
        KitProposal proposal = Cases.Example.Kit("near-far", Cases.DemoStock.Without(i => i is StockRod { DiameterMm: 11, Material: "carbon" })).Proposal!;

        Assert.Contains("11 mm steel instead of 11 mm carbon", Assert.Single(proposal.Changes), StringComparison.Ordinal);
        Assert.Equal(4, proposal.Costs.Length);
        Assert.All(proposal.Costs, c => Assert.True(c.ChangePercent > 0));
    }

    // What it costs is what an assessment of both frames says.
    [Fact]
    public void Proposal_costs_areThoseOfTwoAssessments()
    {
        KitProposal proposal = Cases.Example.Kit("near-far", Cases.DemoStock.Without(i => i is StockRod { DiameterMm: 11, LengthMm: > 205 })).Proposal!;
        FourStiffnesses before = Stiffness(Cases.Example, "near-far"), after = Stiffness(Cases.Example with { Frames = [proposal.Frame!] }, "near-far");

        Assert.Equal((before.AxialNPerMm, after.AxialNPerMm), (proposal.Costs[0].Before, proposal.Costs[0].After));
        Assert.Equal((before.TorsionNmPerDeg, after.TorsionNmPerDeg), (proposal.Costs[3].Before, proposal.Costs[3].After));
        Assert.Equal(100 * ((after.MlBendingNmPerDeg / before.MlBendingNmPerDeg) - 1), proposal.Costs[2].ChangePercent!.Value, 1e-9);
    }

    [Fact]
    public void Proposal_frame_isValidAndTheStockBuildsIt()
    {
        Stock stock = Cases.DemoStock.Without(i => i is StockClamp { Joins: ClampJoint.RodToRod });
        KitProposal proposal = Cases.Example.Kit("two-plane", stock).Proposal!;
        Case changed = Cases.Example with { Frames = [proposal.Frame!], Stages = [] };

        Assert.True(Cases.IsValid(changed));
        Assert.Empty(changed.Kit(stock: stock).Shortages);
        Assert.Contains("Without rods l1 and l2", proposal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ShortPins_areMadeToDoByLeavingOutTheirTail()
    {
        KitProposal proposal = Cases.Example.Kit("near-far", Cases.DemoStock.Without(i => i is StockPin { LengthMm: > 100 })).Proposal!;

        Assert.Contains("no tail to spare", Assert.Single(proposal.Changes), StringComparison.Ordinal);
    }

    [Fact]
    public void ClampsOut_blockAndAreNamed()
    {
        KitProposal proposal = Cases.Example.Kit("near-far", Cases.DemoStock.Without(i => i is StockClamp)).Proposal!;

        Assert.Null(proposal.Frame);
        Assert.Equal(["c1", "c2", "c3", "c4"], proposal.BlockedBy);
        Assert.Contains("blocked by: Pin-to-rod clamp for 5 on 11 mm (c1, c2, c3, c4)", proposal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void OtherPins_withoutTheirDrill_sayThatItIsTheDrillThatLacks()
    {
        KitProposal proposal = Cases.Example.Kit("near-far", Cases.DemoStock.Without(i => i is StockPin { DiameterMm: not 6 } or StockTool { DiameterMm: 5, Tool: ToolKind.Drill })).Proposal!;

        Assert.Null(proposal.Frame);
        Assert.Contains("There the stock lacks: Drill 5 mm", proposal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void MissingTool_besideAMissingRod_hidesNoProposal()
    {
        KitProposal proposal = Cases.Example.Kit("near-far", Cases.DemoStock.Without(i => i is StockRod { DiameterMm: 11, Material: "carbon" } or StockTool { Tool: ToolKind.HandChuck })).Proposal!;

        Assert.NotNull(proposal.Frame);
        Assert.Contains("Tools are still to be fetched: Hand chuck.", proposal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void MissingTool_alone_isWhatBlocks() =>
        Assert.Equal(["Hand chuck"], Cases.Example.Kit("near-far", Cases.DemoStock.Without(i => i is StockTool { Tool: ToolKind.HandChuck })).Proposal!.BlockedBy);

    [Fact]
    public void FrameWithoutRods_hasAKitAndStepsThatSayItHoldsNothing()
    {
        Case value = _tube.With(_tube.PartsOf() with { Rods = [], Clamps = [] });

        Assert.Equal(FrameStatus.Mechanism, value.Kit(stock: Cases.Stock(Head + "pin,A,1,5,127,31,,predrilled,steel\n")).Status);
        Assert.Contains(value.Steps().Steps, s => s.Text.Contains("this frame has no rod", StringComparison.Ordinal));
    }

    [Fact]
    public void Tools_thatTheStockDoesNotListAtAll_areNotMissing()
    {
        KitReport kit = _tube.Kit(stock: Cases.DemoStock.Without(i => i is StockTool));

        Assert.DoesNotContain(kit.Shortages, s => s.Kind == KitKind.Tool);
        Assert.All(kit.Items.Where(i => i.Kind == KitKind.Tool), i => Assert.Null(i.InStock));
    }

    [Fact]
    public void Tool_missingFromAListOfTools_isAShortage()
    {
        Shortage shortage = _tube.Kit(stock: Cases.Stock(Head + Tools.Replace("tool,Wrench,2", "tool,Wrench,1", StringComparison.Ordinal))).Shortages.Single(s => s.Kind == KitKind.Tool);

        Assert.Contains("2 needed, 1 in stock", shortage.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ThreadOfTheStock_otherThanTheCases_isSaid() =>
        Assert.Contains(Cases.Example.Kit("near-far", Cases.DemoStock).Cautions, c => c.Text.StartsWith("The stock's thread is not the one", StringComparison.Ordinal));

    private static FourStiffnesses Stiffness(Case value, string id) => new Assessor(value).Assess(id, Cases.Stamp, "").Frames[0].Stiffness!.AtFracture;
}
