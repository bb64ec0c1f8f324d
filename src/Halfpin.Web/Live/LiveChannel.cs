using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Net.WebSockets;
using System.Text;
using System.Text.Json;
using Halfpin.Domain.Assessments;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Live;
using Microsoft.AspNetCore.Http;

namespace Halfpin.Web.Live;

/// <summary>
/// The socket of one screen on one frame. The page sends what is dragged; only the newest value waiting is worked out, so that a slow
/// machine drops stale ones instead of falling behind. A value let go is never dropped.
/// </summary>
/// <remarks>
/// From the page, little-endian: a byte for the kind, four for the request's number, eight for a double, then the handle's key in UTF-8.
/// To the page: a <see cref="LiveView"/> as UTF-8 JSON. Both in binary messages.
/// </remarks>
internal sealed class LiveChannel(WebSocket socket, Workspace work, FrameScreen screen) : IDisposable
{
    private const int HeaderBytes = 13;
    private const int MaxMessageBytes = 256;
    private const int MaxWaiting = 64;

    private static readonly JsonSerializerOptions _json = new(JsonSerializerDefaults.Web);

    private readonly Lock _gate = new();
    private readonly Queue<Request> _waiting = new();
    private readonly SemaphoreSlim _signal = new(0);
    private bool _closed;
    private bool _changed = true;

    private enum Kind : byte
    {
        Drag = 1,
        Drop = 2,
        Cancel = 3,
        Level = 4,
        Bent = 5,
    }

    private readonly record struct Request(Kind Kind, uint Number, double Value, string Key);

    /// <summary>Serves a socket until the page closes it.</summary>
    public static async Task ServeAsync(HttpContext context, string id, string frame, WorkspaceList works, FrameAnswers answers, ProgramStamp program)
    {
        if (!context.WebSockets.IsWebSocketRequest)
        {
            context.Response.StatusCode = StatusCodes.Status400BadRequest;
            return;
        }

        if (works.Find(id) is not Workspace work || work.Case.Frames.All(f => f.Id != frame))
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        using WebSocket socket = await context.WebSockets.AcceptWebSocketAsync().ConfigureAwait(false);
        using LiveChannel channel = new(socket, work, new(work, frame, answers, program));
        await channel.RunAsync(context.RequestAborted).ConfigureAwait(false);
    }

    public void Dispose() => _signal.Dispose();

    private async Task RunAsync(CancellationToken aborted)
    {
        work.Changed += Mark;
        Task reading = ReadAsync(aborted);
        try
        {
            Wake();
            while (await NextAsync(aborted).ConfigureAwait(false) is (var request, true))
            {
                ImmutableArray<string> faults = request is Request r ? Take(r) : [];
                Unmark();
                if (!screen.HasFrame)
                {
                    break;
                }

                byte[] message = JsonSerializer.SerializeToUtf8Bytes(screen.View(request?.Number ?? 0, faults), _json);
                await socket.SendAsync(message, WebSocketMessageType.Binary, true, aborted).ConfigureAwait(false);
            }
        }
        catch (Exception e) when (e is WebSocketException or OperationCanceledException)
        {
            // The page is gone; what it was dragging is dropped below.
        }
        finally
        {
            work.Changed -= Mark;
            if (work.IsDrafting)
            {
                work.DropDraft();
            }

            await reading.ConfigureAwait(false);
        }
    }

    private ImmutableArray<string> Take(Request request)
    {
        switch (request.Kind)
        {
            case Kind.Drag:
                return screen.Drag(request.Key, request.Value);
            case Kind.Drop:
                return screen.Drop(request.Key, request.Value);
            case Kind.Cancel:
                work.DropDraft();
                return [];
            case Kind.Level:
                screen.LevelMm = double.IsFinite(request.Value) ? request.Value : screen.LevelMm;
                return [];
            default:
                screen.ShowsBent = request.Value > 0;
                return [];
        }
    }

    // The next request, or null to show what has changed elsewhere; false at the end.
    private async Task<(Request? Request, bool Goes)> NextAsync(CancellationToken aborted)
    {
        while (true)
        {
            await _signal.WaitAsync(aborted).ConfigureAwait(false);
            lock (_gate)
            {
                if (_waiting.TryDequeue(out Request request))
                {
                    _changed = false;
                    return (request, true);
                }

                if (_closed)
                {
                    return (null, false);
                }

                if (_changed)
                {
                    _changed = false;
                    return (null, true);
                }
            }
        }
    }

    private async Task ReadAsync(CancellationToken aborted)
    {
        byte[] buffer = new byte[MaxMessageBytes];
        try
        {
            while (true)
            {
                ValueWebSocketReceiveResult got = await socket.ReceiveAsync(buffer.AsMemory(), aborted).ConfigureAwait(false);
                if (got.MessageType != WebSocketMessageType.Binary || !got.EndOfMessage || got.Count < HeaderBytes || !Add(Read(buffer.AsSpan(0, got.Count))))
                {
                    break;
                }
            }
        }
        catch (Exception e) when (e is WebSocketException or OperationCanceledException)
        {
            // The page is gone.
        }

        lock (_gate)
        {
            _closed = true;
        }

        Wake();
    }

    private static Request Read(ReadOnlySpan<byte> message) => new(
        (Kind)message[0], BinaryPrimitives.ReadUInt32LittleEndian(message[1..]), BinaryPrimitives.ReadDoubleLittleEndian(message[5..]), Encoding.UTF8.GetString(message[HeaderBytes..]));

    // A drag replaces one still waiting; false for noise.
    private bool Add(Request request)
    {
        lock (_gate)
        {
            if (!Enum.IsDefined(request.Kind) || _waiting.Count >= MaxWaiting)
            {
                return false;
            }

            if (request.Kind is Kind.Drag or Kind.Level && _waiting.TryPeek(out _) && _waiting.Last().Kind == request.Kind)
            {
                Request[] kept = [.. _waiting.SkipLast(1)];
                _waiting.Clear();
                foreach (Request k in kept)
                {
                    _waiting.Enqueue(k);
                }

                _waiting.Enqueue(request);
                return true;
            }

            _waiting.Enqueue(request);
        }

        Wake();
        return true;
    }

    private void Mark()
    {
        lock (_gate)
        {
            if (_changed)
            {
                return;
            }

            _changed = true;
        }

        Wake();
    }

    // What this screen changed itself is in the view that follows.
    private void Unmark()
    {
        lock (_gate)
        {
            _changed = false;
        }
    }

    private void Wake() => _signal.Release();
}
