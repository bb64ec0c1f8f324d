using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Halfpin.Domain.Assessments;
using Halfpin.Storage.Json;
using Halfpin.Storage.Tables;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Uncertainty;

namespace Halfpin.Cli;

/// <summary>Keeps a study's rows while it runs and makes its table when it is done.</summary>
internal sealed class StudyFile : IDisposable
{
    private static readonly WorkKind _kind = new("study", "case, frames, inputs, samples, seed and program");

    private readonly string _table;
    private readonly UncertaintyStudy _study;
    private readonly RowJournal _journal;

    /// <summary>Begins or, when asked, goes on; says so where there is nothing to go on with.</summary>
    /// <exception cref="IOException">The files cannot be written, or an unfinished study is in the way.</exception>
    public StudyFile(string table, UncertaintyStudy study, bool resume, TextWriter error)
    {
        (_table, _study) = (table, study);
        string journal = RowJournal.PathFor(table), name = JsonSerializer.Serialize(new { program = ProgramVersion.Stamp, study = study.Study }, HalfpinJson.Options);
        if (File.Exists(journal) && !resume)
        {
            throw new IOException($"{journal} holds an unfinished study. Go on with it by --resume, or delete it.");
        }

        if (resume && !File.Exists(journal))
        {
            error.WriteLine($"Nothing is kept in {journal}: the study begins anew.");
        }

        _journal = File.Exists(journal) ? RowJournal.GoOn(journal, name, _kind, rows => study.Take(rows)) : RowJournal.Begin(journal, name);
    }

    /// <summary>Keeps the rows of a batch.</summary>
    public void Keep(byte[] rows) => _journal.Append(rows);

    /// <summary>Writes the table and removes the journal.</summary>
    public void Finish()
    {
        using (TableWriter writer = TableWriter.Create(_table, Columns(_study)))
        {
            long row = 0;
            foreach (byte[] chunk in _journal.Chunks())
            {
                for (int at = 0; at < chunk.Length; at += _study.Format.Bytes)
                {
                    Write(writer, row++, chunk.AsSpan(at, _study.Format.Bytes));
                }
            }

            writer.Finish();
        }

        _journal.Dispose();
        File.Delete(RowJournal.PathFor(_table));
    }

    public void Dispose() => _journal.Dispose();

    private static ImmutableArray<TableColumn> Columns(UncertaintyStudy study) =>
    [
        new("row", ColumnKind.Whole), new("frame", ColumnKind.Word), new("basePoint", ColumnKind.Whole), new("role", ColumnKind.Word),
        .. study.Study.Inputs.Select(i => new TableColumn(i.Name, ColumnKind.Number)),
        new("status", ColumnKind.Word),
        .. study.Format.Outputs.Select(o => new TableColumn(o.Name, ColumnKind.Number)),
        .. study.Format.Checks.Select(c => new TableColumn(c, ColumnKind.Word)),
    ];

    private void Write(TableWriter writer, long row, ReadOnlySpan<byte> bytes)
    {
        (Study study, RowFormat format) = (_study.Study, _study.Format);
        RowPlace place = _study.Rows.PlaceOf(row);
        double[] values = new double[study.Inputs.Length];
        _study.Rows.Values(row, values);
        int c = 0;
        writer.Set(c++, row);
        writer.Set(c++, place.IsAgainst ? study.Against : study.Frame);
        writer.Set(c++, place.BasePoint);
        writer.Set(c++, place.Role switch { < 0 => "nominal", 0 => "A", 1 => "B", int i => study.Inputs[i - 2].Name });
        foreach (double value in values)
        {
            writer.Set(c++, value);
        }

        writer.Set(c++, Word(format.Status(bytes)));
        for (int o = 0; o < format.Outputs.Length; o++)
        {
            writer.Set(c++, RowFormat.Number(bytes, o));
        }

        for (int k = 0; k < format.Checks.Length; k++)
        {
            writer.Set(c++, format.Verdict(bytes, k) is Verdict verdict ? Word(verdict) : null);
        }

        writer.EndRow();
    }

    private static string Word<T>(T value)
        where T : struct, Enum
    {
        string name = value.ToString();
        return char.ToLower(name[0], CultureInfo.InvariantCulture) + name[1..];
    }
}
