using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Workbench.Varying;

/// <summary>What a screen says of a variation.</summary>
public sealed record VariationView
{
    /// <summary>True when the case has changed since in something that it depends on.</summary>
    public required bool IsStale { get; init; }

    /// <summary>The answer in a sentence.</summary>
    public required string Headline { get; init; }

    /// <summary>Where verdicts change, in sentences.</summary>
    public required ImmutableArray<VerdictLine> Changes { get; init; }

    /// <summary>Headings of the table, units among them: the numbers that vary, then the results.</summary>
    public required ImmutableArray<string> Headings { get; init; }

    /// <summary>How many of the headings are of numbers that vary.</summary>
    public required int Varied { get; init; }

    /// <summary>The rows.</summary>
    public required ImmutableArray<VariationLine> Rows { get; init; }
}

/// <summary>A verdict that changes.</summary>
/// <param name="Check">The rule's word.</param>
/// <param name="Words">What changes, and between which values.</param>
/// <param name="To">The verdict then; null when the rule applies no more.</param>
public sealed record VerdictLine(string Check, string Words, Verdict? To);

/// <summary>A row of a variation.</summary>
/// <param name="Cells">Texts, one for each heading.</param>
/// <param name="IsNominal">True where the numbers are as in the case.</param>
/// <param name="Changes">Verdicts that change from the last row before it with verdicts.</param>
/// <param name="Since">Between which values they change when rows between could not be assessed; empty when none are.</param>
/// <param name="Reason">Why results are missing; empty when none are.</param>
public sealed record VariationLine(ImmutableArray<string> Cells, bool IsNominal, ImmutableArray<VerdictLine> Changes, string Since, string Reason);
