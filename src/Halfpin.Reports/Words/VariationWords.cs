using Halfpin.Domain.Assessments;

namespace Halfpin.Reports.Words;

/// <summary>How the numbers and rules of a variation are called where people read them.</summary>
/// <param name="Number">Label and unit of a number by its name in the report; the unit is empty for a count.</param>
/// <param name="Check">Words for a rule by its name.</param>
public sealed record VariationWords(Func<string, (string Label, string Unit)> Number, Func<string, string> Check)
{
    /// <summary>Numbers by the words of their own names, rules by their names.</summary>
    public static VariationWords Plain { get; } = new(NumberWords.OfPath, check => check);

    /// <summary>Where a verdict changes: "between 38 and 44 mm"; says so when rows between could not be assessed.</summary>
    /// <param name="change">The change.</param>
    /// <param name="values">The two values within a sentence: "38 and 44 mm".</param>
    public static string Between(VerdictChange change, string values) =>
        change.Unassessed > 0 ? $"somewhere between {values} (rows between could not be assessed)" : $"between {values}";

    /// <summary>Label and unit, as a heading: "Rod to bone, mm".</summary>
    public string Heading(string name) => Number(name) is (string label, string unit) && unit.Length > 0 ? $"{label}, {unit}" : Number(name).Label;

    /// <summary>The label within a sentence: "rod to bone".</summary>
    public string Inside(string name) => Number(name).Label is { Length: > 1 } label && !char.IsUpper(label[1]) ? char.ToLowerInvariant(label[0]) + label[1..] : Number(name).Label;

    /// <summary>The unit after "values of …": " in mm"; empty for a count.</summary>
    public string InUnit(string name) => Number(name).Unit is { Length: > 0 } unit ? $" in {unit}" : "";

    /// <summary>A value with its label and unit within a sentence: "rod to bone 38 mm".</summary>
    public string With(string name, string value) => $"{Inside(name)} {WithUnit(name, value)}";

    /// <summary>A value with its unit: "38 mm".</summary>
    public string WithUnit(string name, string value) => Number(name).Unit switch { "" => value, "°" => $"{value}°", string unit => $"{value} {unit}" };
}
