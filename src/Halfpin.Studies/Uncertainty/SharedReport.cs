using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Studies.Uncertainty;

/// <summary>Several frames of a case under the same draws of the same uncertain inputs.</summary>
/// <param name="Seed">Seed of the draws.</param>
/// <param name="Samples">Draws; each frame was worked out for each.</param>
/// <param name="Frames">The frames with their bands.</param>
/// <param name="Pairs">How likely each frame is stiffer than each other one.</param>
/// <param name="Inputs">The inputs and their spreads.</param>
public sealed record SharedReport(ulong Seed, int Samples, ImmutableArray<FrameBands> Frames, ImmutableArray<FramePair> Pairs, ImmutableArray<InputSpread> Inputs)
{
    /// <summary>The bands of a frame; null when it was not studied.</summary>
    public FrameBands? Of(string frame) => Frames.FirstOrDefault(f => f.Frame == frame);
}

/// <summary>A frame's results under uncertain inputs.</summary>
/// <param name="Frame">Its id.</param>
/// <param name="Results">Each result with its band.</param>
/// <param name="Failed">Samples in which it cannot be built or holds nothing.</param>
/// <param name="Withheld">Samples that give stiffness only.</param>
public sealed record FrameBands(string Frame, ImmutableArray<UncertainResult> Results, int Failed, int Withheld);

/// <summary>Two frames under the same draws.</summary>
/// <param name="Frame">Id of one.</param>
/// <param name="Against">Id of the other.</param>
/// <param name="Stiffer">How likely the first is stiffer, in each stiffness; of several fractures each frame at the one where it is least stiff. Draws with both count.</param>
public sealed record FramePair(string Frame, string Against, ImmutableArray<StifferProbability> Stiffer);
