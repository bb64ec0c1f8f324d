using Microsoft.EntityFrameworkCore;

namespace Halfpin.Storage.Work;

/// <summary>
/// Keeps what people work on in a database file, change by change: each call is one transaction, so that a crash loses at most the call
/// under way. May be used from several threads.
/// </summary>
public sealed class WorkStore
{
    /// <summary>The version of the tables, kept in the file.</summary>
    public const int CurrentVersion = 1;

    private readonly string _path;

    /// <summary>A store in a folder, which is made when it is not there.</summary>
    /// <exception cref="IOException">The folder or file cannot be used, or a newer program wrote it.</exception>
    public WorkStore(string folder)
    {
        Directory.CreateDirectory(folder);
        _path = Path.Combine(folder, "work.db");
        using WorkDatabase database = new(_path);
        database.Database.EnsureCreated();
        int version = database.Database.SqlQuery<int>($"SELECT user_version AS Value FROM pragma_user_version").Single();
        if (version > CurrentVersion)
        {
            throw new IOException($"{_path} was written by a newer version of this program. Update Halfpin, or name another folder.");
        }

        database.Database.ExecuteSqlRaw($"PRAGMA user_version = {CurrentVersion}; PRAGMA journal_mode = WAL;");
    }

    /// <summary>All saved work, the last changed first.</summary>
    public IReadOnlyList<SavedWork> All()
    {
        using WorkDatabase database = new(_path);
        return [.. database.Works.AsNoTracking().OrderByDescending(w => w.ChangedUtc).Select(w => new SavedWork(w.Id, w.Title, w.ChangedUtc))];
    }

    /// <summary>A work with its states; null when there is none of this id.</summary>
    public SavedHistory? Find(string id)
    {
        using WorkDatabase database = new(_path);
        WorkRow? work = database.Works.AsNoTracking().FirstOrDefault(w => w.Id == id);
        return work is null ? null : new(
            [.. database.Revisions.AsNoTracking().Where(r => r.WorkId == id).OrderBy(r => r.Number).Select(r => new SavedRevision(r.Words, r.CaseJson))], work.Position);
    }

    /// <summary>Begins a work.</summary>
    public void Create(string id, string title, SavedRevision first, DateTime nowUtc)
    {
        using WorkDatabase database = new(_path);
        database.Works.Add(new() { Id = id, Title = title, ChangedUtc = nowUtc, Position = 0 });
        database.Revisions.Add(new() { WorkId = id, Number = 0, Words = first.Words, CaseJson = first.CaseJson });
        database.SaveChanges();
    }

    /// <summary>Adds a state after one; states after that have been undone and are forgotten.</summary>
    public void Append(string id, string title, int after, SavedRevision revision, DateTime nowUtc)
    {
        using WorkDatabase database = new(_path);
        using var transaction = database.Database.BeginTransaction();
        database.Revisions.Where(r => r.WorkId == id && r.Number > after).ExecuteDelete();
        database.Revisions.Add(new() { WorkId = id, Number = after + 1, Words = revision.Words, CaseJson = revision.CaseJson });
        Touch(database, id, title, after + 1, nowUtc);
        database.SaveChanges();
        transaction.Commit();
    }

    /// <summary>Puts another state in force.</summary>
    public void Move(string id, string title, int position, DateTime nowUtc)
    {
        using WorkDatabase database = new(_path);
        Touch(database, id, title, position, nowUtc);
        database.SaveChanges();
    }

    /// <summary>The stock file that a work holds; null when it holds none.</summary>
    public SavedStock? FindStock(string id)
    {
        using WorkDatabase database = new(_path);
        return database.Stocks.AsNoTracking().Where(s => s.WorkId == id).Select(s => new SavedStock(s.FileName, s.Bytes)).FirstOrDefault();
    }

    /// <summary>Gives a work a stock file in place of any that it holds, or takes it away.</summary>
    /// <param name="id">The work.</param>
    /// <param name="stock">The file; null to hold none.</param>
    /// <param name="nowUtc">When.</param>
    public void KeepStock(string id, SavedStock? stock, DateTime nowUtc)
    {
        using WorkDatabase database = new(_path);
        using var transaction = database.Database.BeginTransaction();
        database.Stocks.Where(s => s.WorkId == id).ExecuteDelete();
        if (stock is not null)
        {
            database.Stocks.Add(new() { WorkId = id, FileName = stock.FileName, Bytes = stock.Bytes });
        }

        database.Works.First(w => w.Id == id).ChangedUtc = nowUtc;
        database.SaveChanges();
        transaction.Commit();
    }

    /// <summary>Forgets a work.</summary>
    public void Delete(string id)
    {
        using WorkDatabase database = new(_path);
        database.Works.Where(w => w.Id == id).ExecuteDelete();
    }

    private static void Touch(WorkDatabase database, string id, string title, int position, DateTime nowUtc)
    {
        WorkRow work = database.Works.First(w => w.Id == id);
        (work.Title, work.Position, work.ChangedUtc) = (title, position, nowUtc);
    }
}
