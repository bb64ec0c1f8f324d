using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using System.Text.Json;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;

namespace Halfpin.Storage.Gaits;

/// <summary>The columns of a table of gait: the members of <see cref="GaitPhase"/>, in any order, by the names they have in JSON.</summary>
internal sealed class GaitColumns
{
    private static readonly ImmutableArray<(string Name, FieldAttribute Field)> _known =
        [.. typeof(GaitPhase).GetProperties().Select(p => (JsonNamingPolicy.CamelCase.ConvertName(p.Name), p.GetCustomAttribute<FieldAttribute>())).Where(c => c.Item2 is not null).Select(c => (c.Item1, c.Item2!))];

    private readonly int _count;

    // Place of each known column, −1 for none.
    private readonly ImmutableArray<int> _place;

    private GaitColumns(int count, ImmutableArray<int> place) => (_count, _place) = (count, place);

    /// <summary>The column with the phases' names.</summary>
    public static string NameColumn => _known[0].Name;

    /// <summary>A good header.</summary>
    public static string Header => string.Join(',', _known.Select(k => k.Name));

    /// <summary>Finds the columns in a header; what is wrong with it is added to the faults.</summary>
    public static GaitColumns From(int row, string[] header, List<Fault> faults)
    {
        if (header.Length == 1 && header[0].Contains(';', StringComparison.Ordinal))
        {
            faults.Add(new($"/{row}", FaultCodes.Format, "The header has semicolons between its names.", GaitColumns.Header, "Save the table with commas between cells and decimal points."));
            return new(1, [.. _known.Select(_ => -1)]);
        }

        string[] names = [.. _known.Select(k => k.Name)];
        for (int i = 0; i < header.Length; i++)
        {
            if (!names.Contains(header[i], StringComparer.Ordinal))
            {
                faults.Add(new($"/{row}/{i + 1}", FaultCodes.UnknownMember, $"Row {row}, column {i + 1}: there is no column \"{header[i]}\".", Header, Spelling.DidYouMean(header[i], names) ?? "Leave it out; the unit stands in the name."));
            }
            else if (Array.IndexOf(header, header[i]) < i)
            {
                faults.Add(new($"/{row}/{i + 1}", FaultCodes.DuplicateMember, $"Row {row}, column {i + 1}: \"{header[i]}\" stands there already.", "Each column once.", "Keep the right one."));
            }
        }

        ImmutableArray<int> place = [.. names.Select(n => Array.IndexOf(header, n))];
        faults.AddRange(_known.Where((_, k) => place[k] < 0).Select(k => new Fault(
            $"/{row}/{k.Name}", FaultCodes.Missing, $"The column \"{k.Name}\" is missing.", k.Field.Meaning, "Add it, with 0 where there is none.")));
        return new(header.Length, place);
    }

    /// <summary>The name of a row's phase; null when there is no such cell.</summary>
    public string? NameIn(string[] cells) => _place[0] >= 0 && _place[0] < cells.Length ? cells[_place[0]] : null;

    /// <summary>The phase of a row; null when something is wrong with it, which is added to the faults.</summary>
    public GaitPhase? Phase(int row, string[] cells, List<Fault> faults)
    {
        if (cells.Length != _count)
        {
            faults.Add(new($"/{row}", FaultCodes.Format, $"Row {row} has {cells.Length} cells, the header {_count}.", "As many as the header.", "Look for a comma too many or too few; decimals have a point."));
            return null;
        }

        if (_place.Contains(-1))
        {
            return null; // The header's fault has been told.
        }

        int before = faults.Count;
        string name = cells[_place[0]];
        if (name.Length == 0 || name.Length > _known[0].Field.Max)
        {
            faults.Add(new($"/{row}/{NameColumn}", FaultCodes.Range, name.Length == 0 ? $"Row {row} has no name." : $"Row {row}: the name has {name.Length} letters.", $"1 to {_known[0].Field.Max} letters.", "Name the phase, or give the percent of the step."));
        }

        double[] v = [.. Enumerable.Range(1, _known.Length - 1).Select(k => Number(row, k, cells[_place[k]], faults))];
        return faults.Count > before ? null : new() { Phase = name, FxN = v[0], FyN = v[1], FzN = v[2], MxNm = v[3], MyNm = v[4], MzNm = v[5] };
    }

    private static double Number(int row, int column, string cell, List<Fault> faults)
    {
        (string name, FieldAttribute field) = _known[column];
        string allowed = string.Create(CultureInfo.InvariantCulture, $"A number from {field.Min} to {field.Max}, with a decimal point. {field.Meaning}");
        if (!double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) || !double.IsFinite(value))
        {
            faults.Add(new($"/{row}/{name}", cell.Length == 0 ? FaultCodes.Missing : FaultCodes.Type, cell.Length == 0 ? $"Row {row}, column {name}: the cell is empty." : $"Row {row}, column {name}: \"{(cell.Length <= 40 ? cell : cell[..39] + "…")}\" is no number.", allowed, cell.Contains(',', StringComparison.Ordinal) ? "Write the decimal with a point." : "Give a number; 0 where there is none."));
        }
        else if (value < field.Min || value > field.Max)
        {
            faults.Add(new($"/{row}/{name}", FaultCodes.Range, string.Create(CultureInfo.InvariantCulture, $"Row {row}, column {name}: {value} is out of range."), allowed, "Check the unit."));
        }

        return value;
    }
}
