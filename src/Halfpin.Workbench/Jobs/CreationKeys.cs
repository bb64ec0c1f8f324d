namespace Halfpin.Workbench.Jobs;

/// <summary>
/// Keys by which a program asks for a creation again without creating twice. Only the last ones are remembered, and not past the end of the
/// program. May be used from several threads.
/// </summary>
public sealed class CreationKeys
{
    private const int Remembered = 256;

    private readonly Lock _gate = new();
    private readonly Dictionary<string, (string Request, string Id)> _ids = new(StringComparer.Ordinal);
    private readonly Queue<string> _order = new();

    /// <summary>Creates, or gives what the same request under the same key created before.</summary>
    /// <param name="key">The key; null to create without one.</param>
    /// <param name="request">What identifies the request, such as a hash.</param>
    /// <param name="stillThere">Whether what was created before is still there; otherwise it is created again.</param>
    /// <param name="create">Creates and gives the id; null when nothing could be created, which is not remembered.</param>
    public Creation Once(string? key, string request, Func<string, bool> stillThere, Func<string?> create)
    {
        if (key is null)
        {
            return new(create(), false, false);
        }

        lock (_gate)
        {
            if (_ids.TryGetValue(key, out (string Request, string Id) known) && stillThere(known.Id))
            {
                return known.Request == request ? new(known.Id, true, false) : new(null, false, true);
            }

            string? id = create();
            if (id is not null)
            {
                Remember(key, request, id);
            }

            return new(id, false, false);
        }
    }

    private void Remember(string key, string request, string id)
    {
        if (!_ids.ContainsKey(key))
        {
            _order.Enqueue(key);
        }

        _ids[key] = (request, id);
        if (_order.Count > Remembered)
        {
            _ids.Remove(_order.Dequeue());
        }
    }
}

/// <summary>What came of asking for a creation.</summary>
/// <param name="Id">Id of what was created, now or before; null when nothing was.</param>
/// <param name="IsRepeat">True when it was created before.</param>
/// <param name="IsTaken">True when the key belongs to another request.</param>
public sealed record Creation(string? Id, bool IsRepeat, bool IsTaken);
