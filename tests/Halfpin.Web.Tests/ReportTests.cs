using System.Net;
using System.Text.Json.Nodes;
using Xunit;

namespace Halfpin.Web.Tests;

public class ReportTests(RunningWorkbench workbench)
{
    private static readonly string _demo = Path.Combine(RunningWorkbench.Root, "examples", "01-oblique-fracture.json");
    private static readonly string _stock = Path.Combine(RunningWorkbench.Root, "examples", "demo-stock.csv");

    [Theory]
    [InlineData("/api/assessments", "assess CASE")]
    [InlineData("/api/assessments", "compare CASE")]
    [InlineData("/api/assessments?frame=two-plane", "assess CASE --frame two-plane")]
    [InlineData("/api/checks", "check CASE")]
    [InlineData("/api/corridors?level=113.7&frame=near-far", "corridors CASE --level 113.7 --frame near-far")]
    [InlineData("/api/kits?frame=near-far", "kit CASE --frame near-far")]
    [InlineData("/api/steps?frame=near-far", "steps CASE --frame near-far")]
    [InlineData("/api/healing?frame=near-far", "healing CASE --frame near-far")]
    [InlineData("/api/dynamisations?frame=double-rod&freeMm=0.7", "dynamise CASE --frame double-rod --free-mm 0.7")]
    [InlineData("/api/overloads?frame=near-far&toN=313", "overload CASE --frame near-far --to 313")]
    [InlineData("/api/indications", "indication CASE")]
    [InlineData("/api/alignments?ap=6&lat=-8.5&rotation=11&frame=near-far", "align CASE --ap 6 --lat -8.5 --rotation 11 --frame near-far")]
    public async Task Report_ofTheDemo_isWhatTheCommandLinePrints(string address, string verb)
    {
        using ByteArrayContent body = RunningWorkbench.Json(await File.ReadAllBytesAsync(_demo, TestContext.Current.CancellationToken));
        using HttpResponseMessage answer = await workbench.Client.PostAsync(address, body, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(RunningWorkbench.CommandLine([.. verb.Split(' ').Select(w => w == "CASE" ? _demo : w), "--json"]), await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Alignment_withoutACase_isWhatTheCommandLinePrints()
    {
        using HttpResponseMessage answer = await workbench.Client.PostAsync("/api/alignments?ap=19&lat=14&side=right", null, TestContext.Current.CancellationToken);

        Assert.Equal(RunningWorkbench.CommandLine("align", "--ap", "19", "--lat", "14", "--side", "right", "--json"), await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Kit_fromAStock_isWhatTheCommandLinePrints()
    {
        using MultipartFormDataContent parts = await PartsAsync("stock", _stock);
        using HttpResponseMessage answer = await workbench.Client.PostAsync("/api/kits?frame=near-far", parts, TestContext.Current.CancellationToken);

        Assert.Equal(RunningWorkbench.CommandLine("kit", _demo, "--frame", "near-far", "--stock", _stock, "--json"), await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Assessment_withAGait_isWhatTheCommandLinePrints()
    {
        string gait = Path.Combine(RunningWorkbench.Root, "examples", "05-gait-invented.csv");
        using MultipartFormDataContent parts = await PartsAsync("gait", gait);
        using HttpResponseMessage answer = await workbench.Client.PostAsync("/api/assessments?frame=near-far", parts, TestContext.Current.CancellationToken);

        Assert.Equal(RunningWorkbench.CommandLine("assess", _demo, "--frame", "near-far", "--gait", gait, "--json"), await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Schema_ofTheCase_isTheCommittedOne() =>
        Assert.Equal(await File.ReadAllTextAsync(Path.Combine(RunningWorkbench.Root, "schemas", "case.schema.json"), TestContext.Current.CancellationToken),
            await workbench.Client.GetStringAsync("/api/schemas/case", TestContext.Current.CancellationToken));

    [Fact]
    public async Task Examples_listed_areTheFiles()
    {
        JsonNode list = JsonNode.Parse(await workbench.Client.GetStringAsync("/api/examples", TestContext.Current.CancellationToken))!;

        Assert.Equal(4, list["examples"]!.AsArray().Count);
        foreach (JsonNode? example in list["examples"]!.AsArray())
        {
            Assert.Equal(RunningWorkbench.Example($"{(string)example!["name"]!}.json"), await workbench.Client.GetByteArrayAsync((string)example["case"]!, TestContext.Current.CancellationToken));
        }
    }

    private static async Task<MultipartFormDataContent> PartsAsync(string name, string file) => new()
    {
        { RunningWorkbench.Json(await File.ReadAllBytesAsync(_demo)), "case", "case.json" },
        { new ByteArrayContent(await File.ReadAllBytesAsync(file)) { Headers = { ContentType = new("text/csv") } }, name, Path.GetFileName(file) },
    };
}
