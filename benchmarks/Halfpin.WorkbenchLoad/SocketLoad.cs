using System.Buffers.Binary;
using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net.WebSockets;
using System.Text;
using System.Text.Json;

namespace Halfpin.WorkbenchLoad;

/// <summary>Many people drag at once, each on a work of their own; at the end each lets go, and what was let go must be in the case.</summary>
internal static class SocketLoad
{
    private const int PauseMs = 50;
    private const byte Drag = 1, Drop = 2;

    public static async Task<string> RunAsync(Uri address, int clients, TimeSpan time)
    {
        string token = System.Web.HttpUtility.ParseQueryString(address.Query)["key"]!;
        using HttpClient http = new() { BaseAddress = new(address.GetLeftPart(UriPartial.Authority)) };
        http.DefaultRequestHeaders.Add("Halfpin-Key", token);
        byte[] example = await http.GetByteArrayAsync("/api/examples/01-oblique-fracture");
        ConcurrentBag<double> ms = [];
        bool[] kept = await Task.WhenAll(Enumerable.Range(0, clients).Select(i => Task.Run(() => OneAsync(http, token, example, i, time, ms))));
        return $"{Latencies.Words($"{clients} people dragging at once, 20 values a second each", ms)}; {kept.Count(k => k)} of {clients} found the value they let go in their case";
    }

    private static async Task<bool> OneAsync(HttpClient http, string token, byte[] example, int number, TimeSpan time, ConcurrentBag<double> ms)
    {
        using ByteArrayContent body = new(example);
        body.Headers.ContentType = new("application/json");
        using HttpResponseMessage made = await http.PostAsync("/api/works", body);
        made.EnsureSuccessStatusCode();
        string id = made.Headers.Location!.ToString().Split('/', StringSplitOptions.RemoveEmptyEntries).SkipWhile(s => s != "works").Skip(1).First();
        using ClientWebSocket socket = new();
        socket.Options.SetRequestHeader("Halfpin-Key", token);
        await socket.ConnectAsync(new($"ws://{http.BaseAddress!.Authority}/live/{id}/near-far"), CancellationToken.None);
        ConcurrentDictionary<uint, long> sent = [];
        uint last = 0, shown = 0;
        Task reading = Task.Run(async () =>
        {
            byte[] buffer = new byte[1 << 20];
            while (true)
            {
                int length = 0;
                ValueWebSocketReceiveResult got;
                do
                {
                    got = await socket.ReceiveAsync(buffer.AsMemory(length), CancellationToken.None);
                    length += got.Count;
                }
                while (!got.EndOfMessage);
                if (got.MessageType == WebSocketMessageType.Close)
                {
                    return;
                }

                using JsonDocument view = JsonDocument.Parse(buffer.AsMemory(0, length));
                shown = view.RootElement.GetProperty("number").GetUInt32();
                if (sent.TryGetValue(shown, out long at))
                {
                    ms.Add(Stopwatch.GetElapsedTime(at).TotalMilliseconds);
                }

                if (last > 0 && shown >= last)
                {
                    return;
                }
            }
        });
        Stopwatch watch = Stopwatch.StartNew();
        uint n = 0;
        double value = 52;
        while (watch.Elapsed < time)
        {
            n++;
            value = 52 + (20 * Math.Sin((0.11 * n) + number));
            sent[n] = Stopwatch.GetTimestamp();
            await socket.SendAsync(Message(Drag, n, value), WebSocketMessageType.Binary, true, CancellationToken.None);
            await Task.Delay(PauseMs);
        }

        double wanted = 40 + (number % 20);
        sent[n + 1] = Stopwatch.GetTimestamp();
        last = n + 1;
        await socket.SendAsync(Message(Drop, n + 1, wanted), WebSocketMessageType.Binary, true, CancellationToken.None);
        await reading.WaitAsync(TimeSpan.FromSeconds(30));
        using JsonDocument saved = JsonDocument.Parse(await http.GetByteArrayAsync($"/works/{id}/case.json"));
        return saved.RootElement.GetProperty("frames").EnumerateArray().First(f => f.GetProperty("id").GetString() == "near-far").GetProperty("construct").GetProperty("standoffMm").GetDouble() == wanted;
    }

    private static byte[] Message(byte kind, uint number, double value)
    {
        byte[] key = Encoding.UTF8.GetBytes("standoff"), message = new byte[13 + key.Length];
        message[0] = kind;
        BinaryPrimitives.WriteUInt32LittleEndian(message.AsSpan(1), number);
        BinaryPrimitives.WriteDoubleLittleEndian(message.AsSpan(5), value);
        key.CopyTo(message, 13);
        return message;
    }
}
