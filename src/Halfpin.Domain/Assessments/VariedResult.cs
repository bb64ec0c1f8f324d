using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>A column of results of a variation.</summary>
/// <param name="Name">The quantity, with several fractures followed by @ and the number of one.</param>
/// <param name="Of">Its value in a row; null where it is withheld. Axial motion has its sign, a utilisation is a share of a limit.</param>
/// <param name="IsWorst">True in a row where this fracture fares worst of several.</param>
public sealed record VariedResult(string Name, Func<VariationRow, double?> Of, Func<VariationRow, bool> IsWorst)
{
    /// <summary>The columns of a report: each fracture, then the whole frame.</summary>
    public static ImmutableArray<VariedResult> AllOf(VariationReport report)
    {
        int fractures = report.Rows.Select(r => r.Fractures.Length).DefaultIfEmpty().Max();
        IEnumerable<VariedResult> at = fractures == 0
            ? VariedQuantity.All.Select(q => new VariedResult(q.Name, r => q.Of(r.Stiffness, r.Motion), _ => false))
            : Enumerable.Range(0, fractures).SelectMany(At);
        return [.. at, new("worstUtilisation", r => r.WorstUtilisation, _ => false), new("firstLimitKg", r => r.FirstLimitKg, _ => false)];
    }

    private static IEnumerable<VariedResult> At(int fracture) => VariedQuantity.All.Select(q => new VariedResult(
        ResultNames.Of(q.Name, fracture + 1),
        r => r.Fractures.IsEmpty ? null : q.Of(r.Fractures[fracture].Stiffness, r.Fractures[fracture].Motion),
        r => !r.Fractures.IsEmpty && r.Fractures[fracture].WorstIn.Contains(q.Name)));
}
