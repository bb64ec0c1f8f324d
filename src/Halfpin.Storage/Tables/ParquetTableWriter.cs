using System.Collections.Immutable;
using Parquet;
using Parquet.Schema;

namespace Halfpin.Storage.Tables;

/// <summary>A table as Apache Parquet; what is missing is null.</summary>
internal sealed class ParquetTableWriter : TableWriter
{
    private readonly ImmutableArray<DataField> _fields;
    private readonly ParquetWriter _writer;

    public ParquetTableWriter(string path, ImmutableArray<TableColumn> columns)
        : base(path, columns)
    {
        _fields = [.. columns.Select(c => c.Kind switch
        {
            ColumnKind.Number => new DataField<double?>(c.Name),
            ColumnKind.Whole => new DataField<long>(c.Name),
            _ => new DataField(c.Name, typeof(string), isNullable: true),
        })];
        _writer = ParquetWriter.CreateAsync(new ParquetSchema([.. _fields]), File).GetAwaiter().GetResult();
    }

    private protected override void WriteGroup(int rows) => WriteGroupAsync(rows).GetAwaiter().GetResult();

    private protected override void WriteEnd() => _writer.DisposeAsync().AsTask().GetAwaiter().GetResult();

    private async Task WriteGroupAsync(int rows)
    {
        using ParquetRowGroupWriter group = _writer.CreateRowGroup();
        for (int c = 0; c < _fields.Length; c++)
        {
            switch (Columns[c].Kind)
            {
                case ColumnKind.Number:
                    await group.WriteAsync<double>(_fields[c], Numbers[c].Take(rows).Select(n => double.IsNaN(n) ? (double?)null : n).ToArray()).ConfigureAwait(false);
                    break;
                case ColumnKind.Whole:
                    await group.WriteAsync<long>(_fields[c], Wholes[c].AsMemory(0, rows)).ConfigureAwait(false);
                    break;
                default:
                    await group.WriteAsync(_fields[c], Words[c][..rows]!).ConfigureAwait(false);
                    break;
            }
        }
    }
}
