using System.Globalization;
using Halfpin.Domain.Cases;

namespace Halfpin.Cli.Output;

/// <summary>A loading in words.</summary>
internal static class LoadWords
{
    public static string Of(Loading loading)
    {
        string[] parts = [.. new (double Value, string Words)[]
        {
            (loading.AllowedKg, "kg axial"), (loading.TorsionNm, "N·m torsion"), (loading.ApBendingNm, "N·m AP bending"), (loading.MlBendingNm, "N·m ML bending"),
        }.Where(p => p.Value != 0).Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Value:0.##} {p.Words}"))];
        return parts.Length == 0 ? "none chosen" : string.Join(", ", parts);
    }
}
