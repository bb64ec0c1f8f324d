using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;

namespace Halfpin.TestKit.CrossProgram;

/// <summary>
/// Z88 (version 13): Euler–Bernoulli beams in space (its element 2), one load case a run. Prints eight digits of motions and six of
/// nodal forces. Rotations are right-handed, the note on freedom 5 in its manual notwithstanding.
/// </summary>
public static class Z88
{
    /// <summary>Name of the direct solver on the search path.</summary>
    public const string Program = "z88f";

    /// <summary>Name of the program that finds nodal forces from a solution.</summary>
    public const string ForceProgram = "z88e";

    /// <summary>Why a test is skipped where the program is missing.</summary>
    public const string Missing = "Z88 (z88f, Debian package z88) is not installed: nothing to compare with.";

    // The programs read a line into 256 characters: the longest line here stays well below.
    private const string NumberFormat = "G15";
    private const int BeamElement = 2;

    // Room for the skyline of a deck of some hundred nodes.
    private const int SkylineEntries = 4_000_000;

    /// <summary>Whether the programs are installed.</summary>
    public static bool IsInstalled => ExternalProgram.Find(Program) is not null && ExternalProgram.Find(ForceProgram) is not null;

    /// <summary>The motions that Z88 finds for a deck, a run for each load case.</summary>
    public static DeckMotions Solve(BeamDeck deck) => new(
        deck, deck.LoadCases.Keys.ToDictionary(c => c, c => ExternalProgram.Run([[Program, "-c"]], Files(deck, c), folder => ReadMotions(deck, folder))));

    /// <summary>The wrenches that Z88 finds at the two ends of each beam in a load case: exerted by the nodes on the beam, N and N·mm, in the deck's axes.</summary>
    public static ImmutableArray<(Wrench AtA, Wrench AtB)> SolveForces(BeamDeck deck, string loadCase) =>
        ExternalProgram.Run([[Program, "-c"], [ForceProgram]], Files(deck, loadCase), folder => ReadForces(deck, folder));

    private static Dictionary<string, string> Files(BeamDeck deck, string loadCase) => new()
    {
        ["z88.dyn"] = Limits(deck),
        ["z88i1.txt"] = Structure(deck),
        ["z88i2.txt"] = Conditions(deck, loadCase),
        ["z88i3.txt"] = "0 0 0\n",
    };

    private static string Limits(BeamDeck deck) => string.Create(CultureInfo.InvariantCulture, $"""
        DYNAMIC START
        ENGLISH
        COMMON START
        MAXGS {SkylineEntries}
        MAXKOI {20 * deck.Beams.Length}
        MAXK {deck.Nodes.Length + 1}
        MAXE {deck.Beams.Length + 1}
        MAXNFG {6 * (deck.Nodes.Length + 1)}
        MAXNEG {deck.Beams.Length + 1}
        MAXPR 10
        MAXRBD 2000
        MAXIEZ 10
        MAXGP 10
        COMMON END
        DYNAMIC END

        """);

    private static string Structure(BeamDeck deck)
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"3 {deck.Nodes.Length} {deck.Beams.Length} {6 * deck.Nodes.Length} {deck.Beams.Length} 0 1 0 0\n");
        for (int i = 0; i < deck.Nodes.Length; i++)
        {
            Vec3 at = deck.Nodes[i].AtMm;
            text.Append(CultureInfo.InvariantCulture, $"{i + 1} 6 {Number(at.X)} {Number(at.Y)} {Number(at.Z)}\n");
        }

        for (int i = 0; i < deck.Beams.Length; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"{i + 1} {BeamElement}\n{deck.NumberOf(deck.Beams[i].A)} {deck.NumberOf(deck.Beams[i].B)}\n");
        }

        for (int i = 0; i < deck.Beams.Length; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"{i + 1} {i + 1} {Section(deck, deck.Beams[i])}\n");
        }

        return text.ToString();
    }

    // E, ν, integration order, area, I about the horizontal axis and its outer fibre, I about the other axis and its outer fibre,
    // torsion constant and modulus. G is E/2 with ν = 0, so the torsion constant carries the deck's own G.
    private static string Section(BeamDeck deck, DeckBeam beam)
    {
        DeckSection s = beam.Section;
        (double aboutHorizontal, double aboutOther) = SecondMoments(deck, beam);
        double torsion = 2 * s.ShearModulusMPa * s.TorsionMm4 / s.YoungsModulusMPa;
        return $"{Number(s.YoungsModulusMPa)} 0 1 {Number(s.AreaMm2)} {Number(aboutHorizontal)} 1 {Number(aboutOther)} 1 {Number(torsion)} 1";
    }

    // Z88's local y axis lies across the beam and parallel to the global x–y plane.
    private static (double AboutHorizontal, double AboutOther) SecondMoments(BeamDeck deck, DeckBeam beam)
    {
        DeckSection s = beam.Section;
        if (s.I22Mm4 == s.I33Mm4)
        {
            return (s.I22Mm4, s.I33Mm4);
        }

        Mat3 axes = Beam.LocalAxes(deck.At(beam.A), deck.At(beam.B), beam.Towards2);
        const double Level = 1e-9;
        return (Math.Abs(axes.YZ) < Level, Math.Abs(axes.ZZ) < Level) switch
        {
            (true, false) => (s.I33Mm4, s.I22Mm4),
            (false, true) => (s.I22Mm4, s.I33Mm4),
            _ => throw new NotSupportedException($"Beam {beam.Name}: Z88 takes sections with just one principal axis level."),
        };
    }

    private static string Conditions(BeamDeck deck, string loadCase)
    {
        List<string> lines = [];
        foreach ((string node, Freedoms held) in deck.Held)
        {
            lines.AddRange(Enumerable.Range(0, 6).Where(i => ((int)held >> i & 1) != 0).Select(i => $"{deck.NumberOf(node)} {i + 1} 2 0"));
        }

        foreach (DeckLoad load in deck.LoadCases[loadCase])
        {
            double[] w = [load.Wrench.ForceN.X, load.Wrench.ForceN.Y, load.Wrench.ForceN.Z, load.Wrench.MomentNmm.X, load.Wrench.MomentNmm.Y, load.Wrench.MomentNmm.Z];
            lines.AddRange(Enumerable.Range(0, 6).Where(i => w[i] != 0).Select(i => $"{deck.NumberOf(load.Node)} {i + 1} 1 {Number(w[i])}"));
        }

        return $"{lines.Count}\n{string.Join('\n', lines)}\n";
    }

    private static ImmutableArray<Motion> ReadMotions(BeamDeck deck, string folder) =>
        [.. PrintedRows.Read(File.ReadLines(Path.Combine(folder, "z88o2.txt")), columns: 6, deck.Nodes.Length).Select(r => new Motion(r.First, r.Second))];

    // Both ends of each beam, then sums by node, which are left.
    private static ImmutableArray<(Wrench, Wrench)> ReadForces(BeamDeck deck, string folder)
    {
        IEnumerable<string> lines = File.ReadLines(Path.Combine(folder, "z88o4.txt")).TakeWhile(l => !l.Contains("nodal sums", StringComparison.Ordinal));
        Wrench[] ends = [.. PrintedRows.Read(lines, columns: 6, 2 * deck.Beams.Length).Select(r => new Wrench(r.First, r.Second))];
        return [.. Enumerable.Range(0, deck.Beams.Length).Select(i => (ends[2 * i], ends[(2 * i) + 1]))];
    }

    private static string Number(double value) => value.ToString(NumberFormat, CultureInfo.InvariantCulture);
}
