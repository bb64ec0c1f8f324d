using System.Net;
using Xunit;

namespace Halfpin.Web.Tests;

public class GuardTests(RunningWorkbench workbench)
{
    private string Host => $"Host: {workbench.Address.Authority}";

    private string Key => $"Halfpin-Key: {workbench.Token}";

    private string Cookie => $"Cookie: halfpin-key-{workbench.Address.Port}={workbench.Token}";

    private string Origin => $"Origin: http://{workbench.Address.Authority}";

    [Theory]
    [InlineData("evil.example")]
    [InlineData("localhost.")]
    [InlineData("127.0.0.1.evil.example")]
    [InlineData("[::1]")]
    [InlineData("0.0.0.0")]
    [InlineData("2130706433")]
    public async Task Host_thatIsNotOurs_is421(string host) =>
        Assert.StartsWith("HTTP/1.1 421", await RawRequest.GetAsync(workbench.Address, "/api/works", $"Host: {host}:{workbench.Address.Port}", Key), StringComparison.Ordinal);

    [Theory]
    [InlineData("Host: 127.0.0.1")]
    [InlineData("Host: 127.0.0.1:1")]
    [InlineData("Host: localhost:65535")]
    public async Task Port_thatIsNotOurs_is421(string host) =>
        Assert.StartsWith("HTTP/1.1 421", await RawRequest.GetAsync(workbench.Address, "/api/works", host, Key), StringComparison.Ordinal);

    [Fact]
    public async Task AbsoluteAddress_ofAnotherHost_isRefused() =>
        Assert.StartsWith("HTTP/1.1 4", await RawRequest.GetAsync(workbench.Address, $"http://evil.example:{workbench.Address.Port}/api/works", Host, Key), StringComparison.Ordinal);

    [Fact]
    public async Task Localhost_byName_isOurs() =>
        Assert.StartsWith("HTTP/1.1 200", await RawRequest.GetAsync(workbench.Address, "/api/works", $"Host: LocalHost:{workbench.Address.Port}", Key), StringComparison.Ordinal);

    [Theory]
    [InlineData("http://evil.example")]
    [InlineData("null")]
    [InlineData("http://127.0.0.1:1")]
    [InlineData("https://127.0.0.1:PORT")]
    [InlineData("http://localhost:PORT")]
    [InlineData("http://127.0.0.1:PORT.evil.example")]
    public async Task Origin_thatIsNotOurs_is403(string origin) =>
        Assert.StartsWith("HTTP/1.1 403", await RawRequest.GetAsync(workbench.Address, "/api/works", Host, Key, $"Origin: {origin.Replace("PORT", $"{workbench.Address.Port}", StringComparison.Ordinal)}"), StringComparison.Ordinal);

    [Theory]
    [InlineData("cross-site")]
    [InlineData("same-site")]
    public async Task Fetch_ofAnotherPage_is403(string site) =>
        Assert.StartsWith("HTTP/1.1 403", await RawRequest.GetAsync(workbench.Address, "/api/works", Host, Cookie, $"Sec-Fetch-Site: {site}", "Sec-Fetch-Mode: no-cors", "Sec-Fetch-Dest: image"), StringComparison.Ordinal);

    [Fact]
    public async Task Request_withoutAKey_is401_everywhere()
    {
        using HttpClient stranger = workbench.Stranger();
        foreach (string address in new[] { "/", "/api/works", "/openapi/v1.json", "/workbench.css", "/problems/not-json", "/nowhere", "/?key=", "/?key=0000" })
        {
            using HttpResponseMessage answer = await stranger.GetAsync(address, TestContext.Current.CancellationToken);

            Assert.Equal((address, HttpStatusCode.Unauthorized), (address, answer.StatusCode));
        }
    }

    [Fact]
    public async Task Key_thatIsWrong_is401() =>
        Assert.StartsWith("HTTP/1.1 401", await RawRequest.GetAsync(workbench.Address, "/api/works", Host, $"Halfpin-Key: {workbench.Token[..^1]}x"), StringComparison.Ordinal);

    [Fact]
    public async Task Key_inTheAddress_opensNothingButTheFirstPage()
    {
        using HttpClient stranger = workbench.Stranger();
        using HttpResponseMessage post = await stranger.PostAsync($"/api/works?key={workbench.Token}", RunningWorkbench.Json("{}"u8.ToArray()), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Unauthorized, post.StatusCode);
    }

    [Fact]
    public async Task Opening_movesTheKeyFromTheAddressToACookie()
    {
        using HttpClient stranger = workbench.Stranger();
        using HttpResponseMessage answer = await stranger.GetAsync($"/works/abc/frame?view=2&key={workbench.Token}", TestContext.Current.CancellationToken);
        string cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"));

        Assert.Equal("/works/abc/frame?view=2", answer.Headers.Location!.OriginalString);
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Equal("no-store", answer.Headers.CacheControl!.ToString());
        Assert.Equal("same-origin", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
    }

    [Fact]
    public async Task Opening_ofAPathWithTwoSlashes_staysHere() =>
        Assert.Contains("\r\nLocation: /evil.example/\r\n", await RawRequest.GetAsync(workbench.Address, $"//evil.example/?key={workbench.Token}", Host), StringComparison.Ordinal);

    [Fact]
    public async Task Change_onTheCookieAlone_needsOurOrigin()
    {
        string post = $"POST /api/works HTTP/1.1\r\n{Host}\r\n{Cookie}\r\nContent-Type: application/json\r\nContent-Length: 2\r\nConnection: close\r\n";

        Assert.StartsWith("HTTP/1.1 403", await RawRequest.SendAsync(workbench.Address, $"{post}\r\n{{}}"), StringComparison.Ordinal);
        Assert.StartsWith("HTTP/1.1 422", await RawRequest.SendAsync(workbench.Address, $"{post}{Origin}\r\n\r\n{{}}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Socket_onTheCookieAlone_needsOurOrigin()
    {
        string[] upgrade = [Host, Cookie, "Connection: Upgrade", "Upgrade: websocket", "Sec-WebSocket-Version: 13", "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ=="];

        Assert.StartsWith("HTTP/1.1 403", await RawRequest.GetAsync(workbench.Address, "/live/none/none", upgrade), StringComparison.Ordinal);
        Assert.StartsWith("HTTP/1.1 404", await RawRequest.GetAsync(workbench.Address, "/live/none/none", [.. upgrade, Origin]), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/works/../../etc/passwd")]
    [InlineData("/works/%2e%2e/%2e%2e/etc/passwd")]
    [InlineData("/works/..%2f..%2fetc%2fpasswd/case.json")]
    [InlineData("/api/examples/..%2f..%2f..%2fetc%2fpasswd")]
    [InlineData("/api/schemas/..%5c..%5cetc%5cpasswd")]
    [InlineData("/api/works/%2e%2e%2f%2e%2e%2fwork.db/case")]
    [InlineData("/gen/..%2f..%2fappsettings.json")]
    [InlineData("/api/examples/%00")]
    public async Task Path_outOfTheFolders_leadsNowhere(string path)
    {
        string answer = await RawRequest.GetAsync(workbench.Address, path, Host, Key);

        Assert.Matches("^HTTP/1.1 (400|404)", answer);
        Assert.DoesNotContain("root:", answer, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/api/examples")]
    [InlineData("/nowhere")]
    public async Task Answer_isNeverCached_andBindsTheBrowser(string address)
    {
        using HttpResponseMessage answer = await workbench.Client.GetAsync(address, TestContext.Current.CancellationToken);

        Assert.True(answer.Headers.CacheControl!.NoStore);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.Contains("script-src 'self';", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
    }
}
