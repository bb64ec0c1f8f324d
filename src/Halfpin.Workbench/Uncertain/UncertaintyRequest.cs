namespace Halfpin.Workbench.Uncertain;

/// <summary>A study of uncertainty as it was asked for.</summary>
/// <param name="Frame">Id of the frame.</param>
/// <param name="Against">Id of a frame to rank it against; null for none.</param>
/// <param name="Samples">The most evaluations; null when no number was typed.</param>
/// <param name="Seed">Seed: the same one gives the same figures.</param>
public sealed record UncertaintyRequest(string Frame, string? Against, double? Samples, ulong Seed);
