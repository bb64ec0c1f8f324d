using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Verification.Models;

namespace Halfpin.TestKit.CrossProgram;

/// <summary>Decks from raw frames and raw frames from decks, and the project's own solver on a deck.</summary>
public static class RawFrameDecks
{
    private static readonly ImmutableArray<string> _motions = ["ux", "uy", "uz", "rx", "ry", "rz"];

    /// <summary>The deck of a raw frame of beams in N, mm and rad.</summary>
    /// <exception cref="NotSupportedException">The frame has springs, embedded bars, product moments of area or shear deformation, which a deck does not hold.</exception>
    public static BeamDeck ToDeck(RawFrame frame)
    {
        if (!frame.Springs.IsEmpty || !frame.EmbeddedBars.IsEmpty || frame.Beams.Any(b => b.I23 != 0 || b.ShearCoefficient is not null))
        {
            throw new NotSupportedException("A deck holds Euler–Bernoulli beams with principal local axes only.");
        }

        return new()
        {
            Nodes = [.. frame.Nodes.Select(n => new DeckNode(n.Key, Vector(n.Value)))],
            Beams = [.. frame.Beams.Select(b => new DeckBeam(b.Id, b.A, b.B, new(b.E, b.G, b.Area, b.I22, b.I33, b.Torsion), Vector(b.Towards2)))],
            Held = frame.Supports.ToImmutableSortedDictionary(s => s.Key, s => s.Value.Aggregate(Freedoms.None, (f, n) => f | (Freedoms)(1 << _motions.IndexOf(n)))),
            LoadCases = frame.Loads.GroupBy(l => l.Case).ToImmutableSortedDictionary(
                g => g.Key, g => g.Select(l => new DeckLoad(l.Node, new(Vector(l.Force), Vector(l.Moment)))).ToImmutableArray()),
        };
    }

    /// <summary>The raw frame of a deck. Its nodes and beams are named by their numbers from 1, since names of a raw frame hold no blanks.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="shearCoefficient">Shear area over area of every beam; null leaves shear deformation out.</param>
    public static RawFrame ToRawFrame(BeamDeck deck, double? shearCoefficient = null) => new()
    {
        Units = "N, mm, rad",
        Nodes = deck.Nodes.ToImmutableSortedDictionary(n => Number(deck, n.Name), n => Components(n.AtMm), StringComparer.Ordinal),
        Beams = [.. deck.Beams.Select((b, i) => new RawBeam
        {
            Id = Text(i + 1),
            A = Number(deck, b.A),
            B = Number(deck, b.B),
            E = b.Section.YoungsModulusMPa,
            G = b.Section.ShearModulusMPa,
            Area = b.Section.AreaMm2,
            I22 = b.Section.I22Mm4,
            I33 = b.Section.I33Mm4,
            Torsion = b.Section.TorsionMm4,
            ShearCoefficient = shearCoefficient,
            Towards2 = Components(b.Towards2),
        })],
        Supports = deck.Held.ToImmutableSortedDictionary(h => Number(deck, h.Key), h => _motions.Where((_, i) => ((int)h.Value >> i & 1) != 0).ToImmutableArray(), StringComparer.Ordinal),
        Loads = [.. deck.LoadCases.SelectMany(c => c.Value.Select(l => new RawLoad(c.Key, Number(deck, l.Node), Components(l.Wrench.ForceN), Components(l.Wrench.MomentNmm))))],
    };

    /// <summary>The motions that the project's own solver finds for a deck.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="shearCoefficient">Shear area over area of every beam; null leaves shear deformation out.</param>
    public static DeckMotions Solve(BeamDeck deck, double? shearCoefficient = null)
    {
        RawFrameSolution solution = new(ToRawFrame(deck, shearCoefficient));
        Motion Of(int number, string loadCase)
        {
            double Read(int i) => solution.Read($"displacement {Text(number)} {_motions[i]} {loadCase}");
            return new(new(Read(0), Read(1), Read(2)), new(Read(3), Read(4), Read(5)));
        }

        return new(deck, deck.LoadCases.Keys.ToDictionary(c => c, c => deck.Nodes.Select((_, i) => Of(i + 1, c)).ToImmutableArray()));
    }

    private static string Number(BeamDeck deck, string node) => Text(deck.NumberOf(node));

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static Vec3 Vector(ImmutableArray<double> v) => new(v[0], v[1], v[2]);

    private static ImmutableArray<double> Components(Vec3 v) => [v.X, v.Y, v.Z];
}
