using System.Collections.Immutable;

namespace Halfpin.Workbench.Comparing;

/// <summary>What a comparison says of bands that were worked out with the same draws for every frame.</summary>
public sealed record SharedBandsView
{
    /// <summary>True when the case has changed since in something that they depend on.</summary>
    public required bool IsStale { get; init; }

    /// <summary>True when they are of every frame that is shown, so that the comparison shows them.</summary>
    public required bool IsOfAllFrames { get; init; }

    /// <summary>What kind of band it is and what it rests on, in sentences.</summary>
    public required string Words { get; init; }

    /// <summary>Samples without a result, in a sentence for each frame that has some.</summary>
    public required ImmutableArray<string> Missing { get; init; }

    /// <summary>The frames among which one is chosen to rank the others against.</summary>
    public required ImmutableArray<(string Id, string Name)> Frames { get; init; }

    /// <summary>The frame ranked against.</summary>
    public required string Against { get; init; }

    /// <summary>Headings of the ranking: the four stiffnesses.</summary>
    public required ImmutableArray<(string Key, string Label)> Directions { get; init; }

    /// <summary>How likely each other frame is stiffer than the one ranked against.</summary>
    public required ImmutableArray<ChanceRow> Chances { get; init; }
}

/// <summary>How likely a frame is stiffer than another.</summary>
/// <param name="Id">The frame.</param>
/// <param name="Name">Its name.</param>
/// <param name="Cells">In each stiffness.</param>
public sealed record ChanceRow(string Id, string Name, ImmutableArray<ChanceCell> Cells);

/// <summary>A chance.</summary>
/// <param name="Text">The share of draws; why there is none otherwise.</param>
/// <param name="Interval">Its 95 % interval; empty without a share.</param>
/// <param name="Share">0 to 1; null without one.</param>
public sealed record ChanceCell(string Text, string Interval, double? Share);
