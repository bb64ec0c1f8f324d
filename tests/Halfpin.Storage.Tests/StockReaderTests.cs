using System.Text;
using CsCheck;
using Halfpin.Domain.Stocks;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Stocks;
using Xunit;

namespace Halfpin.Storage.Tests;

public class StockReaderTests
{
    private const string Head = "kind,name,quantity,diameterMm,lengthMm,threadLengthMm,coreDiameterMm,tip,material\n";

    private static readonly string _json = Example("demo-stock.json");
    private static readonly string _csv = Example("demo-stock.csv");

    [Fact]
    public void DemoStock_asJsonAndAsCsv_isTheSame()
    {
        StockReading json = Read(_json, "s.json"), csv = Read(_csv, "s.csv");

        Assert.Empty(json.Faults);
        Assert.Empty(csv.Faults);
        Assert.Equal(48, json.Stock!.Items.Length);
        Assert.Equal(json.Stock.Items, csv.Stock!.Items);
    }

    [Fact]
    public void DemoStock_saysThatItIsInvented()
    {
        Assert.Contains("Invented", Read(_json, "s.json").Stock!.Title, StringComparison.Ordinal);
        Assert.Contains("Invented for demonstration", _csv, StringComparison.Ordinal);
    }

    [Fact]
    public void Csv_withFaultsOfEveryKind_tellsThemAllByRowAndColumn()
    {
        StockReading reading = Read(
            Head
            + "pin,A,4,\"5,3\",117,37,,predrilled,steel\n"
            + "pin,B,2.5,4.7,29,31,4.9,blunt,steel\n"
            + "pin,C,3,4.7,63,71,4.9,predrilled,steel\n"
            + "rod,D,3,11,213,17,,,carbon\n"
            + "plate,E,1,,,,,,\n"
            + "rod,F,,11,213,,,,carbon,extra\n",
            "s.csv");

        Assert.Null(reading.Stock);
        Assert.Equal(
            [
                "row 2, column diameterMm type", "row 3, column lengthMm range", "row 3, column quantity type", "row 3, column tip choice",
                "row 4, column coreDiameterMm inconsistent", "row 4, column threadLengthMm inconsistent", "row 5, column threadLengthMm unknownMember",
                "row 6, column kind choice", "row 7, column 10 unknownMember", "row 7, column quantity missing",
            ],
            reading.Faults.Select(f => $"{f.Pointer} {f.Code}").Order(StringComparer.Ordinal));
        Assert.Contains("decimal comma", reading.Faults.First(f => f.Pointer == "row 2, column diameterMm").Try, StringComparison.Ordinal);
        Assert.All(reading.Faults, f => Assert.True(f.Message.Length > 0 && f.Allowed.Length > 0 && f.Try.Length > 0));
    }

    [Fact]
    public void Csv_withAnUnknownHeading_guessesTheRightOne()
    {
        Fault fault = Assert.Single(Read("kind,name,quantity,diametrMm,diameterMm,lengthMm,material\nrod,R,2,,11,213,carbon\n", "s.csv").Faults);

        Assert.Equal("row 1, column 4", fault.Pointer);
        Assert.Contains("diameterMm", fault.Try, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(';')]
    [InlineData('\t')]
    public void Csv_withAnotherSeparator_isRead(char separator)
    {
        StockReading reading = Read($"kind,name,quantity,diameterMm,lengthMm,material\nrod,R,2,10.7,213.5,carbon\n".Replace(',', separator), "s.csv");

        Assert.Equal(new StockRod { Name = "R", Quantity = 2, DiameterMm = 10.7, LengthMm = 213.5, Material = "carbon" }, Assert.Single(reading.Stock!.Items));
    }

    [Fact]
    public void Json_withFaultsOfFormAndContent_tellsThemAllByPointer()
    {
        StockReading reading = Read(
            """
            { "format": "halfpin-stock", "formatVersion": 1, "title": "t", "colour": 1, "items": [
              { "kind": "clamp", "name": "A", "quantity": -3, "joins": "pinToRod", "fromDiameterMm": 4, "toDiameterMm": 6, "rodDiameterMm": 11 },
              { "kind": "clamp", "name": "B", "quantity": 3, "joins": "pinToRod", "fromDiameterMm": 6.5, "toDiameterMm": 4.5, "rodDiameterMm": 11 },
              { "kind": "tool", "name": "C", "quantity": 1, "tool": "drill" },
              { "kind": "rod", "name": "D", "quantity": 1, "diameterMm": 9, "innerDiameterMm": 9.5, "lengthMm": 213, "material": "carbon", "materiel": "x" } ] }
            """,
            "s.json");

        Assert.Equal(
            ["/colour unknownMember", "/items/0/quantity range", "/items/1/fromDiameterMm inconsistent", "/items/2/diameterMm missing", "/items/3/materiel unknownMember"],
            reading.Faults.Select(f => $"{f.Pointer} {f.Code}").Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("{}", "/format")]
    [InlineData("{ \"format\": \"halfpin-stock\", \"formatVersion\": 2 }", "/formatVersion")]
    [InlineData("[]", "")]
    [InlineData("{", "")]
    public void File_ofAnotherKind_isRefusedWithItsPlace(string text, string pointer) => Assert.Equal(pointer, Assert.Single(Read(text, "s.json").Faults).Pointer);

    [Theory]
    [InlineData("")]
    [InlineData("kind,name,quantity\n")]
    [InlineData("\n\n")]
    public void Csv_withoutItems_isRefused(string text) => Assert.NotEmpty(Read(text, "s.csv").Faults);

    [Fact]
    public void AnyBytes_neverThrow() => Gen.Byte.Array[0, 300].Sample(bytes =>
        StockReader.Read(bytes, "s.csv").Stock is null && StockReader.Read(bytes, "s.json").Stock is null);

    [Fact]
    public void AnyDamageToAGoodTable_neverThrowsAndIsReadOrTold() => Gen.Select(
        Gen.Int[0, _csv.Length - 1], Gen.OneOf(Gen.Const(""), Gen.Const(","), Gen.Const("\""), Gen.Const("\n"), Gen.Const("NaN"), Gen.Const("-1"), Gen.Const("\u0000"), Gen.Const(";"), Gen.Const("9e999"))).Array[1, 5].Sample(damage =>
    {
        string text = damage.Aggregate(_csv, (t, d) => t.Remove(Math.Min(d.Item1, t.Length - 1), 1).Insert(Math.Min(d.Item1, t.Length - 1), d.Item2));
        StockReading reading = Read(text, "s.csv");
        return reading.Stock is null == reading.Faults.Length > 0;
    });

    private static StockReading Read(string text, string name) => StockReader.Read(Encoding.UTF8.GetBytes(text), name);

    private static string Example(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "examples", name));
}
