using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Checks;

namespace Halfpin.Cli.Output;

/// <summary>Loads in words.</summary>
internal static class LoadWords
{
    public static string Of(Case value)
    {
        Loading loading = value.Loading;
        string[] parts = [.. new (double Value, string Words)[]
        {
            (loading.AxialKgFor(value.Limb.PatientMassKg), "kg axial"),
            (loading.LineOffsetApMm, "mm in front of the axis"), (loading.LineOffsetMlMm, "mm medial to it"),
            (loading.TorsionNm, "N·m torsion"), (loading.ApBendingNm, "N·m AP bending"), (loading.MlBendingNm, "N·m ML bending"),
        }.Where(p => p.Value != 0).Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Value:0.##} {p.Words}"))];
        return parts.Length == 0 ? "none chosen" : string.Join(", ", parts);
    }

    public static string Overload(Case value) => string.Create(
        CultureInfo.InvariantCulture,
        $"{OverloadCase.Kg(value):0} kg = {value.Loading.AxialKgFor(value.Limb.PatientMassKg):0.#} kg + {100 * OverloadCase.ShareOfBodyWeight:0} % of {value.Limb.PatientMassKg:0} kg, the mean by which patients exceeded an order (READ)");

    public static string Limit(FirstLimit limit, Interval? bandKg)
    {
        string what = limit.Check switch
        {
            FirstLimits.Touch => "ends touch",
            FirstLimits.Range => "a part turns 5°",
            FirstLimits.Runs => "loose clamps run freely",
            _ => $"{limit.Part} {limit.Check}",
        };
        string band = bandKg is null ? "" : string.Create(CultureInfo.InvariantCulture, $" ({bandKg.Low:0}–{bandKg.High:0})");
        return string.Create(CultureInfo.InvariantCulture, $"{what} at {limit.LoadKg:0}{band} kg");
    }
}
