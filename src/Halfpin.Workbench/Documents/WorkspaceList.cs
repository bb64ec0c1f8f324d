using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Security.Cryptography;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Stocks;
using Halfpin.Storage.Work;

namespace Halfpin.Workbench.Documents;

/// <summary>The work of this machine: what is saved, and what is open.</summary>
public sealed class WorkspaceList(WorkStore store, TimeProvider time)
{
    // Letters and digits that are not mistaken for each other.
    private const string IdLetters = "abcdefghjkmnpqrstuvwxyz23456789";
    private const int IdLength = 10;

    private readonly ConcurrentDictionary<string, Lazy<OpenWork?>> _open = new(StringComparer.Ordinal);

    /// <summary>All saved work, the last changed first.</summary>
    public IReadOnlyList<SavedWork> Saved() => store.All();

    /// <summary>Opens a work; null when there is none of this id.</summary>
    public Workspace? Find(string id)
    {
        OpenWork? found = _open.GetOrAdd(id, i => new(() => Load(i))).Value;
        if (found is null)
        {
            _open.TryRemove(id, out _);
        }

        return found?.Work;
    }

    /// <summary>Begins a work on a valid case.</summary>
    /// <param name="value">The case.</param>
    /// <param name="words">Where it came from, as the first line of its history.</param>
    public Workspace Begin(Case value, string words)
    {
        string id = RandomNumberGenerator.GetString(IdLetters, IdLength);
        store.Create(id, value.Title, new(words, CaseWriter.Write(value)), time.GetUtcNow().UtcDateTime);
        return Find(id)!;
    }

    /// <summary>Forgets a work and its history, and ends what goes on for it.</summary>
    public void Delete(string id)
    {
        store.Delete(id);
        if (_open.TryRemove(id, out Lazy<OpenWork?>? open) && open.IsValueCreated)
        {
            open.Value?.Gone.Cancel();
        }
    }

    private OpenWork? Load(string id)
    {
        if (store.Find(id) is not SavedHistory history)
        {
            return null;
        }

        CaseReader reader = new(CaseValidity.Rules);
        ImmutableList<Revision> revisions = [.. history.Revisions.Select(r => new Revision(r.Words,
            reader.Read(r.CaseJson).Case ?? throw new InvalidDataException($"A saved state of work {id} is no valid case any more.")))];
        CancellationTokenSource gone = new();
        return new(new(id, store, time, revisions, history.Position, LoadStock(id), gone.Token), gone);
    }

    private StockFile? LoadStock(string id)
    {
        if (store.FindStock(id) is not SavedStock saved)
        {
            return null;
        }

        StockReading reading = StockReader.Read(saved.Bytes, saved.FileName);
        return new(saved.FileName, saved.Bytes, reading.Stock ?? throw new InvalidDataException($"The saved stock of work {id} is no valid stock any more."), reading.Sha256);
    }

    // Held until nobody asks for the work any more; the source has no timer and no handle to give back.
    private sealed record OpenWork(Workspace Work, CancellationTokenSource Gone);
}
