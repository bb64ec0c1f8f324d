using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Xunit;

namespace Halfpin.Search.Tests;

/// <summary>What is said where nothing was found, and what is taken for granted.</summary>
public class ConflictWordTests
{
    private static readonly StockPin _pin = new() { Name = "pin", Quantity = 9, DiameterMm = 5, LengthMm = 180, ThreadLengthMm = 30, Tip = PinTip.Predrilled, Material = "steel" };
    private static readonly StockRod _rod = new() { Name = "rod", Quantity = 4, DiameterMm = 11, LengthMm = 350, Material = "carbon" };

    [Fact]
    public void Stock_withoutPins_isSaidToHaveNone() => Assert.StartsWith("The stock has no pins, ", Words(_rod), StringComparison.Ordinal);

    [Fact]
    public void Stock_withoutRods_isSaidToHaveNone() => Assert.StartsWith("The stock has no rods, ", Words(_pin), StringComparison.Ordinal);

    [Fact]
    public void Stock_withPinsThatAreUsedUp_isSaidToHaveNeither() => Assert.StartsWith("The stock has no pins and no rods, ", Words(_pin with { Quantity = 0 }), StringComparison.Ordinal);

    // No room in 72.5 mm of bone between: no caution to accept mends that.
    [Fact]
    public void Distances_thatLeaveNoRoom_areToldInWordsWithoutTheAdviceToAcceptACaution()
    {
        string words = Nothing(61, 88);

        Assert.Matches("most fall to the distances leave no room for the pins \\([0-9]+ candidates\\)\\. Widen the search\\.", words);
        Assert.DoesNotContain("Accept a caution", words, StringComparison.Ordinal);
    }

    // All pins 9 mm or less from an oblique fracture: many of them in its plane.
    [Fact]
    public void Parts_thatCannotBeBuilt_areToldInWords() =>
        Assert.Matches("pins or rods meet each other, a fracture or the end of the bone \\([0-9]+ candidates\\)", Nothing(20, 9));

    [Theory]
    [InlineData(new double[] { 2, 3 }, "2 or 3 in each fragment, in the first plane on its rods, the first and the last 20, 23 or 51 mm from the fractures, alike in all fragments between")]
    [InlineData(new double[] { 1 }, "1 in each fragment, in the first plane on its rods, midway between two places 20, 23 or 51 mm from the fractures, alike in all fragments between")]
    [InlineData(new double[] { 1, 2 }, "1 or 2 in each fragment, in the first plane on its rods, the first and the last 20, 23 or 51 mm from the fractures, one alone midway between such places, alike in all fragments between")]
    public void Assumption_ofPinsBetween_isTrueOfOnePinToo(double[] pins, string words)
    {
        Case value = Bench.Segmental();
        SuggestReport report = Bench.Suggest(value with { Frames = [], Search = value.Search with { MiddlePins = [.. pins], AzimuthDeg = [50], StandoffMm = [52], FarMm = [71], NearMm = [28], PinsPerFragment = [2] } });

        Assert.Equal(words, report.Assumptions.Single(a => a.Name == "Pins between fractures").Value);
    }

    private static string Nothing(double middleEdgeMm, double farMm)
    {
        Case value = Bench.Segmental();
        return Assert.Single(Bench.Suggest(value with { Frames = [], Search = value.Search with { MiddleEdgeMm = [middleEdgeMm], NearMm = [3], FarMm = [farMm] } }).Conflicts).Words;
    }

    private static string Words(StockItem item)
    {
        Stock stock = new() { Format = Stock.FormatName, FormatVersion = 1, Title = "Invented", Items = [item] };
        RequirementConflict conflict = Assert.Single(Bench.Suggest(Bench.Demo() with { Frames = [] }, 2, stock).Conflicts);
        return conflict.Words;
    }
}
