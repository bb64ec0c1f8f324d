using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Storage.Tables;

/// <summary>The rows of a variation as a table file.</summary>
public static class VariationTable
{
    /// <summary>Writes the rows of a report to a file.</summary>
    /// <param name="path">The file; its name ends in .csv or .parquet.</param>
    /// <param name="report">The report.</param>
    /// <exception cref="NotSupportedException">The name ends otherwise.</exception>
    public static void Write(string path, VariationReport report)
    {
        string[] over = [.. report.Over.Select(o => o.Name)], checks = [.. report.Rows.SelectMany(r => r.Verdicts.Keys).Distinct().Order()];
        ImmutableArray<VariedResult> results = VariedResult.AllOf(report);
        ImmutableArray<TableColumn> columns =
        [
            .. over.Select(o => new TableColumn(o, ColumnKind.Number)), new("status", ColumnKind.Word),
            .. results.Select(r => new TableColumn(r.Name, ColumnKind.Number)),
            .. checks.Select(c => new TableColumn(c, ColumnKind.Word)), new("changed", ColumnKind.Word), new("reason", ColumnKind.Word),
        ];
        using TableWriter writer = TableWriter.Create(TableWriter.Knows(path) ? path : throw new NotSupportedException($"{path}: the name must end in .csv or .parquet."), columns);
        foreach (VariationRow row in report.Rows)
        {
            int c = 0;
            foreach (string name in over)
            {
                writer.Set(c++, row.Values[name]);
            }

            writer.Set(c++, row.Status.ToString().ToLowerInvariant());
            foreach (VariedResult result in results)
            {
                writer.Set(c++, result.Of(row) ?? double.NaN);
            }

            foreach (string check in checks)
            {
                writer.Set(c++, row.Verdicts.TryGetValue(check, out Verdict verdict) ? verdict.ToString().ToLowerInvariant() : null);
            }

            writer.Set(c++, string.Join(' ', row.Changed));
            writer.Set(c, row.Reason);
            writer.EndRow();
        }

        writer.Finish();
    }
}
