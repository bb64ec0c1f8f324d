using Halfpin.Domain.Cases;

namespace Halfpin.Workbench.Documents;

/// <summary>A change to a case.</summary>
/// <param name="Words">The change in words, as undo names it: "rod to bone 40 mm".</param>
/// <param name="Apply">The changed case.</param>
public sealed record CaseEdit(string Words, Func<Case, Case> Apply);
