using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;

namespace Halfpin.Storage.Cases;

/// <summary>What came of reading a case file.</summary>
/// <param name="Case">The case, null when there are faults.</param>
/// <param name="Sha256">SHA-256 of the bytes, lower-case hexadecimal.</param>
/// <param name="Faults">Everything that is wrong; empty for a good case.</param>
public sealed record CaseReading(Case? Case, string Sha256, ImmutableArray<Fault> Faults);
