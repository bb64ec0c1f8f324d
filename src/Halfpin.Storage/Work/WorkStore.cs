using Microsoft.Data.Sqlite;

namespace Halfpin.Storage.Work;

/// <summary>
/// Keeps what people work on in a database file, change by change: each call is one transaction, so that a crash loses at most the call
/// under way. May be used from several threads.
/// </summary>
/// <remarks>Three tables in plain SQL: a mapper of objects took longer to get ready than all the rest of the workbench together.</remarks>
public sealed class WorkStore
{
    /// <summary>The version of the tables, kept in the file.</summary>
    public const int CurrentVersion = 1;

    private const string Tables =
        """
        CREATE TABLE IF NOT EXISTS "Works" ("Id" TEXT NOT NULL CONSTRAINT "PK_Works" PRIMARY KEY, "Title" TEXT NOT NULL, "ChangedUtc" TEXT NOT NULL, "Position" INTEGER NOT NULL);
        CREATE TABLE IF NOT EXISTS "Revisions" ("WorkId" TEXT NOT NULL, "Number" INTEGER NOT NULL, "Words" TEXT NOT NULL, "CaseJson" BLOB NOT NULL,
            CONSTRAINT "PK_Revisions" PRIMARY KEY ("WorkId", "Number"), CONSTRAINT "FK_Revisions_Works_WorkId" FOREIGN KEY ("WorkId") REFERENCES "Works" ("Id") ON DELETE CASCADE);
        CREATE TABLE IF NOT EXISTS "Stocks" ("WorkId" TEXT NOT NULL CONSTRAINT "PK_Stocks" PRIMARY KEY, "FileName" TEXT NOT NULL, "Bytes" BLOB NOT NULL,
            CONSTRAINT "FK_Stocks_Works_WorkId" FOREIGN KEY ("WorkId") REFERENCES "Works" ("Id") ON DELETE CASCADE);
        """;

    private const string SetState = """UPDATE "Works" SET "Title" = $title, "Position" = $position, "ChangedUtc" = $now WHERE "Id" = $id""";

    private readonly string _file;

    /// <summary>A store in a folder, which is made when it is not there.</summary>
    /// <exception cref="IOException">The folder or file cannot be used, or a newer program wrote it.</exception>
    public WorkStore(string folder)
    {
        Directory.CreateDirectory(folder);
        string path = Path.Combine(folder, "work.db");
        _file = new SqliteConnectionStringBuilder { DataSource = path, ForeignKeys = true }.ToString();
        using SqliteConnection open = Open();
        using SqliteCommand version = Command(open, "PRAGMA user_version");
        if ((long)version.ExecuteScalar()! > CurrentVersion)
        {
            throw new IOException($"{path} was written by a newer version of this program. Update Halfpin, or name another folder.");
        }

        Run(open, Tables);
        Run(open, $"PRAGMA user_version = {CurrentVersion}; PRAGMA journal_mode = WAL;");
    }

    /// <summary>All saved work, the last changed first.</summary>
    public IReadOnlyList<SavedWork> All()
    {
        using SqliteConnection open = Open();
        using SqliteCommand command = Command(open, """SELECT "Id", "Title", "ChangedUtc" FROM "Works" ORDER BY "ChangedUtc" DESC""");
        using SqliteDataReader row = command.ExecuteReader();
        List<SavedWork> all = [];
        while (row.Read())
        {
            all.Add(new(row.GetString(0), row.GetString(1), row.GetDateTime(2)));
        }

        return all;
    }

    /// <summary>A work with its states; null when there is none of this id.</summary>
    public SavedHistory? Find(string id)
    {
        using SqliteConnection open = Open();
        using SqliteTransaction one = open.BeginTransaction(deferred: true);
        using SqliteCommand work = Command(open, """SELECT "Position" FROM "Works" WHERE "Id" = $id""", ("$id", id));
        if (work.ExecuteScalar() is not long position)
        {
            return null;
        }

        using SqliteCommand command = Command(open, """SELECT "Words", "CaseJson" FROM "Revisions" WHERE "WorkId" = $id ORDER BY "Number" """, ("$id", id));
        using SqliteDataReader row = command.ExecuteReader();
        List<SavedRevision> states = [];
        while (row.Read())
        {
            states.Add(new(row.GetString(0), row.GetFieldValue<byte[]>(1)));
        }

        return new([.. states], (int)position);
    }

