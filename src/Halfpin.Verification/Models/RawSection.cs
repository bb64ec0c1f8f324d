using System.Collections.Immutable;

namespace Halfpin.Verification.Models;

/// <summary>A cross-section by its outlines: corners x, y in turn, anticlockwise.</summary>
/// <param name="Outer">Outer outline.</param>
/// <param name="Inner">Inner outline with as many corners, corner i facing corner i; absent when solid.</param>
public sealed record RawSection(ImmutableArray<double> Outer, ImmutableArray<double>? Inner);
