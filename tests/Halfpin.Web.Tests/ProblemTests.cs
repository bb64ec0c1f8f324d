using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Xunit;

namespace Halfpin.Web.Tests;

public partial class ProblemTests(RunningWorkbench workbench)
{
    private static readonly byte[] _demo = RunningWorkbench.Example("01-oblique-fracture.json");

    [Fact]
    public async Task Text_thatIsNoJson_is400_withItsPlace()
    {
        JsonNode problem = await ProblemAsync("/api/assessments", """{ "format": "halfpin-case", """u8.ToArray(), HttpStatusCode.BadRequest, "not-json");

        Assert.Contains("line 1, byte", (string)problem["errors"]![0]!["message"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Case_withTwoFaults_is422_withBoth()
    {
        JsonNode value = JsonNode.Parse(_demo)!;
        value["limb"]!["lengthMm"] = 35.2;
        value["fracturs"] = 1;

        JsonNode problem = await ProblemAsync("/api/checks", Encoding.UTF8.GetBytes(value.ToJsonString()), HttpStatusCode.UnprocessableEntity, "invalid-case");
        JsonNode length = problem["errors"]!.AsArray().Single(e => (string)e!["pointer"]! == "/limb/lengthMm")!;

        Assert.Equal("range", (string)length["code"]!);
        Assert.Contains("mm", (string)length["allowed"]!, StringComparison.Ordinal);
        Assert.NotEqual("", (string)length["try"]!);
        Assert.Contains(problem["errors"]!.AsArray(), e => (string)e!["pointer"]! == "/fracturs" && (string)e["code"]! == "unknownMember");
    }

    [Fact]
    public async Task Faults_ofACase_areThoseOfTheCommandLine()
    {
        JsonNode value = JsonNode.Parse(_demo)!;
        value["frames"]![0]!["construct"]!["standoffMm"] = -3;
        byte[] bytes = Encoding.UTF8.GetBytes(value.ToJsonString());
        string file = Path.GetTempFileName();
        await File.WriteAllBytesAsync(file, bytes, TestContext.Current.CancellationToken);

        JsonArray ours = (await ProblemAsync("/api/assessments", bytes, HttpStatusCode.UnprocessableEntity, "invalid-case"))["errors"]!.AsArray();
        JsonArray theirs = JsonNode.Parse(RunningWorkbench.CommandLine("assess", file, "--json"))!["faults"]!.AsArray();
        File.Delete(file);

        Assert.NotEmpty(theirs);
        Assert.Equal(theirs.Select(f => (string)f!["pointer"]! + f["message"]), ours.Select(f => (string)f!["pointer"]! + f["message"]));
    }

    [Fact]
    public async Task Body_overTheLimit_is413() => await ProblemAsync("/api/assessments", new byte[(2 * 1024 * 1024) + 1], HttpStatusCode.RequestEntityTooLarge, "too-large");

    [Fact]
    public async Task Body_ofAnotherType_is415()
    {
        using StringContent body = new("a,b", Encoding.UTF8, "text/csv");
        using HttpResponseMessage answer = await workbench.Client.PostAsync("/api/assessments", body, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.UnsupportedMediaType, answer.StatusCode);
    }

    [Theory]
    [InlineData("/api/corridors", "level", "missing")]
    [InlineData("/api/corridors?level=12,5", "level", "type")]
    [InlineData("/api/corridors?level=352.1", "level", "range")]
    [InlineData("/api/corridors?level=100&level=101", "level", "duplicateMember")]
    [InlineData("/api/assessments?frame=near-fa", "frame", "reference")]
    [InlineData("/api/assessments?fram=near-far", "fram", "unknownMember")]
    [InlineData("/api/overloads?frame=near-far&toN=0", "toN", "range")]
    [InlineData("/api/alignments?ap=6&lat=-8&apShift=4", "latShift", "missing")]
    [InlineData("/api/studies?kind=vary&frame=near-far&over=standoffMm%3D90..20", "over standoffMm=90..20", "inconsistent")]
    [InlineData("/api/studies?kind=uncertainty&frame=near-far&samples=3", "samples", "range")]
    [InlineData("/api/studies?frame=near-far", "kind", "missing")]
    public async Task Parameter_thatDoesNotFit_is422_byName(string address, string name, string code)
    {
        JsonNode problem = await ProblemAsync(address, _demo, HttpStatusCode.UnprocessableEntity, "invalid-parameter");

        Assert.Contains(problem["errors"]!.AsArray(), e => (string)e!["in"]! == "query" && (string)e["pointer"]! == name && (string)e["code"]! == code);
        Assert.DoesNotContain("--", problem["errors"]!.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stock_withFaults_is422_ofItsOwnKind()
    {
        using MultipartFormDataContent parts = new()
        {
            { RunningWorkbench.Json(_demo), "case", "case.json" },
            { new StringContent("""{ "format": "halfpin-stock", "formatVersion": 1, "items": [ { "kind": "pin", "diameterMm": 99 } ] }"""), "stock", "../../etc/stock.json" },
        };
        using HttpResponseMessage answer = await workbench.Client.PostAsync("/api/kits?frame=near-far", parts, TestContext.Current.CancellationToken);
        JsonNode problem = JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;

        Assert.Equal("/problems/invalid-stock", (string)problem["type"]!);
        Assert.All(problem["errors"]!.AsArray(), e => Assert.Equal("stock", (string)e!["in"]!));
    }

    [Fact]
    public async Task Address_ofNothing_is404_asAProblem()
    {
        using HttpResponseMessage answer = await workbench.Client.GetAsync("/api/schemas/cas", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains("Did you mean", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Kinds_inTheDocument_areThoseOfThePage_andCanBeRead()
    {
        string openApi = await File.ReadAllTextAsync(Path.Combine(RunningWorkbench.Root, "docs", "openapi.json"), TestContext.Current.CancellationToken);
        string page = await File.ReadAllTextAsync(Path.Combine(RunningWorkbench.Root, "docs", "http-api.md"), TestContext.Current.CancellationToken);
        string[] known = [.. Kind().Matches(openApi).Select(m => m.Value).Distinct().Order()];

        Assert.Equal(known, Kind().Matches(page).Select(m => m.Value).Distinct().Order());
        foreach (string kind in known)
        {
            Assert.Contains("HTTP status", await workbench.Client.GetStringAsync(kind, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
    }

    private async Task<JsonNode> ProblemAsync(string address, byte[] bytes, HttpStatusCode status, string kind)
    {
        using ByteArrayContent body = RunningWorkbench.Json(bytes);
        using HttpResponseMessage answer = await workbench.Client.PostAsync(address, body, TestContext.Current.CancellationToken);
        JsonNode problem = JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;

        Assert.Equal(status, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        Assert.Equal($"/problems/{kind}", (string)problem["type"]!);
        Assert.Equal((int)status, (int)problem["status"]!);
        return problem;
    }

    [GeneratedRegex("/problems/[a-z-]+")]
    private static partial Regex Kind();
}
