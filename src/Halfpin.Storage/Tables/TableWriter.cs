using System.Collections.Immutable;

namespace Halfpin.Storage.Tables;

/// <summary>What a column of a table holds.</summary>
public enum ColumnKind
{
    /// <summary>Numbers; not a number stands for a missing one.</summary>
    Number,

    /// <summary>Whole numbers.</summary>
    Whole,

    /// <summary>Words, null for a missing one.</summary>
    Word,
}

/// <summary>A column: its name, with the unit at its end, and what it holds.</summary>
public sealed record TableColumn(string Name, ColumnKind Kind);

/// <summary>A long table written row by row, in memory that does not grow, to a file that appears only when it is whole. A workspace.</summary>
/// <remarks>The same rows give the same bytes: rows go to the file in groups of <see cref="GroupRows"/> whatever their pace.</remarks>
public abstract class TableWriter : IDisposable
{
    /// <summary>Rows that go to the file together.</summary>
    public const int GroupRows = 8192;

    private readonly string _target;
    private readonly string _temporary;
    private int _rows;

    private protected TableWriter(string path, ImmutableArray<TableColumn> columns)
    {
        Columns = columns;
        _target = Path.GetFullPath(path);
        _temporary = $"{_target}.{Guid.NewGuid():N}.tmp";
        Numbers = [.. columns.Select(c => c.Kind == ColumnKind.Number ? new double[GroupRows] : [])];
        Wholes = [.. columns.Select(c => c.Kind == ColumnKind.Whole ? new long[GroupRows] : [])];
        Words = [.. columns.Select(c => c.Kind == ColumnKind.Word ? new string?[GroupRows] : [])];
        File = new(_temporary, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None);
    }

    /// <summary>The columns.</summary>
    public ImmutableArray<TableColumn> Columns { get; }

    private protected FileStream File { get; }

    private protected double[][] Numbers { get; }

    private protected long[][] Wholes { get; }

    private protected string?[][] Words { get; }

    /// <summary>True when tables can be written to such a file: .csv or .parquet.</summary>
    public static bool Knows(string path) => IsCsv(path) || path.EndsWith(".parquet", StringComparison.OrdinalIgnoreCase);

    /// <summary>A writer of the format that a file's name ends in.</summary>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public static TableWriter Create(string path, ImmutableArray<TableColumn> columns) =>
        IsCsv(path) ? new CsvTableWriter(path, columns) : new ParquetTableWriter(path, columns);

    /// <summary>Sets a number of the row under way.</summary>
    public void Set(int column, double number) => Numbers[column][_rows] = number;

    /// <summary>Sets a whole number.</summary>
    public void Set(int column, long number) => Wholes[column][_rows] = number;

    /// <summary>Sets a word.</summary>
    public void Set(int column, string? word) => Words[column][_rows] = word;

    /// <summary>Ends a row, all of whose columns have been set.</summary>
    public void EndRow()
    {
        if (++_rows == GroupRows)
        {
            WriteGroup(_rows);
            _rows = 0;
        }
    }

    /// <summary>Ends the table and puts it in its place.</summary>
    public void Finish()
    {
        if (_rows > 0)
        {
            WriteGroup(_rows);
            _rows = 0;
        }

        WriteEnd();
        File.Flush(flushToDisk: true);
        File.Dispose();
        System.IO.File.Move(_temporary, _target, overwrite: true);
    }

    /// <summary>Leaves nothing behind of a table that was not finished.</summary>
    public void Dispose()
    {
        Release();
        File.Dispose();
        System.IO.File.Delete(_temporary);
        GC.SuppressFinalize(this);
    }

    private protected abstract void WriteGroup(int rows);

    private protected abstract void WriteEnd();

    private protected virtual void Release()
    {
    }

    private static bool IsCsv(string path) => path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase);
}
