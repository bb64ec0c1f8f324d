using System.Globalization;
using Halfpin.Domain.Cases;

namespace Halfpin.Reports.Words;

/// <summary>A case's injury and loading in words.</summary>
public static class CaseWords
{
    public static string Injury(Case value)
    {
        Limb limb = value.Limb;
        string wound = value.Wounds.Length switch { 0 => "", 1 => ", one wound", int n => Text($", {n} wounds") };
        return Text($"{limb.Side} {limb.Bone.ToString().ToLowerInvariant()} of {limb.LengthMm:0.#} mm, {string.Join(" and ", value.Fractures.Select(Of))}{wound}; {limb.PatientMassKg:0.#} kg patient; {value.Purpose.ToString().ToLowerInvariant()} frame. Load looked at: {Load(value.Loading)}.");
    }

    private static string Of(Fracture f)
    {
        string tilt = f.TiltDeg > 0 ? Text($", tilted {f.TiltDeg:0.#}° down to {Directions.Of(f.TiltAzimuthDeg)}") : "";
        return Text($"{f.Pattern.ToString().ToLowerInvariant()} fracture at level {f.LevelMm:0.#} mm, gap {f.GapMm:0.#} mm{tilt}");
    }

    public static string Load(Loading loading)
    {
        string[] parts = [.. new (double Value, string Words)[]
        {
            (loading.AllowedKg, "kg axial"), (loading.TorsionNm, "N·m torsion"), (loading.ApBendingNm, "N·m AP bending"), (loading.MlBendingNm, "N·m ML bending"),
        }.Where(p => p.Value != 0).Select(p => Text($"{p.Value:0.##} {p.Words}"))];
        return parts.Length == 0 ? "none chosen" : string.Join(", ", parts);
    }

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
