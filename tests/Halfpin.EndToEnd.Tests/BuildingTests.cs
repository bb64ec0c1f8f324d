using System.Text.Json.Nodes;
using Xunit;

namespace Halfpin.EndToEnd.Tests;

public sealed class BuildingTests : IDisposable
{
    private static readonly string _case = Run.Example("01-oblique-fracture.json");

    private readonly string _folder = Directory.CreateTempSubdirectory("halfpin-test").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("demo-stock.json")]
    [InlineData("demo-stock.csv")]
    public void Kit_fromTheDemoStock_hasEverythingAndTheKeysOfTheContract(string stock)
    {
        Run run = Run.Halfpin("kit", _case, "--frame", "two-plane", "--stock", Run.Example(stock), "--json");
        JsonNode json = JsonNode.Parse(run.Out)!;

        Assert.Equal(0, run.ExitCode);
        Assert.Equal("halfpin-kit", (string)json["format"]!);
        Assert.Empty(json["shortages"]!.AsArray());
        Assert.All(json["items"]!.AsArray(), i => Assert.All(new[] { "kind", "description", "lengthMm", "quantity", "inStock" }, key => Assert.True(i!.AsObject().ContainsKey(key), key)));
        Assert.Equal("pin", (string)json["items"]![0]!["kind"]!);
        Assert.Contains("not a medical device", (string)json["safetyNote"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void Kit_onTheScreen_hasSizesCautionsAndTheSafetyNote()
    {
        Run run = Run.Halfpin("kit", _case, "--frame", "near-far");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Half-pin 5 mm steel, for a drilled hole", run.Out, StringComparison.Ordinal);
        Assert.Contains("Have spare", run.Out, StringComparison.Ordinal);
        Assert.Contains("not a medical device", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Steps_ofTheExample_haveTheKeysOfTheContract()
    {
        Run run = Run.Halfpin("steps", _case, "--frame", "near-far", "--json");
        JsonNode json = JsonNode.Parse(run.Out)!;

        Assert.Equal(0, run.ExitCode);
        Assert.Equal("halfpin-steps", (string)json["format"]!);
        Assert.Equal(1, (int)json["steps"]![0]!["n"]!);
        Assert.All(json["steps"]!.AsArray(), s => Assert.All(new[] { "n", "text", "cautions" }, key => Assert.NotNull(s![key])));
        Assert.Contains("not a medical device", (string)json["safetyNote"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void Steps_withAReport_writesAPageToTickOff()
    {
        string page = Path.Combine(_folder, "steps.html");
        Run run = Run.Halfpin("steps", _case, "--frame", "near-far", "--stock", Run.Example("demo-stock.csv"), "--report", page);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("BEFORE LEAVING THEATRE", run.Out, StringComparison.Ordinal);
        Assert.Contains("type=\"checkbox\"", File.ReadAllText(page), StringComparison.Ordinal);
    }

    [Fact]
    public void StockWithFaults_ends3AndTellsThemAllByRowAndColumn()
    {
        string stock = Path.Combine(_folder, "bad.csv");
        File.WriteAllText(stock, "kind,name,quantity,diameterMm,lengthMm,material\nrod,A,-2,11,213,carbon\nrod,B,2,11,\"213,5\",carbon\n");
        Run run = Run.Halfpin("kit", _case, "--frame", "near-far", "--stock", stock);

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("2 faults", run.Error, StringComparison.Ordinal);
        Assert.Contains("row 2, column quantity", run.Error, StringComparison.Ordinal);
        Assert.Contains("row 3, column lengthMm", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Out);
    }

    [Fact]
    public void StockThatIsNotThere_ends5() => Assert.Equal(5, Run.Halfpin("kit", _case, "--frame", "near-far", "--stock", Path.Combine(_folder, "none.csv")).ExitCode);

    [Theory]
    [InlineData("kit")]
    [InlineData("steps")]
    public void UnknownFrame_ends2(string verb)
    {
        Run run = Run.Halfpin(verb, _case, "--frame", "nowhere");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("near-far", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("kit")]
    [InlineData("steps")]
    public void Mechanism_ends4AndSaysThatItDoesNotHold(string verb)
    {
        JsonNode assessed = JsonNode.Parse(Run.Halfpin("assess", Run.Example("04-segmental-fracture.json"), "--json").Out)!;
        string loose = (string)assessed["frames"]!.AsArray().First(f => (string)f!["status"]! == "mechanism")!["id"]!;
        Run run = Run.Halfpin(verb, Run.Example("04-segmental-fracture.json"), "--frame", loose);

        Assert.Equal(4, run.ExitCode);
        Assert.Contains("This frame does not hold the fracture.", run.Out, StringComparison.Ordinal);
    }
}
