using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Net.WebSockets;
using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using Xunit;

namespace Halfpin.Web.Tests;

public class HostileTests(RunningWorkbench workbench)
{
    private static readonly byte[] _demo = RunningWorkbench.Example("04-segmental-fracture.json");

    private string Head => $"Host: {workbench.Address.Authority}\r\nHalfpin-Key: {workbench.Token}\r\nContent-Type: application/json\r\n";

    [Fact]
    public async Task HundredMegabytes_announced_areRefusedUnread()
    {
        Stopwatch watch = Stopwatch.StartNew();
        string answer = await RawRequest.SendAsync(workbench.Address, $"POST /api/assessments HTTP/1.1\r\n{Head}Content-Length: 104857600\r\n\r\n{{");

        Assert.StartsWith("HTTP/1.1 413", answer, StringComparison.Ordinal);
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(10));
        await AnswersAsync();
    }

    [Fact]
    public async Task HundredMegabytes_inPieces_areCutOffSoon()
    {
        using TcpClient client = new();
        await client.ConnectAsync(workbench.Address.Host, workbench.Address.Port, TestContext.Current.CancellationToken);
        NetworkStream stream = client.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes($"POST /api/assessments HTTP/1.1\r\n{Head}Transfer-Encoding: chunked\r\n\r\n"), TestContext.Current.CancellationToken);
        byte[] piece = [.. "10000\r\n"u8, .. new byte[0x10000], .. "\r\n"u8];
        long sent = 0;
        try
        {
            for (; sent < 100 * 1024 * 1024; sent += piece.Length)
            {
                await stream.WriteAsync(piece, TestContext.Current.CancellationToken);
            }
        }
        catch (IOException)
        {
            // Cut off, as it should be.
        }

        Assert.InRange(sent, 1, 50 * 1024 * 1024);
        await AnswersAsync();
    }

    // Bytes changed, taken out, doubled and members swapped: whatever comes, the answer is a report or a problem of the sender's.
    [Fact]
    public async Task Cases_brokenAtRandom_neverFailTheServer()
    {
        Gen<(int At, int Length, byte Value, int Kind)> change = Gen.Select(Gen.Int[0, _demo.Length - 1], Gen.Int[1, 40], Gen.Byte, Gen.Int[0, 3]);
        List<byte[]> bodies = [];
        change.Array[1, 4].Sample(changes => bodies.Add(changes.Aggregate(_demo, Broken)), iter: 60, seed: "0N0XIzNsQ0O2", threads: 1);
        string[] addresses = ["/api/checks", "/api/assessments", "/api/healing", "/api/steps?frame=one-rod", "/api/works", "/api/alignments?ap=3&lat=4"];
        foreach ((byte[] body, int i) in bodies.Select((b, i) => (b, i)))
        {
            await NeverFailsAsync(addresses[i % addresses.Length], body);
        }

        await AnswersAsync();
    }

    [Fact]
    public async Task Values_brokenAtRandom_neverFailTheServer()
    {
        string[] texts = ["0", "-1", "1e308", "-1e-308", "5e-324", "null", "true", "\"\"", "\"\\ud800\"", "[]", "{}", "[[[[]]]]", "12.5", "99", "300", "0.0001"];
        List<(int Leaf, int Text)> picks = [];
        int good = 0;
        Gen.Select(Gen.Int[0, 9999], Gen.Int[0, texts.Length - 1]).Sample(p => picks.Add(p), iter: 80, seed: "0N0XIzNsQ0O2", threads: 1);
        foreach ((int leaf, int text) in picks)
        {
            JsonNode value = JsonNode.Parse(_demo)!;
            JsonNode[] leaves = [.. Leaves(value)];
            JsonNode at = leaves[leaf % leaves.Length];
            at.ReplaceWith("MARK");
            good += await NeverFailsAsync(leaf % 2 == 0 ? "/api/checks" : "/api/kits?frame=one-rod", Encoding.UTF8.GetBytes(value.ToJsonString().Replace("\"MARK\"", texts[text], StringComparison.Ordinal)));
        }

        Assert.InRange(good, 1, picks.Count - 1);
        await AnswersAsync();
    }

    [Fact]
    public async Task LiveMessages_ofNonsense_leaveTheServerUp()
    {
        string id = await BeginAsync();
        Random random = new(20261);
        byte[][] messages =
        [
            [], [1], new byte[12], new byte[13], new byte[300], [255, .. new byte[12]],
            Message(1, double.NaN, "standoff"), Message(2, double.PositiveInfinity, "standoff"), Message(1, 1e308, "standoff"), Message(2, -1e308, "standoff"),
            Message(4, 1e308, ""), Message(4, -1e308, ""), Message(4, double.NaN, ""), Message(1, 40, "\0\0"), Message(3, 0, "x"), Message(5, double.NegativeInfinity, ""),
            .. Enumerable.Range(0, 30).Select(_ => { byte[] noise = new byte[random.Next(1, 255)]; random.NextBytes(noise); noise[0] = (byte)random.Next(1, 6); return noise; }),
        ];
        foreach (byte[] message in messages)
        {
            using ClientWebSocket socket = await OpenAsync(id);
            await SendAsync(socket, message, WebSocketMessageType.Binary);
        }

        using (ClientWebSocket socket = await OpenAsync(id))
        {
            await SendAsync(socket, "hello"u8.ToArray(), WebSocketMessageType.Text);
        }

        await AnswersAsync();
        using ClientWebSocket good = await OpenAsync(id);
        byte[] view = new byte[1 << 20];
        ValueWebSocketReceiveResult got = await good.ReceiveAsync(view.AsMemory(), TestContext.Current.CancellationToken);
        Assert.Contains("axial", Encoding.UTF8.GetString(view, 0, got.Count), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Headers_thatNeverEnd_areCutOff()
    {
        using TcpClient client = new();
        await client.ConnectAsync(workbench.Address.Host, workbench.Address.Port, TestContext.Current.CancellationToken);
        NetworkStream stream = client.GetStream();
        Stopwatch watch = Stopwatch.StartNew();
        await stream.WriteAsync("GET / HTTP/1.1\r\n"u8.ToArray(), TestContext.Current.CancellationToken);
        try
        {
            while (watch.Elapsed < TimeSpan.FromSeconds(60))
            {
                await stream.WriteAsync("X: y\r\n"u8.ToArray(), TestContext.Current.CancellationToken);
                await Task.Delay(500, TestContext.Current.CancellationToken);
                if (client.Client.Poll(0, SelectMode.SelectRead))
                {
                    break;
                }
            }
        }
        catch (IOException)
        {
            // Cut off.
        }

        Assert.InRange(watch.Elapsed, TimeSpan.FromSeconds(5), TimeSpan.FromSeconds(40));
        await AnswersAsync();
    }

    [Fact]
    public async Task Headers_ofManyKilobytes_areRefused()
    {
        string answer = await RawRequest.SendAsync(workbench.Address, $"GET /api/works HTTP/1.1\r\n{Head}X-Long: {new string('a', 100_000)}\r\n\r\n");

        Assert.StartsWith("HTTP/1.1 431", answer, StringComparison.Ordinal);
        await AnswersAsync();
    }

    private static byte[] Broken(byte[] bytes, (int At, int Length, byte Value, int Kind) change)
    {
        int at = Math.Min(change.At, bytes.Length), to = Math.Min(at + change.Length, bytes.Length);
        return change.Kind switch
        {
            0 => [.. bytes[..at], change.Value, .. bytes[Math.Min(at + 1, bytes.Length)..]],
            1 => [.. bytes[..at], .. bytes[to..]],
            2 => [.. bytes[..to], .. bytes[at..to], .. bytes[to..]],
            _ => [.. bytes[..at], (byte)('0' + (change.Value % 10)), .. bytes[at..]],
        };
    }

    private static IEnumerable<JsonNode> Leaves(JsonNode node) => node switch
    {
        JsonObject o => o.Where(m => m.Key is not ("format" or "formatVersion")).SelectMany(m => m.Value is null ? [] : Leaves(m.Value)),
        JsonArray a => a.SelectMany(e => e is null ? [] : Leaves(e)),
        _ => [node],
    };

    private static byte[] Message(byte kind, double value, string key) => [kind, 1, 0, 0, 0, .. BitConverter.GetBytes(value), .. Encoding.UTF8.GetBytes(key)];

    // 1 for a case that could be answered, 0 for one that was refused.
    private async Task<int> NeverFailsAsync(string address, byte[] body)
    {
        using ByteArrayContent content = RunningWorkbench.Json(body);
        using HttpResponseMessage answer = await workbench.Client.PostAsync(address, content, TestContext.Current.CancellationToken);

        Assert.True((int)answer.StatusCode is 200 or 201 or 400 or 422, $"{(int)answer.StatusCode} for {address} of {Encoding.UTF8.GetString(body)}. {workbench.Errors}");
        return answer.IsSuccessStatusCode ? 1 : 0;
    }

    private async Task AnswersAsync()
    {
        using HttpResponseMessage answer = await workbench.Client.GetAsync("/api/examples", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    private async Task<string> BeginAsync()
    {
        using ByteArrayContent body = RunningWorkbench.Json(RunningWorkbench.Example("01-oblique-fracture.json"));
        using HttpResponseMessage answer = await workbench.Client.PostAsync("/api/works", body, TestContext.Current.CancellationToken);
        return (string)JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!["id"]!;
    }

    private async Task<ClientWebSocket> OpenAsync(string id)
    {
        ClientWebSocket socket = new();
        socket.Options.SetRequestHeader("Halfpin-Key", workbench.Token);
        await socket.ConnectAsync(new($"ws://{workbench.Address.Authority}/live/{id}/near-far"), TestContext.Current.CancellationToken);
        return socket;
    }

    // What comes back is read until the server closes or has nothing more to say.
    private static async Task SendAsync(ClientWebSocket socket, byte[] message, WebSocketMessageType type)
    {
        using CancellationTokenSource patience = new(TimeSpan.FromMilliseconds(400));
        byte[] buffer = new byte[1 << 16];
        try
        {
            await socket.SendAsync(message, type, true, patience.Token);
            while ((await socket.ReceiveAsync(buffer.AsMemory(), patience.Token)).MessageType != WebSocketMessageType.Close)
            {
                // A view of the frame.
            }
        }
        catch (Exception e) when (e is WebSocketException or OperationCanceledException)
        {
            // Closed or silent: either is well.
        }
    }
}
