using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;

namespace Halfpin.TestKit.CrossProgram;

/// <summary>What is compared of a frame: how the fracture's faces move apart and how the loaded end moves, in each load case of its deck.</summary>
/// <param name="Gap">By load case, the proximal face less the distal face at the middle of the gap, mm and rad in limb axes.</param>
/// <param name="Top">By load case, the proximal end.</param>
public sealed record FrameMotions(ImmutableArray<Motion> Gap, ImmutableArray<Motion> Top)
{
    /// <summary>As the product finds them.</summary>
    /// <exception cref="InvalidOperationException">The product could not analyse the frame.</exception>
    public static FrameMotions OfProduct(Case value, Parts parts)
    {
        FrameAnalyser analyser = new(BoneShape.For(value.Limb), value.Fractures[0], value.Model, new MaterialTable(value.Materials));
        AnalysisStatus status = analyser.Analyse(parts);
        return status == AnalysisStatus.Ok
            ? new(Under(analyser.Site.EndToSite[0]), Under(analyser.Site.EndCompliance))
            : throw new InvalidOperationException($"The analysis ended with {status}.");
    }

    /// <summary>As a program found them with the frame's deck.</summary>
    public static FrameMotions Of(DeckMotions motions, Fracture fracture)
    {
        Vec3 middle = new(0, 0, -fracture.LevelMm);
        return new(
            [.. FrameDecks.LoadCases.Select(c => motions.Between(c, FrameDecks.UpperFace, FrameDecks.LowerFace, middle))],
            [.. FrameDecks.LoadCases.Select(c => motions[c, FrameDecks.Top])]);
    }

    /// <summary>
    /// The largest difference over all load cases: translations as a share of the larger of the translations of gap and top in that
    /// case, rotations alike.
    /// </summary>
    public double DifferenceFrom(FrameMotions other) => Enumerable.Range(0, Gap.Length)
        .Max(c => Shares.Largest([Gap[c], Top[c]], [other.Gap[c], other.Top[c]]));

    private static ImmutableArray<Motion> Under(SquareMatrix compliance) => [.. FrameDecks.LoadCases.Select(c => Under(compliance, FrameDecks.LoadOf(c)))];

    private static Motion Under(SquareMatrix compliance, Wrench w)
    {
        double[] load = [w.ForceN.X, w.ForceN.Y, w.ForceN.Z, w.MomentNmm.X, w.MomentNmm.Y, w.MomentNmm.Z];
        double Row(int i) => Enumerable.Range(0, 6).Sum(j => compliance[i, j] * load[j]);
        return new(new(Row(0), Row(1), Row(2)), new(Row(3), Row(4), Row(5)));
    }
}
