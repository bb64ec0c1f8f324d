using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Stocks;
using Halfpin.Storage.Stocks;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Edits;
using Halfpin.Workbench.Fields;
using Halfpin.Workbench.Skin;
using Halfpin.Workbench.Stocks;
using Xunit;

namespace Halfpin.Workbench.Tests;

public sealed class InjuryPageTests
{
    private static readonly ProgramStamp _program = new("Halfpin", "test");

    [Fact]
    public void Map_ofAWoundBehindTheLeg_hasTwoPatches()
    {
        Case value = Works.Demo with { Wounds = [new() { FromLevelMm = 140, ToLevelMm = 171, FromAzimuthDeg = 163, ToAzimuthDeg = -152 }] };
        SkinMap map = SkinMapBuilder.Of(value, []);
        Assert.Equal([(163, 180), (-180, -152)], map.Areas.Select(a => (a.FromDeg, a.ToDeg)));
        Assert.All(map.Areas, a => Assert.Equal("wound 1", a.Name));
    }

    [Fact]
    public void Map_ofATiltedFracture_slopesDownTowardItsTilt()
    {
        SkinFracture fracture = Assert.Single(SkinMapBuilder.Of(Works.Demo, []).Fractures);
        Assert.Equal(-60, fracture.Edges.MaxBy(e => e.DistalMm)!.AzimuthDeg, 45.0);
        Assert.All(fracture.Edges, e => Assert.Equal(Works.Demo.Fractures[0].GapMm, e.DistalMm - e.ProximalMm, 1e-9));
    }

    [Fact]
    public void Map_ofUntiltedPins_hasThemAtTheirLevelAndDirection()
    {
        SkinMap map = SkinMapBuilder.Of(Works.Demo, Works.Demo.Frames.Where(f => f.Id == "far-far"));
        Assert.Equal(4, map.Pins.Length);
        Assert.All(map.Pins, p => Assert.Equal(50, p.AzimuthDeg, 1e-6));
        Assert.All(map.Pins, p => Assert.Equal(CorridorGrade.Preferred, p.Grade));
    }

    [Fact]
    public void Map_ofATube_hasNoCorridors() => Assert.Empty(SkinMapBuilder.Of(ModelEdits.Bone(tube: true).Apply(Works.Demo), Works.Demo.Frames).Sectors);

    [Fact]
    public void Room_ofAFrameBroughtClose_failsAtTheSkin()
    {
        SkinRoom[] rooms = [.. SkinRoom.Of(Works.Demo, new(_program))];
        Assert.Equal(Works.Demo.Frames.Select(f => f.Id), rooms.Select(r => r.Frame));
        Assert.Equal(Verdict.Fail, rooms.Single(r => r.Frame == "near-far-close").Worst);
        Assert.Equal(Verdict.Pass, rooms.Single(r => r.Frame == "far-far").Worst);
    }

    [Fact]
    public void Summary_withoutARecord_saysThatNoReasonIsRecorded()
    {
        IndicationSummary summary = IndicationSummary.Of(Works.Demo with { Indication = null }, _program);
        Assert.Equal(Verdict.Caution, summary.Verdict);
        Assert.StartsWith("No reason for a frame is recorded", summary.Headline, StringComparison.Ordinal);
    }

    [Fact]
    public void Summary_ofAContradiction_isTheWorst()
    {
        IndicationSummary summary = IndicationSummary.Of(Works.Demo with { Indication = new() { Reasons = [FrameReason.Infection], Infection = false } }, _program);
        Assert.Equal(Verdict.Fail, summary.Verdict);
        Assert.Contains("1 contradiction", summary.Headline, StringComparison.Ordinal);
        Assert.Equal("infection", summary.For);
    }

    [Fact]
    public void Requirements_ofAPurpose_showItsLimitWithItsTag()
    {
        RequirementField motion = RequirementFields.Of(Works.Demo).Single(r => r.Pointer == "/requirements/mostOverloadAxialMm");
        Assert.Equal(("When empty: axial motion in the overload case at most 5 mm. A temporary frame holds until the next step. ASSUMED."), motion.UsualText);
        Assert.Null(RequirementFields.Of(Works.Demo with { Purpose = Purpose.Definitive }).Single(r => r.Pointer == motion.Pointer).Usual);
    }

    [Fact]
    public void Requirements_setByTheCase_stillShowTheUsual() =>
        Assert.Equal(1, RequirementFields.Of(Works.Demo with { Requirements = new() { MostAxialMm = 0.43 } })[0].Usual!.Limit);

    [Fact]
    public void Requirements_allStandInTheCase() =>
        Assert.All(RequirementFields.Of(Works.Demo), r => Assert.NotNull(CaseField.Find(Works.Demo, r.Pointer)));

    [Fact]
    public void Cautions_offered_areThoseOfTheFramesAndThoseAccepted()
    {
        Case value = Works.Demo with { Requirements = new() { AcceptCautions = ["one-plane"] } };
        string[] offered = [.. PlacementCautions.Of(value).Select(c => c.Key)];
        Assert.Contains("one-plane", offered);
        Assert.Contains("skin-room", offered);
        Assert.Equal(offered.Distinct(), offered);
    }

    [Fact]
    public void Stock_inTables_losesNoItem()
    {
        Stock stock = StockReader.Read(Works.Example("demo-stock.csv"), "demo-stock.csv").Stock!;
        var tables = StockWords.Tables(stock);
        Assert.Equal(stock.Items.Length, tables.Sum(t => t.Rows.Length));
        Assert.All(tables, t => Assert.All(t.Rows, r => Assert.Equal(t.Headings.Length, r.Length)));
    }

    [Fact]
    public void Stock_written_readsBackTheSame()
    {
        Stock stock = StockReader.Read(Works.Example("demo-stock.csv"), "demo-stock.csv").Stock!;
        StockReading again = StockReader.Read(StockWriter.Write(stock), "stock.json");
        Assert.Empty(again.Faults);
        Assert.Equal(stock.Items, again.Stock!.Items);
    }
}
