using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Studies.Inputs;

namespace Halfpin.Studies.Engine;

/// <summary>All that determines the rows of a study: with it any machine makes the same ones. Immutable, and plain enough to be written as JSON.</summary>
public sealed record Study
{
    /// <summary>SHA-256 of the case file.</summary>
    public required string CaseSha256 { get; init; }

    /// <summary>The valid case.</summary>
    public required Case Case { get; init; }

    /// <summary>Id of the frame.</summary>
    public required string Frame { get; init; }

    /// <summary>Id of a frame to set beside it under the same inputs; null for none.</summary>
    public string? Against { get; init; }

    /// <summary>The inputs.</summary>
    public required ImmutableArray<StudyInput> Inputs { get; init; }

    /// <summary>Values of each input on a grid, the last input fastest; empty for a sampled study.</summary>
    public ImmutableArray<ImmutableArray<double>> Grid { get; init; } = [];

    /// <summary>Seed of a sampled study.</summary>
    public ulong Seed { get; init; }

    /// <summary>Most base points of a sampled study.</summary>
    public long BasePoints { get; init; }
}

/// <summary>A range of rows of a study: the unit of work.</summary>
/// <param name="Study">The study.</param>
/// <param name="From">The first row.</param>
/// <param name="Count">How many.</param>
public sealed record StudyBatch(Study Study, long From, int Count);
