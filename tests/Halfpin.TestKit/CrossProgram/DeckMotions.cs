using System.Collections.Immutable;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;

namespace Halfpin.TestKit.CrossProgram;

/// <summary>How the nodes of a deck move in each load case, as found by some program.</summary>
/// <param name="deck">The deck.</param>
/// <param name="motions">By load case, the motion of each node in the deck's order: mm and rad, right-handed, in the deck's axes.</param>
public sealed class DeckMotions(BeamDeck deck, IReadOnlyDictionary<string, ImmutableArray<Motion>> motions)
{
    /// <summary>The deck.</summary>
    public BeamDeck Deck { get; } = deck;

    /// <summary>Motion of a node in a load case.</summary>
    public Motion this[string loadCase, string node] => motions[loadCase][Deck.NumberOf(node) - 1];

    /// <summary>
    /// Motion of one node's rigid surroundings less that of another's, both at one point.
    /// </summary>
    /// <param name="loadCase">The load case.</param>
    /// <param name="upper">The first node.</param>
    /// <param name="lower">The node whose motion is taken off.</param>
    /// <param name="atMm">The point to which rigid arms carry both motions, mm.</param>
    public Motion Between(string loadCase, string upper, string lower, Vec3 atMm) =>
        this[loadCase, upper].At(atMm - Deck.At(upper)) - this[loadCase, lower].At(atMm - Deck.At(lower));

    /// <summary>
    /// The largest difference from another program's motions over all nodes and load cases: translations as a share of the
    /// largest translation of the load case, rotations as a share of the largest rotation.
    /// </summary>
    /// <param name="other">The other program's motions of the same deck.</param>
    public double DifferenceFrom(DeckMotions other) =>
        motions.Keys.Max(c => Shares.Largest(motions[c], other.MotionsOf(c)));

    private ImmutableArray<Motion> MotionsOf(string loadCase) => motions[loadCase];
}

/// <summary>Differences of motions as shares of the motion.</summary>
public static class Shares
{
    /// <summary>
    /// The largest difference of two lists of motions: translations as a share of the largest translation in the second list,
    /// rotations as a share of its largest rotation; infinite where only the second list has none of a kind.
    /// </summary>
    public static double Largest(IReadOnlyList<Motion> found, IReadOnlyList<Motion> wanted) => Math.Max(
        Largest(found, wanted, m => m.TranslationMm),
        Largest(found, wanted, m => m.RotationRad));

    private static double Largest(IReadOnlyList<Motion> found, IReadOnlyList<Motion> wanted, Func<Motion, Vec3> part)
    {
        double size = wanted.Max(m => part(m).Length), difference = found.Zip(wanted).Max(p => (part(p.First) - part(p.Second)).Length);
        return difference == 0 ? 0 : difference / size;
    }
}
