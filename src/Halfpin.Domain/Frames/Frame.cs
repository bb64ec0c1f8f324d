using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Frames;

/// <summary>A frame: either a construct given by a few numbers or every part by name.</summary>
public sealed record Frame
{
    [Field("Name by which verbs and links refer to the frame.", IsId = true)]
    public required string Id { get; init; }

    [Field("A name for people.", Max = 120)]
    public string? Name { get; init; }

    [Field("A construct. Give this or parts.")]
    public Construct? Construct { get; init; }

    [Field("Every part by itself. Give this or construct.")]
    public Parts? Parts { get; init; }

    /// <summary>The name for people, or the id.</summary>
    public string DisplayName => Name ?? Id;
}
