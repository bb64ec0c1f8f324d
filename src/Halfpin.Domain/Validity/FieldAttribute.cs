namespace Halfpin.Domain.Validity;

/// <summary>
/// What a member of a case means and which values it may take. The one home of both: the JSON Schema, the reader's
/// messages and the forms are made from it.
/// </summary>
/// <param name="meaning">A plain sentence; the unit stands in the member's name.</param>
[AttributeUsage(AttributeTargets.Property)]
public sealed class FieldAttribute(string meaning) : Attribute
{
    /// <summary>A plain sentence.</summary>
    public string Meaning { get; } = meaning;

    /// <summary>Least value allowed, inclusive. For lists, the least count.</summary>
    public double Min { get; init; } = double.NaN;

    /// <summary>Greatest value allowed, inclusive. For lists and texts, the greatest count or length.</summary>
    public double Max { get; init; } = double.NaN;

    /// <summary>True for a name that other members refer to.</summary>
    public bool IsId { get; init; }
}
