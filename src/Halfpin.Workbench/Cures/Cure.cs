using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Cures;

/// <summary>A change that was assessed and mends a check.</summary>
/// <param name="Check">The check.</param>
/// <param name="Words">The change in words.</param>
/// <param name="After">What the check says afterwards.</param>
/// <param name="Edit">The change.</param>
public sealed record Cure(string Check, string Words, string After, CaseEdit Edit);
