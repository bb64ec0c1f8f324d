using System.Globalization;
using Halfpin.Domain.Assessments;

namespace Halfpin.Reports.Words;

/// <summary>Results of studies by names for people.</summary>
public static class ResultWords
{
    private static readonly Dictionary<string, (string Label, string Unit)> _quantities = new()
    {
        ["axialNPerMm"] = ("Axial stiffness", "N/mm"),
        ["apBendingNmPerDeg"] = ("AP bending", "N·m/°"),
        ["mlBendingNmPerDeg"] = ("ML bending", "N·m/°"),
        ["torsionNmPerDeg"] = ("Torsion", "N·m/°"),
        ["axialMm"] = ("Axial motion at the load", "mm"),
        ["shearMm"] = ("Shear at the load", "mm"),
        ["tiltDeg"] = ("Tilt at the load", "°"),
        ["worstUtilisation"] = ("Most used part of its limit, fatigue apart", "%"),
        ["firstLimitKg"] = ("Model's first limit; no load to allow", "kg"),
    };

    /// <summary>A result and its unit; at one of several fractures as "Fracture 2: axial stiffness".</summary>
    public static (string Label, string Unit) Of(string name)
    {
        (string quantity, int? fracture) = ResultNames.Read(name);
        (string label, string unit) = _quantities.GetValueOrDefault(quantity, (quantity, ""));
        return fracture is int n ? (AtFracture(n, label), unit) : (label, unit);
    }

    /// <summary>A label at one of several fractures; abbreviations keep their capitals.</summary>
    /// <param name="fracture">Its number, from 1.</param>
    /// <param name="label">The label, with a capital.</param>
    public static string AtFracture(int fracture, string label) => string.Create(
        CultureInfo.InvariantCulture, $"Fracture {fracture}: {(label.Length > 1 && char.IsUpper(label[1]) ? label : char.ToLowerInvariant(label[0]) + label[1..])}");
}
