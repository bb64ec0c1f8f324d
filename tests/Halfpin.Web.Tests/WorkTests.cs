using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using Xunit;

namespace Halfpin.Web.Tests;

public class WorkTests(RunningWorkbench workbench)
{
    [Fact]
    public async Task Work_created_isListedAndReadBack()
    {
        (Uri address, string tag) = await CreateAsync();
        using HttpResponseMessage read = await workbench.Client.GetAsync(address, TestContext.Current.CancellationToken);

        Assert.Equal(tag, read.Headers.ETag!.Tag);
        Assert.False(read.Headers.ETag.IsWeak);
        Assert.Contains("Invented", await read.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Contains(address.OriginalString, await workbench.Client.GetStringAsync("/api/works", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Case_thatIsKnown_isNotSentAgain()
    {
        (Uri address, string tag) = await CreateAsync();
        using HttpRequestMessage request = new(HttpMethod.Get, address) { Headers = { IfNoneMatch = { new(tag) } } };
        using HttpResponseMessage answer = await workbench.Client.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NotModified, answer.StatusCode);
    }

    [Fact]
    public async Task Case_replacedOnItsTag_hasANewTagAndTheNewContent()
    {
        (Uri address, string tag) = await CreateAsync();
        using HttpResponseMessage put = await PutAsync(address, tag, 51.3);
        JsonNode now = JsonNode.Parse(await workbench.Client.GetStringAsync(address, TestContext.Current.CancellationToken))!;

        Assert.Equal(HttpStatusCode.OK, put.StatusCode);
        Assert.NotEqual(tag, put.Headers.ETag!.Tag);
        Assert.Equal(51.3, (double)now["frames"]![0]!["construct"]!["standoffMm"]!);
    }

    [Fact]
    public async Task Case_changedMeanwhile_is412_andStays()
    {
        (Uri address, string tag) = await CreateAsync();
        using HttpResponseMessage first = await PutAsync(address, tag, 47.7);
        using HttpResponseMessage late = await PutAsync(address, tag, 61.9);
        JsonNode now = JsonNode.Parse(await workbench.Client.GetStringAsync(address, TestContext.Current.CancellationToken))!;

        Assert.Equal(HttpStatusCode.PreconditionFailed, late.StatusCode);
        Assert.Equal(47.7, (double)now["frames"]![0]!["construct"]!["standoffMm"]!);
    }

    [Theory]
    [InlineData("PUT")]
    [InlineData("DELETE")]
    public async Task Change_withoutATag_is428(string method)
    {
        (Uri address, _) = await CreateAsync();
        using HttpRequestMessage request = new(new(method), address) { Content = RunningWorkbench.Json(Changed(44.4)) };
        using HttpResponseMessage answer = await workbench.Client.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.PreconditionRequired, answer.StatusCode);
    }

    [Fact]
    public async Task WeakTag_isNoBasisForAChange()
    {
        (Uri address, string tag) = await CreateAsync();
        using HttpRequestMessage request = new(HttpMethod.Put, address) { Content = RunningWorkbench.Json(Changed(44.4)), Headers = { IfMatch = { new(tag, isWeak: true) } } };
        using HttpResponseMessage answer = await workbench.Client.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.PreconditionFailed, answer.StatusCode);
    }

    [Fact]
    public async Task Change_toAFaultyCase_is422_andChangesNothing()
    {
        (Uri address, string tag) = await CreateAsync();
        using HttpResponseMessage put = await PutAsync(address, tag, -1);
        using HttpResponseMessage read = await workbench.Client.GetAsync(address, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, put.StatusCode);
        Assert.Equal(tag, read.Headers.ETag!.Tag);
    }

    [Fact]
    public async Task Work_deletedOnItsTag_isGone()
    {
        (Uri address, string tag) = await CreateAsync();
        using HttpRequestMessage request = new(HttpMethod.Delete, address) { Headers = { IfMatch = { new(tag) } } };
        using HttpResponseMessage deleted = await workbench.Client.SendAsync(request, TestContext.Current.CancellationToken);
        using HttpResponseMessage read = await workbench.Client.GetAsync(address, TestContext.Current.CancellationToken);

        Assert.Equal((HttpStatusCode.NoContent, HttpStatusCode.NotFound), (deleted.StatusCode, read.StatusCode));
    }

    [Fact]
    public async Task Work_createdAgainUnderItsKey_isTheSame_andAnotherCaseIsRefused()
    {
        string key = Guid.NewGuid().ToString();
        using HttpResponseMessage first = await CreateAsync(key, Changed(41.5)), again = await CreateAsync(key, Changed(41.5)), other = await CreateAsync(key, Changed(42.5));

        Assert.Equal(first.Headers.Location, again.Headers.Location);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, other.StatusCode);
        Assert.Contains("/problems/key-taken", await other.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    private static byte[] Changed(double standoffMm)
    {
        JsonNode value = JsonNode.Parse(RunningWorkbench.Example("01-oblique-fracture.json"))!;
        value["frames"]![0]!["construct"]!["standoffMm"] = standoffMm;
        return Encoding.UTF8.GetBytes(value.ToJsonString());
    }

    private async Task<HttpResponseMessage> CreateAsync(string key, byte[] value)
    {
        using HttpRequestMessage request = new(HttpMethod.Post, "/api/works") { Content = RunningWorkbench.Json(value), Headers = { { "Idempotency-Key", key } } };
        return await workbench.Client.SendAsync(request, TestContext.Current.CancellationToken);
    }

    private async Task<(Uri Address, string Tag)> CreateAsync()
    {
        using ByteArrayContent body = RunningWorkbench.Json(RunningWorkbench.Example("01-oblique-fracture.json"));
        using HttpResponseMessage answer = await workbench.Client.PostAsync("/api/works", body, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return (answer.Headers.Location!, answer.Headers.ETag!.Tag);
    }

    private async Task<HttpResponseMessage> PutAsync(Uri address, string tag, double standoffMm)
    {
        using HttpRequestMessage request = new(HttpMethod.Put, address) { Content = RunningWorkbench.Json(Changed(standoffMm)), Headers = { IfMatch = { new EntityTagHeaderValue(tag) } } };
        return await workbench.Client.SendAsync(request, TestContext.Current.CancellationToken);
    }
}