    /// <summary>Begins a work.</summary>
    public void Create(string id, string title, SavedRevision first, DateTime nowUtc)
    {
        using SqliteConnection open = Open();
        using SqliteTransaction one = open.BeginTransaction();
        Run(open, """INSERT INTO "Works" ("Id", "Title", "ChangedUtc", "Position") VALUES ($id, $title, $now, 0)""", ("$id", id), ("$title", title), ("$now", nowUtc));
        AddState(open, id, 0, first);
        one.Commit();
    }

    /// <summary>Adds a state after one; states after that have been undone and are forgotten.</summary>
    /// <exception cref="InvalidOperationException">There is no such work.</exception>
    public void Append(string id, string title, int after, SavedRevision revision, DateTime nowUtc)
    {
        using SqliteConnection open = Open();
        using SqliteTransaction one = open.BeginTransaction();
        Change(open, id, SetState, ("$id", id), ("$title", title), ("$position", after + 1), ("$now", nowUtc));
        Run(open, """DELETE FROM "Revisions" WHERE "WorkId" = $id AND "Number" > $after""", ("$id", id), ("$after", after));
        AddState(open, id, after + 1, revision);
        one.Commit();
    }

    /// <summary>Puts another state in force.</summary>
    /// <exception cref="InvalidOperationException">There is no such work.</exception>
    public void Move(string id, string title, int position, DateTime nowUtc)
    {
        using SqliteConnection open = Open();
        Change(open, id, SetState, ("$id", id), ("$title", title), ("$position", position), ("$now", nowUtc));
    }

    /// <summary>The stock file that a work holds; null when it holds none.</summary>
    public SavedStock? FindStock(string id)
    {
        using SqliteConnection open = Open();
        using SqliteCommand command = Command(open, """SELECT "FileName", "Bytes" FROM "Stocks" WHERE "WorkId" = $id""", ("$id", id));
        using SqliteDataReader row = command.ExecuteReader();
        return row.Read() ? new(row.GetString(0), row.GetFieldValue<byte[]>(1)) : null;
    }

    /// <summary>Gives a work a stock file in place of any that it holds, or takes it away.</summary>
    /// <param name="id">The work.</param>
    /// <param name="stock">The file; null to hold none.</param>
    /// <param name="nowUtc">When.</param>
    /// <exception cref="InvalidOperationException">There is no such work.</exception>
    public void KeepStock(string id, SavedStock? stock, DateTime nowUtc)
    {
        using SqliteConnection open = Open();
        using SqliteTransaction one = open.BeginTransaction();
        Change(open, id, """UPDATE "Works" SET "ChangedUtc" = $now WHERE "Id" = $id""", ("$id", id), ("$now", nowUtc));
        Run(open, """DELETE FROM "Stocks" WHERE "WorkId" = $id""", ("$id", id));
        if (stock is not null)
        {
            Run(open, """INSERT INTO "Stocks" ("WorkId", "FileName", "Bytes") VALUES ($id, $name, $bytes)""", ("$id", id), ("$name", stock.FileName), ("$bytes", stock.Bytes));
        }

        one.Commit();
    }

    /// <summary>Forgets a work.</summary>
    public void Delete(string id)
    {
        using SqliteConnection open = Open();
        Run(open, """DELETE FROM "Works" WHERE "Id" = $id""", ("$id", id));
    }

    private static void AddState(SqliteConnection open, string id, int number, SavedRevision state) => Run(
        open, """INSERT INTO "Revisions" ("WorkId", "Number", "Words", "CaseJson") VALUES ($id, $number, $words, $case)""",
        ("$id", id), ("$number", number), ("$words", state.Words), ("$case", state.CaseJson));

    private static void Change(SqliteConnection open, string id, string sql, params (string Name, object Value)[] values)
    {
        if (Run(open, sql, values) == 0)
        {
            throw new InvalidOperationException($"There is no work {id} any more.");
        }
    }

    private static int Run(SqliteConnection open, string sql, params (string Name, object Value)[] values)
    {
        using SqliteCommand command = Command(open, sql, values);
        return command.ExecuteNonQuery();
    }

    private static SqliteCommand Command(SqliteConnection open, string sql, params (string Name, object Value)[] values)
    {
        SqliteCommand command = open.CreateCommand();
        command.CommandText = sql;
        foreach ((string name, object value) in values)
        {
            command.Parameters.AddWithValue(name, value);
        }

        return command;
    }

    private SqliteConnection Open()
    {
        SqliteConnection open = new(_file);
        open.Open();
        return open;
    }
}
