using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Stocks;
using Halfpin.Domain.Validity;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Stocks;
using Halfpin.Storage.Work;

namespace Halfpin.Workbench.Documents;

/// <summary>
/// A case somebody works on: its states with undo and redo, saved change by change, and the draft while a value is being dragged.
/// The case in force is always valid. May be used from several threads.
/// </summary>
public sealed class Workspace
{
    private readonly Lock _gate = new();
    private readonly WorkStore _store;
    private readonly TimeProvider _time;
    private ImmutableList<Revision> _revisions;
    private int _position;
    private Case? _draft;
    private StockFile? _stock;

    internal Workspace(string id, WorkStore store, TimeProvider time, ImmutableList<Revision> revisions, int position, StockFile? stock, CancellationToken gone)
    {
        (Id, _store, _time, _revisions, _position, _stock, Gone) = (id, store, time, revisions, position, stock, gone);
    }

    /// <summary>Told after every change of the case or the draft; from the thread that made it.</summary>
    public event Action? Changed;

    /// <summary>Cancelled when the work is deleted: what goes on for it has no reader any more.</summary>
    public CancellationToken Gone { get; }

    /// <summary>Its name in addresses.</summary>
    public string Id { get; }

    /// <summary>The saved case.</summary>
    public Case Case
    {
        get
        {
            lock (_gate)
            {
                return _revisions[_position].Case;
            }
        }
    }

    /// <summary>What is shown: the draft while a value is being dragged, else the saved case.</summary>
    public Case Shown
    {
        get
        {
            lock (_gate)
            {
                return _draft ?? _revisions[_position].Case;
            }
        }
    }

    /// <summary>The case before the last change; null when nothing was changed yet.</summary>
    public Case? Before
    {
        get
        {
            lock (_gate)
            {
                return _position > 0 ? _revisions[_position - 1].Case : null;
            }
        }
    }

    /// <summary>True while a draft is shown.</summary>
    public bool IsDrafting
    {
        get
        {
            lock (_gate)
            {
                return _draft is not null;
            }
        }
    }

    /// <summary>The change that undo would take back; null when there is none.</summary>
    public string? UndoWords
    {
        get
        {
            lock (_gate)
            {
                return _position > 0 ? _revisions[_position].Words : null;
            }
        }
    }

    /// <summary>The change that redo would bring back; null when there is none.</summary>
    public string? RedoWords
    {
        get
        {
            lock (_gate)
            {
                return _position + 1 < _revisions.Count ? _revisions[_position + 1].Words : null;
            }
        }
    }

    /// <summary>The history in words, oldest first, and the index of the state in force.</summary>
    public (ImmutableArray<string> Words, int Position) History
    {
        get
        {
            lock (_gate)
            {
                return ([.. _revisions.Select(r => r.Words)], _position);
            }
        }
    }

    /// <summary>The stock to choose from; null when the work holds none.</summary>
    public Stock? Stock => StockFile?.Stock;

    /// <summary>SHA-256 of the stock's file; null when the work holds none.</summary>
    public string? StockSha256 => StockFile?.Sha256;

    /// <summary>The stock with its file; null when the work holds none.</summary>
    public StockFile? StockFile
    {
        get
        {
            lock (_gate)
            {
                return _stock;
            }
        }
    }

    /// <summary>Takes a stock file in place of any that is held. It is no part of the case: undo leaves it alone.</summary>
    /// <param name="fileName">The file's name: one that ends in .csv is read as CSV, any other as JSON.</param>
    /// <param name="bytes">The file.</param>
    /// <returns>The faults that forbid it, in which case nothing has changed; empty when it was taken.</returns>
    public ImmutableArray<Fault> TakeStock(string fileName, byte[] bytes)
    {
        StockReading reading = StockReader.Read(bytes, fileName);
        if (reading.Stock is Stock stock)
        {
            KeepStock(new(fileName, bytes, stock, reading.Sha256));
        }

        return reading.Faults;
    }

    /// <summary>Holds no stock any more.</summary>
    public void DropStock() => KeepStock(null);

    /// <summary>Makes a change and saves it.</summary>
    /// <returns>The faults that forbid it, in which case nothing has changed; empty when it was made.</returns>
    public ImmutableArray<Fault> Apply(CaseEdit edit)
    {
        ImmutableArray<Fault> faults;
        lock (_gate)
        {
            _draft = null;
            Case now = _revisions[_position].Case, next = edit.Apply(now);
            faults = FaultsOf(next);
            if (faults.IsEmpty && !Same(now, next))
            {
                _store.Append(Id, next.Title, _position, new(edit.Words, CaseWriter.Write(next)), Now());
                _revisions = _revisions.GetRange(0, _position + 1).Add(new(edit.Words, next));
                _position++;
            }
        }

        Changed?.Invoke();
        return faults;
    }

    /// <summary>Shows a change without making it; its numbers must lie within their own ranges.</summary>
    /// <returns>The faults that would forbid it, in which case what was shown before is still shown.</returns>
    public ImmutableArray<Fault> Draft(CaseEdit edit)
    {
        ImmutableArray<Fault> faults;
        lock (_gate)
        {
            Case next = edit.Apply(_revisions[_position].Case);
            faults = [.. CaseValidity.Rules.SelectMany(rule => rule(next))];
            if (faults.IsEmpty)
            {
                _draft = next;
            }
        }

        Changed?.Invoke();
        return faults;
    }

    /// <summary>Shows the saved case again.</summary>
    public void DropDraft()
    {
        lock (_gate)
        {
            _draft = null;
        }

        Changed?.Invoke();
    }

    /// <summary>Takes the last change back, if there is one.</summary>
    public void Undo() => Move(-1);

    /// <summary>Brings the change back that was taken back last, if there is one.</summary>
    public void Redo() => Move(1);

    /// <summary>Every fault of a case; numbers out of range are told by the schema, so the case is read as a file would be.</summary>
    public static ImmutableArray<Fault> FaultsOf(Case value) => new CaseReader(CaseValidity.Rules).Read(CaseWriter.Write(value)).Faults;

    private void KeepStock(StockFile? stock)
    {
        lock (_gate)
        {
            _store.KeepStock(Id, stock is null ? null : new(stock.FileName, stock.Bytes), Now());
            _stock = stock;
        }

        Changed?.Invoke();
    }

    private void Move(int by)
    {
        lock (_gate)
        {
            _draft = null;
            int to = _position + by;
            if (to < 0 || to >= _revisions.Count)
            {
                return;
            }

            _store.Move(Id, _revisions[to].Case.Title, to, Now());
            _position = to;
        }

        Changed?.Invoke();
    }

    // Records compare arrays by reference, so their files are compared.
    private static bool Same(Case a, Case b) => CaseWriter.Write(a).AsSpan().SequenceEqual(CaseWriter.Write(b));

    private DateTime Now() => _time.GetUtcNow().UtcDateTime;
}
