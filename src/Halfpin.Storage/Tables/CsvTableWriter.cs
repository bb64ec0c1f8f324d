using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using nietras.SeparatedValues;

namespace Halfpin.Storage.Tables;

/// <summary>A table as CSV: comma, point decimal, numbers in full, empty cells for what is missing.</summary>
internal sealed class CsvTableWriter : TableWriter
{
    private readonly SepWriter _writer;

    public CsvTableWriter(string path, ImmutableArray<TableColumn> columns)
        : base(path, columns)
    {
        _writer = Sep.New(',').Writer(o => o with { CultureInfo = CultureInfo.InvariantCulture, Escape = true })
            .To(new StreamWriter(File, new UTF8Encoding(false), leaveOpen: true) { NewLine = "\n" }, leaveOpen: false);
    }

    private protected override void WriteGroup(int rows)
    {
        for (int r = 0; r < rows; r++)
        {
            using SepWriter.Row row = _writer.NewRow();
            for (int c = 0; c < Columns.Length; c++)
            {
                string name = Columns[c].Name;
                row[name].Set(Columns[c].Kind switch
                {
                    ColumnKind.Number => double.IsNaN(Numbers[c][r]) ? "" : Numbers[c][r].ToString("R", CultureInfo.InvariantCulture),
                    ColumnKind.Whole => Wholes[c][r].ToString(CultureInfo.InvariantCulture),
                    _ => Words[c][r] ?? "",
                });
            }
        }
    }

    private protected override void WriteEnd() => Release();

    private protected override void Release() => _writer.Dispose();
}
