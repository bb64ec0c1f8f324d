using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;

namespace Halfpin.Planning.Indication;

/// <summary>The published damage-control grades, figure by figure.</summary>
internal static class PhysiologyGrades
{
    /// <summary>
    /// Where they come from. READ; the sign before the first cell (blood pressure, stable, 100) was lost in the copy read and is taken as
    /// "at least".
    /// </summary>
    public const string Source = "ISRN Orthopedics 2013;329452, table 1 (after Pape)";

    private static readonly ImmutableArray<DamageControlGrade> _grades =
        [DamageControlGrade.Stable, DamageControlGrade.Borderline, DamageControlGrade.Unstable, DamageControlGrade.InExtremis];

    // Bounds of stable, borderline, unstable and in extremis, inclusive; columns overlap and leave gaps, as printed. Lactate has no figure
    // for normal nor for in extremis ("severe acidosis").
    private static readonly ImmutableArray<Row> _rows =
    [
        new("systolic blood pressure", "mmHg", p => p.SystolicMmHg, [(100, 1e9), (80, 100), (60, 90), (-1e9, 60)]),
        new("blood in two hours", "units", p => p.BloodUnits2H, [(0, 2), (2, 8), (5, 15), (15.000001, 1e9)]),
        new("lactate", "mmol/L", p => p.LactateMmolPerL, [(0, 2.499999), (2.5, 2.5), (2.500001, 1e9)]),
        new("platelets", "thousand per µL", p => p.PlateletsThousand, [(110.000001, 1e9), (90, 110), (70, 90), (-1e9, 69.999999)]),
        new("temperature", "°C", p => p.TemperatureC, [(35.000001, 1e9), (33, 35), (30, 32), (-1e9, 30)]),
        new("PaO2/FiO2", "mmHg", p => p.PaO2FiO2MmHg, [(350.000001, 1e9), (300, 300), (200, 300), (-1e9, 199.999999)]),
    ];

    /// <summary>The recorded figures, each with the grades whose range holds it.</summary>
    public static IEnumerable<PhysiologyItem> Of(Physiology recorded) =>
        from row in _rows
        let value = row.Read(recorded)
        where value is not null
        select new PhysiologyItem(row.Figure, value.Value, row.Unit, [.. Grades(row, value.Value).Select(g => Words.Of(g))]);

    /// <summary>The figures that lie only in grades worse than one.</summary>
    public static IEnumerable<string> WorseThan(DamageControlGrade grade, Physiology recorded) =>
        from row in _rows
        let value = row.Read(recorded)
        where value is not null && Grades(row, value.Value).All(g => g > grade)
        select row.Figure;

    /// <summary>The grades that hold a figure; where it falls between two, both.</summary>
    private static DamageControlGrade[] Grades(Row row, double value)
    {
        int[] holding = [.. Enumerable.Range(0, row.Columns.Length).Where(i => value >= row.Columns[i].Low && value <= row.Columns[i].High)];
        if (holding.Length == 0)
        {
            holding = [.. Enumerable.Range(0, row.Columns.Length - 1).Where(i => IsBetween(row.Columns[i], row.Columns[i + 1], value)).SelectMany(i => new[] { i, i + 1 })];
        }

        return [.. holding.Select(i => _grades[i])];
    }

    private static bool IsBetween((double Low, double High) a, (double Low, double High) b, double value) =>
        (value > a.High && value < b.Low) || (value > b.High && value < a.Low);

    private sealed record Row(string Figure, string Unit, Func<Physiology, double?> Read, ImmutableArray<(double Low, double High)> Columns);
}
