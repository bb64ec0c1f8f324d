using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Xunit;

namespace Halfpin.Web.Tests;

public partial class OpenApiTests(RunningWorkbench workbench)
{
    private static readonly string _committed = Path.Combine(RunningWorkbench.Root, "docs", "openapi.json");

    [Fact]
    public async Task Document_committed_isWhatTheServerGives()
    {
        string served = await workbench.Client.GetStringAsync("/openapi/v1.json", TestContext.Current.CancellationToken);
        string committed = await File.ReadAllTextAsync(_committed, TestContext.Current.CancellationToken);

        Assert.True(served == committed,
            "docs/openapi.json is not what the server gives. If the change is meant: halfpin serve --port 5771 --no-browser, then "
            + "curl -H 'Halfpin-Key: KEY' http://127.0.0.1:5771/openapi/v1.json > docs/openapi.json, with the KEY of the printed address.");
    }

    [Fact]
    public async Task References_leadSomewhere_onTheServerAndInTheSourceTree()
    {
        string document = await File.ReadAllTextAsync(_committed, TestContext.Current.CancellationToken);
        string[] outside = [.. Outside().Matches(document).Select(m => m.Groups[1].Value).Distinct()];

        Assert.NotEmpty(outside);
        foreach (string reference in outside)
        {
            Assert.True(File.Exists(Path.Combine(Path.GetDirectoryName(_committed)!, reference)), reference);
            Assert.Contains("$schema", await workbench.Client.GetStringAsync(new Uri(new Uri(workbench.Address, "/openapi/v1.json"), reference), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task ReferencesInside_allResolve()
    {
        JsonNode document = JsonNode.Parse(await File.ReadAllTextAsync(_committed, TestContext.Current.CancellationToken))!;

        Assert.All(Inside().Matches(document.ToJsonString()).Select(m => m.Groups[1].Value).Distinct(), pointer =>
            Assert.NotNull(pointer.Split('/').Skip(1).Aggregate((JsonNode?)document, (node, step) => node?[step])));
    }

    [Fact]
    public async Task Operations_haveIdsOfTheirOwn()
    {
        JsonNode document = JsonNode.Parse(await File.ReadAllTextAsync(_committed, TestContext.Current.CancellationToken))!;
        string[] ids = [.. document["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject()).Select(o => (string)o.Value!["operationId"]!)];

        Assert.Equal(ids.Distinct(), ids);
    }

    [Fact]
    public async Task Example_ofTheDocument_isAnswered()
    {
        JsonNode document = JsonNode.Parse(await File.ReadAllTextAsync(_committed, TestContext.Current.CancellationToken))!;
        string example = document["components"]!["examples"]!["shortCase"]!["value"]!.ToJsonString();
        using ByteArrayContent body = RunningWorkbench.Json(System.Text.Encoding.UTF8.GetBytes(example));
        using HttpResponseMessage answer = await workbench.Client.PostAsync("/api/assessments", body, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [GeneratedRegex("\"\\$ref\": \"(\\.\\./[^\"]+)\"")]
    private static partial Regex Outside();

    [GeneratedRegex("\"\\$ref\":\"#([^\"]+)\"")]
    private static partial Regex Inside();
}
