using System.Diagnostics;
using System.Text.Json;
using Halfpin.Domain.Stocks;
using Halfpin.Search;
using Halfpin.Storage.Json;
using Halfpin.Storage.Tables;

namespace Halfpin.Cli;

/// <summary>Keeps the finished pieces of a search in a file while it runs. Safe for threads.</summary>
internal sealed class SearchFile : IDisposable
{
    // Waiting for the disk at every piece would take longer than the pieces.
    private static readonly TimeSpan _between = TimeSpan.FromSeconds(0.5);

    private static readonly WorkKind _kind = new("search", "case, stock and program");

    private readonly string _path;
    private readonly RowJournal _journal;
    private readonly List<SearchPiece> _done = [], _waiting = [];
    private readonly Lock _lock = new();
    private readonly Stopwatch _since = Stopwatch.StartNew();

    /// <summary>Begins or, when asked, goes on; says so where there is nothing to go on with.</summary>
    /// <exception cref="IOException">The file cannot be written, or an unfinished search is in the way.</exception>
    public SearchFile(string path, string caseSha256, Stock? stock, bool resume, TextWriter error)
    {
        _path = path;
        string name = JsonSerializer.Serialize(new { program = ProgramVersion.Stamp, search = caseSha256, stock }, HalfpinJson.Options);
        if (File.Exists(path) && !resume)
        {
            throw new IOException($"{path} is there already. If it holds an unfinished search, go on with it by --resume; else name another file.");
        }

        if (resume && !File.Exists(path))
        {
            error.WriteLine($"Nothing is kept in {path}: the search begins anew.");
        }

        _journal = File.Exists(path)
            ? RowJournal.GoOn(path, name, _kind, chunk => _done.AddRange(JsonSerializer.Deserialize<List<SearchPiece>>(chunk, HalfpinJson.Options)!))
            : RowJournal.Begin(path, name);
    }

    /// <summary>Pieces that were done before.</summary>
    public IReadOnlyList<SearchPiece> Done => _done;

    /// <summary>Keeps a piece.</summary>
    public void Keep(SearchPiece piece)
    {
        lock (_lock)
        {
            _waiting.Add(piece);
            if (_since.Elapsed >= _between)
            {
                Write();
            }
        }
    }

    /// <summary>Removes the file: nothing is left to go on with.</summary>
    public void Finish()
    {
        _waiting.Clear();
        _journal.Dispose();
        File.Delete(_path);
    }

    /// <summary>Writes what waits and closes the file.</summary>
    public void Dispose()
    {
        if (_waiting.Count > 0)
        {
            Write();
        }

        _journal.Dispose();
    }

    private void Write()
    {
        _journal.Append(JsonSerializer.SerializeToUtf8Bytes(_waiting, HalfpinJson.Options));
        _waiting.Clear();
        _since.Restart();
    }
}
