using Halfpin.Domain.Validity;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Fields;

/// <summary>What came of reading what was typed into a field: a change, or what is wrong with the text.</summary>
/// <param name="Edit">The change; null when the text cannot be one.</param>
/// <param name="Fault">What is wrong; null for a change.</param>
public sealed record FieldReading(CaseEdit? Edit, Fault? Fault);

/// <summary>One of the choices of a field.</summary>
/// <param name="Key">Its name for programs; empty for none of the others.</param>
/// <param name="Words">Its name for people.</param>
public sealed record FieldChoice(string Key, string Words);

/// <summary>How a field is filled in.</summary>
public enum FieldKind
{
    /// <summary>A number is typed.</summary>
    Number,

    /// <summary>Text is typed.</summary>
    Text,

    /// <summary>One of some choices is taken.</summary>
    Choice,

    /// <summary>Any of some choices are taken.</summary>
    Choices,
}
