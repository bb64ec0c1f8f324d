using System.Collections.Frozen;
using Halfpin.Domain.Assessments;

namespace Halfpin.Workbench.Answers;

/// <summary>Which term of the glossary explains a number of a screen, where its label alone does not say: "Axial" is a stiffness in one place and a movement in another.</summary>
public static class ResultTerms
{
    private static readonly FrozenDictionary<string, string> _terms = new Dictionary<string, string>
    {
        ["axial"] = "axial-stiffness",
        ["axialNPerMm"] = "axial-stiffness",
        ["ap"] = "ap-bending",
        ["apBendingNmPerDeg"] = "ap-bending",
        ["ml"] = "ml-bending",
        ["mlBendingNmPerDeg"] = "ml-bending",
        ["torsion"] = "torsion",
        ["torsionNmPerDeg"] = "torsion",
        ["weak"] = "weak-direction",
        ["weakBendingNmPerDeg"] = "weak-direction",
        ["motion"] = "axial-motion",
        ["motion.axial"] = "axial-motion",
        ["axialMm"] = "axial-motion",
        ["motion.near"] = "near-cortex",
        ["motion.far"] = "far-cortex",
        ["motion.shear"] = "shear",
        ["shearMm"] = "shear",
        ["motion.tilt"] = "tilt",
        ["tiltDeg"] = "tilt",
        ["motion.twist"] = "twist",
        ["twistDeg"] = "twist",
        ["firstLimitKg"] = "first-limit",
        ["worstUsedPercent"] = "used",
        ["worstUtilisation"] = "used",
        ["cautions"] = "caution",
        ["cost"] = "relative-cost",
        ["margin"] = "margin",
        ["skin"] = "soft-tissue",
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Keys of numbers that have one.</summary>
    public static IEnumerable<string> Keys => _terms.Keys;

    /// <summary>Key of the term of a number; null when its label says enough.</summary>
    /// <param name="key">The number's name for programs; at one of several fractures too.</param>
    public static string? Of(string key) => _terms.GetValueOrDefault(ResultNames.Read(key).Quantity);
}
