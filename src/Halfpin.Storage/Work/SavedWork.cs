using System.Collections.Immutable;

namespace Halfpin.Storage.Work;

/// <summary>A case somebody works on, as the list of saved work shows it.</summary>
/// <param name="Id">Name of the work in addresses.</param>
/// <param name="Title">Title of its case.</param>
/// <param name="ChangedUtc">When it was last changed.</param>
public sealed record SavedWork(string Id, string Title, DateTime ChangedUtc);

/// <summary>A state of a case with the change that led to it, in words.</summary>
/// <param name="Words">What was changed; for the first state, where it came from.</param>
/// <param name="CaseJson">The case as a file.</param>
public sealed record SavedRevision(string Words, byte[] CaseJson);

/// <summary>All states of a case, oldest first, and which of them is in force.</summary>
/// <param name="Revisions">The states; at least one.</param>
/// <param name="Position">Index of the state in force; states after it have been undone.</param>
public sealed record SavedHistory(ImmutableArray<SavedRevision> Revisions, int Position);

/// <summary>A stock file that a work holds.</summary>
/// <param name="FileName">Its name; one that ends in .csv is CSV, any other JSON.</param>
/// <param name="Bytes">Its bytes as they were given.</param>
public sealed record SavedStock(string FileName, byte[] Bytes);
