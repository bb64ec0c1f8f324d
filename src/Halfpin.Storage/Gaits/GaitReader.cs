using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using nietras.SeparatedValues;

namespace Halfpin.Storage.Gaits;

/// <summary>
/// Reads tables of gait: comma-separated values (RFC 4180) in UTF-8 with a header, decimal points, a row a phase. Every fault in one
/// answer, its pointer /row/column with the row as a spreadsheet counts it, the header being 1.
/// </summary>
public static class GaitReader
{
    /// <summary>Largest file accepted.</summary>
    public const int MaxBytes = 2 * 1024 * 1024;

    /// <summary>Most phases: a step in finer parts than any sensor tells apart.</summary>
    public const int MaxPhases = 1000;

    private const int MaxFaults = 100;

    /// <summary>Reads a table.</summary>
    /// <param name="utf8">The file's bytes.</param>
    public static GaitReading Read(ReadOnlyMemory<byte> utf8)
    {
        string sha = Convert.ToHexStringLower(SHA256.HashData(utf8.Span));
        if (utf8.Length > MaxBytes)
        {
            return Refuse(sha, [new("", FaultCodes.TooLarge, $"The table has {utf8.Length} bytes.", $"At most {MaxBytes} bytes.", "Check that this is a table of gait.")]);
        }

        string text;
        try
        {
            text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(utf8.Span).TrimStart('\uFEFF');
        }
        catch (DecoderFallbackException)
        {
            return Refuse(sha, [new("", FaultCodes.Syntax, "The table is not UTF-8 text.", "Comma-separated values in UTF-8.", "Save it as CSV UTF-8.")]);
        }

        (int Row, string[] Cells)[] rows = [.. Rows(text)];
        List<Fault> faults = [];
        ImmutableArray<GaitPhase> phases = [];
        if (rows.Length == 0)
        {
            faults.Add(new("", FaultCodes.Missing, "The table is empty.", GaitColumns.Header, "Begin with this header and give a row for each phase."));
        }
        else
        {
            GaitColumns columns = GaitColumns.From(rows[0].Row, rows[0].Cells, faults);
            phases = [.. rows.Skip(1).Take(MaxPhases).Select(r => columns.Phase(r.Row, r.Cells, faults)).OfType<GaitPhase>()];
            faults.AddRange(Content(rows.Length - 1, rows.Skip(1).Select(r => (r.Row, Name: columns.NameIn(r.Cells)))));
        }

        return faults.Count > 0 ? Refuse(sha, faults) : new(new(phases), sha, []);
    }

    // Blank lines are none.
    private static List<(int Row, string[] Cells)> Rows(string text)
    {
        List<(int, string[])> rows = [];
        using SepReader reader = Sep.New(',').Reader(o => o with { HasHeader = false, Unescape = true, DisableColCountCheck = true }).FromText(text);
        int line = 1; // The reader's own number of the first row is not to be trusted; where each row ends is.
        foreach (SepReader.Row row in reader)
        {
            string[] cells = new string[row.ColCount];
            for (int i = 0; i < cells.Length; i++)
            {
                cells[i] = row[i].ToString().Trim();
            }

            if (cells.Any(c => c.Length > 0))
            {
                rows.Add((line, cells));
            }

            line = row.LineNumberToExcl;
        }

        return rows;
    }

    private static IEnumerable<Fault> Content(int count, IEnumerable<(int Row, string? Name)> names)
    {
        if (count is 0 or > MaxPhases)
        {
            yield return new("", FaultCodes.Range, $"The table has {count} phases.", $"1 to {MaxPhases}.", count == 0 ? "Give a row for each phase." : "Leave out rows between which little changes.");
        }

        foreach ((int row, string? name) in names.Where(n => n.Name is { Length: > 0 }).GroupBy(n => n.Name).SelectMany(g => g.Skip(1)))
        {
            yield return new($"/{row}/{GaitColumns.NameColumn}", FaultCodes.DuplicateId, $"Row {row}: there is a phase \"{name}\" already.", "Names that differ.", "Rename one of them.");
        }
    }

    private static GaitReading Refuse(string sha, List<Fault> faults) => new(null, sha, [.. faults.Take(MaxFaults)]);
}
