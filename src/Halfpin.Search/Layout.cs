using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Search;

/// <summary>The choices that make a candidate.</summary>
/// <param name="Construct">The construct about the outer fractures.</param>
/// <param name="Middle">Pins in each fragment between; null where there are none.</param>
internal sealed record Layout(Construct Construct, MiddlePins? Middle)
{
    /// <summary>Its parts.</summary>
    public Parts Parts(ImmutableArray<Fracture> fractures) => Middle is null ? ConstructBuilder.Build(Construct, fractures) : SegmentalBuilder.Build(Construct, Middle, fractures);

    /// <summary>The frame of a case that it is: by its construct, or by its parts where no construct is such a frame.</summary>
    public Frame Frame(string id, string? name, ImmutableArray<Fracture> fractures) => Middle is null
        ? new() { Id = id, Name = name, Construct = Construct }
        : new() { Id = id, Name = name, Parts = Parts(fractures) };
}
