using System.Net;
using System.Net.ServerSentEvents;
using System.Text.Json.Nodes;
using Xunit;

namespace Halfpin.Web.Tests;

public class JobTests(RunningWorkbench workbench)
{
    private static readonly string _demo = Path.Combine(RunningWorkbench.Root, "examples", "01-oblique-fracture.json");

    [Fact]
    public async Task Study_done_hasTheReportOfTheCommandLine()
    {
        Uri study = await BeginAsync("/api/studies?kind=uncertainty&frame=near-far&samples=700&seed=7");
        JsonNode ended = await EndAsync(study);

        Assert.Equal("done", (string)ended["state"]!);
        Assert.True(JsonNode.DeepEquals(
            JsonNode.Parse(RunningWorkbench.CommandLine("uncertainty", _demo, "--frame", "near-far", "--samples", "700", "--seed", "7", "--json")), ended["result"]));
    }

    [Fact]
    public async Task Variation_done_hasTheReportOfTheCommandLine()
    {
        Uri study = await BeginAsync("/api/studies?kind=vary&frame=near-far&over=standoffMm%3D33..71:4");
        JsonNode ended = await EndAsync(study);

        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(RunningWorkbench.CommandLine("vary", _demo, "--frame", "near-far", "--over", "standoffMm=33..71:4", "--json")), ended["result"]));
    }

    [Fact]
    public async Task Events_ofAStudy_riseAndEnd()
    {
        Uri study = await BeginAsync("/api/studies?kind=uncertainty&frame=near-far&samples=20000");
        List<(string Type, JsonNode Data)> events = [];
        using Stream stream = await workbench.Client.GetStreamAsync($"{study}/events", TestContext.Current.CancellationToken);
        await foreach (SseItem<string> item in SseParser.Create(stream).EnumerateAsync(TestContext.Current.CancellationToken))
        {
            events.Add((item.EventType, JsonNode.Parse(item.Data)!));
        }

        long[] done = [.. events.Select(e => (long)e.Data["done"]!)];
        Assert.Equal("ended", events[^1].Type);
        Assert.Equal("done", (string)events[^1].Data["state"]!);
        Assert.Equal(done.Order(), done);
        Assert.True(events.Count > 2);
    }

    [Fact]
    public async Task Search_stopped_endsWithoutAResult_andIsThenForgotten()
    {
        Uri search = await BeginAsync("/api/searches");
        using HttpResponseMessage asked = await workbench.Client.DeleteAsync(search, TestContext.Current.CancellationToken);
        JsonNode ended = await EndAsync(search);
        using HttpResponseMessage forgotten = await workbench.Client.DeleteAsync(search, TestContext.Current.CancellationToken);
        using HttpResponseMessage read = await workbench.Client.GetAsync(search, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NoContent, asked.StatusCode);
        Assert.Equal("stopped", (string)ended["state"]!);
        Assert.Null(ended["result"]);
        Assert.Equal(HttpStatusCode.NotFound, read.StatusCode);
    }

    [Fact]
    public async Task Work_beyondWhatMayRunAtOnce_is429_andComesLater()
    {
        const string Long = "/api/studies?kind=uncertainty&frame=near-far&samples=900000";
        Uri[] running = [await BeginAsync(Long), await BeginAsync(Long)];
        using ByteArrayContent body = RunningWorkbench.Json(await File.ReadAllBytesAsync(_demo, TestContext.Current.CancellationToken));
        using HttpResponseMessage third = await workbench.Client.PostAsync(Long, body, TestContext.Current.CancellationToken);
        foreach (Uri study in running)
        {
            using HttpResponseMessage stopped = await workbench.Client.DeleteAsync(study, TestContext.Current.CancellationToken);
            Assert.Equal("stopped", (string)(await EndAsync(study))["state"]!);
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, third.StatusCode);
        Assert.True(third.Headers.RetryAfter!.Delta > TimeSpan.Zero);
        await EndAsync(await BeginAsync("/api/studies?kind=vary&frame=near-far&over=standoffMm%3D33..71:3"));
    }

    [Fact]
    public async Task Study_begunAgainUnderItsKey_isTheSame()
    {
        string key = Guid.NewGuid().ToString();
        Uri first = await BeginAsync("/api/studies?kind=vary&frame=near-far&over=standoffMm%3D33..71:3", key), again = await BeginAsync("/api/studies?kind=vary&frame=near-far&over=standoffMm%3D33..71:3", key);
        await EndAsync(first);

        Assert.Equal(first, again);
    }

    [Fact]
    public async Task Study_isNoSearch()
    {
        Uri study = await BeginAsync("/api/studies?kind=vary&frame=near-far&over=standoffMm%3D33..71:3");
        await EndAsync(study);
        using HttpResponseMessage answer = await workbench.Client.GetAsync(study.OriginalString.Replace("studies", "searches", StringComparison.Ordinal), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    private async Task<Uri> BeginAsync(string address, string? key = null)
    {
        using HttpRequestMessage request = new(HttpMethod.Post, address) { Content = RunningWorkbench.Json(await File.ReadAllBytesAsync(_demo)) };
        if (key is not null)
        {
            request.Headers.Add("Idempotency-Key", key);
        }

        using HttpResponseMessage answer = await workbench.Client.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Accepted, answer.StatusCode);
        return answer.Headers.Location!;
    }

    private async Task<JsonNode> EndAsync(Uri address)
    {
        while (true)
        {
            JsonNode now = JsonNode.Parse(await workbench.Client.GetStringAsync(address, TestContext.Current.CancellationToken))!;
            if ((string)now["state"]! is not ("running" or "stopping"))
            {
                return now;
            }

            await Task.Delay(150, TestContext.Current.CancellationToken);
        }
    }
}
