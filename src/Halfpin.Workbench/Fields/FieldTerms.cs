using System.Collections.Frozen;

namespace Halfpin.Workbench.Fields;

/// <summary>Which term of the glossary explains a field of a form, where its label alone would be taken for another: torsion is a load there, not a stiffness.</summary>
public static class FieldTerms
{
    private static readonly FrozenDictionary<string, string> _terms = new Dictionary<string, string>
    {
        ["loading/torsionNm"] = "torsion-load",
        ["loading/apBendingNm"] = "bending-load",
        ["loading/mlBendingNm"] = "bending-load",
        ["fractures/tiltDeg"] = "fracture-tilt",
        ["fractures/pattern"] = "fracture-pattern",
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Fields that have one: what holds it, and its name.</summary>
    public static IEnumerable<string> Fields => _terms.Keys;

    /// <summary>Key of the term of a field; null when the words of its label are right.</summary>
    /// <param name="pointer">JSON Pointer of the field.</param>
    public static string? Of(string pointer)
    {
        string[] steps = [.. pointer.Split('/', StringSplitOptions.RemoveEmptyEntries).Where(s => !char.IsAsciiDigit(s[0]))];
        return steps.Length < 2 ? null : _terms.GetValueOrDefault($"{steps[^2]}/{steps[^1]}");
    }
}
