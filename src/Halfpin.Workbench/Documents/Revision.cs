using Halfpin.Domain.Cases;

namespace Halfpin.Workbench.Documents;

/// <summary>A state of a case with the change that led to it.</summary>
/// <param name="Words">The change in words.</param>
/// <param name="Case">The case.</param>
public sealed record Revision(string Words, Case Case);
