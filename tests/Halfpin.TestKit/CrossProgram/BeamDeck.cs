using System.Collections.Immutable;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;

namespace Halfpin.TestKit.CrossProgram;

/// <summary>A node of a deck.</summary>
/// <param name="Name">Its name within the deck.</param>
/// <param name="AtMm">Where it lies, mm.</param>
public sealed record DeckNode(string Name, Vec3 AtMm);

/// <summary>Section and material of a deck's beam: all that an Euler–Bernoulli or Timoshenko beam needs.</summary>
/// <param name="YoungsModulusMPa">E, MPa.</param>
/// <param name="ShearModulusMPa">G, MPa; independent of E.</param>
/// <param name="AreaMm2">Area, mm².</param>
/// <param name="I22Mm4">∫x₂²dA, mm⁴: governs deflection along local axis 2.</param>
/// <param name="I33Mm4">∫x₃²dA, mm⁴: governs deflection along local axis 3.</param>
/// <param name="TorsionMm4">Torsion constant J, mm⁴.</param>
public sealed record DeckSection(
    double YoungsModulusMPa, double ShearModulusMPa, double AreaMm2, double I22Mm4, double I33Mm4, double TorsionMm4)
{
    /// <summary>A solid or hollow circle.</summary>
    /// <param name="youngsModulusMPa">E, MPa.</param>
    /// <param name="shearModulusMPa">G, MPa.</param>
    /// <param name="outerDiameterMm">Outer diameter, mm.</param>
    /// <param name="innerDiameterMm">Inner diameter, mm; 0 when solid.</param>
    public static DeckSection Round(double youngsModulusMPa, double shearModulusMPa, double outerDiameterMm, double innerDiameterMm = 0)
    {
        double area = Math.PI / 4 * (Math.Pow(outerDiameterMm, 2) - Math.Pow(innerDiameterMm, 2));
        double second = Math.PI / 64 * (Math.Pow(outerDiameterMm, 4) - Math.Pow(innerDiameterMm, 4));
        return new(youngsModulusMPa, shearModulusMPa, area, second, second, 2 * second);
    }

    /// <summary>The same section of a stuff that is stiffer by a factor.</summary>
    public DeckSection Stiffer(double factor) =>
        this with { YoungsModulusMPa = factor * YoungsModulusMPa, ShearModulusMPa = factor * ShearModulusMPa };
}

/// <summary>A straight prismatic beam between two nodes.</summary>
/// <param name="Name">Its name within the deck.</param>
/// <param name="A">First node.</param>
/// <param name="B">Second node.</param>
/// <param name="Section">Section and material.</param>
/// <param name="Towards2">A direction that, with the beam, spans the plane of local axis 2; any will do for a round section.</param>
public sealed record DeckBeam(string Name, string A, string B, DeckSection Section, Vec3 Towards2);

/// <summary>A wrench on a node.</summary>
/// <param name="Node">The node.</param>
/// <param name="Wrench">Force in N and moment in N·mm on the node, right-handed, in the deck's axes.</param>
public sealed record DeckLoad(string Node, Wrench Wrench);

/// <summary>
/// A frame of straight beams as any frame program understands it: nodes, beams, held freedoms and load cases. N, mm, MPa, rad;
/// right-handed axes.
/// </summary>
public sealed record BeamDeck
{
    /// <summary>The nodes, in the order in which they are numbered from 1. Neighbours should be close in order: some programs store a skyline.</summary>
    public required ImmutableArray<DeckNode> Nodes { get; init; }

    /// <summary>The beams, numbered from 1.</summary>
    public required ImmutableArray<DeckBeam> Beams { get; init; }

    /// <summary>Held freedoms by node.</summary>
    public required ImmutableSortedDictionary<string, Freedoms> Held { get; init; }

    /// <summary>Load cases by name.</summary>
    public required ImmutableSortedDictionary<string, ImmutableArray<DeckLoad>> LoadCases { get; init; }

    /// <summary>The number of a node, from 1.</summary>
    public int NumberOf(string node)
    {
        for (int i = 0; i < Nodes.Length; i++)
        {
            if (Nodes[i].Name == node)
            {
                return i + 1;
            }
        }

        throw new ArgumentException($"The deck has no node {node}.", nameof(node));
    }

    /// <summary>Where a node lies, mm.</summary>
    public Vec3 At(string node) => Nodes[NumberOf(node) - 1].AtMm;

    /// <summary>The deck with some freedoms held at every node, besides those held already.</summary>
    public BeamDeck HoldingEverywhere(Freedoms freedoms) => this with
    {
        Held = Nodes.ToImmutableSortedDictionary(n => n.Name, n => freedoms | Held.GetValueOrDefault(n.Name)),
    };

    /// <summary>The deck with these load cases only.</summary>
    public BeamDeck WithOnly(params ReadOnlySpan<string> loadCases)
    {
        string[] kept = loadCases.ToArray();
        return this with { LoadCases = LoadCases.Where(c => kept.Contains(c.Key)).ToImmutableSortedDictionary() };
    }

    /// <summary>The deck of stuffs without lateral contraction: each shear modulus half of Young's modulus.</summary>
    public BeamDeck WithoutLateralContraction() => this with
    {
        Beams = [.. Beams.Select(b => b with { Section = b.Section with { ShearModulusMPa = b.Section.YoungsModulusMPa / 2 } })],
    };

    /// <summary>The deck with each beam cut into equal pieces no longer than a length; new nodes lie on the beam.</summary>
    /// <param name="pieceMm">Longest piece, mm.</param>
    public BeamDeck Refined(double pieceMm)
    {
        List<DeckNode> nodes = [.. Nodes];
        List<DeckBeam> beams = [];
        foreach (DeckBeam beam in Beams)
        {
            Vec3 from = At(beam.A), to = At(beam.B);
            int pieces = (int)Math.Ceiling(((to - from).Length / pieceMm) - 1e-9);
            string previous = beam.A;
            for (int i = 1; i <= pieces; i++)
            {
                string next = i == pieces ? beam.B : $"{beam.Name}:{i}";
                if (i < pieces)
                {
                    nodes.Add(new(next, from + ((double)i / pieces * (to - from))));
                }

                beams.Add(beam with { Name = $"{beam.Name}:{i}", A = previous, B = next });
                previous = next;
            }
        }

        return this with { Nodes = [.. nodes], Beams = [.. beams] };
    }
}
