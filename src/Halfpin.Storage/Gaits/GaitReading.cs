using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;

namespace Halfpin.Storage.Gaits;

/// <summary>What came of reading a table of gait.</summary>
/// <param name="Gait">The phases, null when there are faults.</param>
/// <param name="Sha256">SHA-256 of the bytes, lower-case hexadecimal.</param>
/// <param name="Faults">Everything that is wrong, by row and column; empty for a good table.</param>
public sealed record GaitReading(Gait? Gait, string Sha256, ImmutableArray<Fault> Faults);
