using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Storage.Stocks;
using Halfpin.Workbench.Building;
using Xunit;

namespace Halfpin.Workbench.Tests.Building;

public class BuildingPlanTests
{
    private static readonly Stock _stock = StockReader.Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", "demo-stock.json")), "demo-stock.json").Stock!;

    [Fact]
    public void Plan_withoutStock_countsBySize()
    {
        BuildingPlan plan = Plan(Examples.Oblique, "near-far", null);

        Assert.Equal("4 pins, 1 rod, 4 clamps, by size: this work has no stock to take them from.", plan.KitHeadline);
        Assert.Empty(plan.Kit.Shortages);
    }

    [Fact]
    public void Plan_fromAStockWithoutRods_saysHowMuchIsMissing()
    {
        BuildingPlan plan = Plan(Examples.Oblique, "near-far", _stock with { Items = [.. _stock.Items.Where(i => i is not StockRod)] });

        Assert.NotEmpty(plan.Kit.Shortages);
        Assert.Contains(plan.Kit.Shortages.Length == 1 ? "one thing is missing" : $"{plan.Kit.Shortages.Length} things are missing", plan.KitHeadline, StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_ofAFrameThatDoesNotHold_warnsBeforeAnythingElse()
    {
        Frame bare = new() { Id = "bare", Parts = ConstructBuilder.Build(Examples.Oblique.Named("near-far").Construct!, Examples.Oblique.Fractures) with { Clamps = [] } };
        BuildingPlan plan = Plan(Examples.Oblique with { Frames = [bare] }, "bare", null);

        Assert.StartsWith("This frame does not hold the fracture.", plan.Warnings[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Sheet_hasEveryStepAndTheSafetyNote()
    {
        BuildingPlan plan = Plan(Examples.Oblique, "two-plane", null);
        string sheet = System.Net.WebUtility.HtmlDecode(plan.Sheet(Examples.Oblique, Examples.Oblique.Named("two-plane")));

        Assert.All(plan.Steps.Steps, s => Assert.Contains(s.Text, sheet, StringComparison.Ordinal));
        Assert.Contains(Safety.Note, sheet, StringComparison.Ordinal);
    }

    private static BuildingPlan Plan(Case value, string frame, Stock? stock) => BuildingPlan.Of(value, value.Named(frame), stock, null, Examples.Stamp);
}
