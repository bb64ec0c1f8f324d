using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;

namespace Halfpin.TestKit.CrossProgram;

/// <summary>In which way a frame that lies in the x–z plane moves.</summary>
public enum PlaneMotion
{
    /// <summary>Within the plane: freedoms ux, uz, ry.</summary>
    Within,

    /// <summary>Across the plane: freedoms uy, rx, rz.</summary>
    Across,
}

/// <summary>How a solid round section is given to CalculiX's expanded beams.</summary>
public enum SolidSection
{
    /// <summary>As a circle. Four integration points make it 1.18 % short in area and 2.34 % in second moment, measured on a cantilever and whatever its size.</summary>
    Circle,

    /// <summary>As a tube with a bore of a hundredth of its diameter: exact in second moment, 1e-4 short in area.</summary>
    Bored,
}

/// <summary>CalculiX (ccx), all load cases of a deck in one run as steps. It prints seven digits.</summary>
/// <remarks>
/// Two of its elements serve. The user element U1 is a beam proper, but its stiffness is right only for deflection along its
/// local direction 1 (its term for the other direction has a wrong sign), and its shear terms are right only as the shear factor
/// grows without bound: so it serves plane frames, moving within their plane or across it, Euler–Bernoulli.
/// B32R is expanded into solid elements, and each node where beams of unlike section or direction meet becomes a knot, a rigid
/// body: it serves any frame, with shear. Knots forbid a section to narrow or widen as Poisson's ratio demands, which stiffens
/// the beams next to them; without lateral contraction they do no harm. Where a load acts, the node itself gives way locally:
/// read motions elsewhere.
/// </remarks>
public static class Calculix
{
    /// <summary>The program's name on the search path.</summary>
    public const string Program = "ccx";

    /// <summary>Why a test is skipped where the program is missing.</summary>
    public const string Missing = "CalculiX (ccx, Debian package calculix-ccx) is not installed: nothing to compare with.";

    // Makes the shear flexibility of an element vanish beside its bending flexibility; the share is about (d/l)² over this.
    private const double NoShear = 1e12;
    private const double Flat = 1e-9;
    private const double Bore = 0.01;
    private const string NumberFormat = "G15";

    /// <summary>Whether the program is installed.</summary>
    public static bool IsInstalled => ExternalProgram.Find(Program) is not null;

    /// <summary>The motions of a deck in the x–z plane by the user element U1, Euler–Bernoulli. Freedoms of the other way of moving are held at every node.</summary>
    /// <param name="deck">The deck; all nodes at y = 0, all sections alike in both directions.</param>
    /// <param name="motion">Which way it moves; the load cases must act on it that way.</param>
    public static DeckMotions SolvePlane(BeamDeck deck, PlaneMotion motion)
    {
        if (deck.Nodes.Any(n => Math.Abs(n.AtMm.Y) > Flat) || deck.Beams.Any(b => b.Section.I22Mm4 != b.Section.I33Mm4))
        {
            throw new NotSupportedException("U1 serves frames in the x–z plane whose sections bend alike in both directions.");
        }

        BeamDeck held = deck.HoldingEverywhere(
            motion == PlaneMotion.Within ? Freedoms.Uy | Freedoms.Rx | Freedoms.Rz : Freedoms.Ux | Freedoms.Uz | Freedoms.Ry);
        return new(deck, Run(held, PlaneModel(held, motion), columns: 6));
    }

    /// <summary>The motions of a deck by B32R elements of round sections. Translations only: rotations are not printed and read 0.</summary>
    /// <param name="deck">The deck; all sections round, solid or hollow, of isotropic material.</param>
    /// <param name="elementMm">Longest element, mm.</param>
    /// <param name="solids">How solid sections are put.</param>
    public static DeckMotions SolveExpanded(BeamDeck deck, double elementMm, SolidSection solids)
    {
        BeamDeck fine = deck.Refined(elementMm);
        Dictionary<string, ImmutableArray<Motion>> all = Run(fine, ExpandedModel(fine, solids), columns: 3);
        int kept = deck.Nodes.Length;
        return new(deck, all.ToDictionary(c => c.Key, c => c.Value[..kept]));
    }

    private static Dictionary<string, ImmutableArray<Motion>> Run(BeamDeck deck, string model, int columns) => ExternalProgram.Run(
        [[Program, "-i", "deck"]],
        new Dictionary<string, string> { ["deck.inp"] = model + Steps(deck) },
        folder => Read(deck, File.ReadLines(Path.Combine(folder, "deck.dat")), columns));

    private static string PlaneModel(BeamDeck deck, PlaneMotion motion)
    {
        StringBuilder text = Nodes(deck);
        text.Append("*USER ELEMENT,TYPE=U1,NODES=2,INTEGRATION POINTS=2,MAXDOF=6\n");
        for (int i = 0; i < deck.Beams.Length; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"*ELEMENT,TYPE=U1,ELSET=E{i + 1}\n{i + 1},{deck.NumberOf(deck.Beams[i].A)},{deck.NumberOf(deck.Beams[i].B)}\n");
        }

        for (int i = 0; i < deck.Beams.Length; i++)
        {
            DeckBeam beam = deck.Beams[i];
            DeckSection s = beam.Section;

            // G is E/2 with ν = 0; the second moment of the unused direction makes up the deck's own GJ = G(I1 + I2).
            double unused = (2 * s.ShearModulusMPa * s.TorsionMm4 / s.YoungsModulusMPa) - s.I22Mm4;
            Vec3 along = (deck.At(beam.B) - deck.At(beam.A)).Normalised();
            Vec3 bends = motion == PlaneMotion.Within ? Vec3.UnitY.Cross(along) : Vec3.UnitY;
            text.Append(Elastic(i, s.YoungsModulusMPa, 0));
            text.Append(CultureInfo.InvariantCulture, $"*BEAM SECTION,ELSET=E{i + 1},MATERIAL=M{i + 1},SECTION=GENERAL\n");
            text.Append(CultureInfo.InvariantCulture, $"{Number(s.AreaMm2)},{Number(s.I22Mm4)},0.,{Number(unused)},{Number(NoShear)}\n{Vector(bends)}\n");
        }

        return text.ToString();
    }

    private static string ExpandedModel(BeamDeck deck, SolidSection solids)
    {
        StringBuilder text = Nodes(deck);
        int next = deck.Nodes.Length;
        StringBuilder elements = new();
        text.Append("*NODE\n");
        for (int i = 0; i < deck.Beams.Length; i++)
        {
            DeckBeam beam = deck.Beams[i];
            next++;
            text.Append(CultureInfo.InvariantCulture, $"{next},{Vector(0.5 * (deck.At(beam.A) + deck.At(beam.B)))}\n");
            elements.Append(CultureInfo.InvariantCulture, $"*ELEMENT,TYPE=B32R,ELSET=E{i + 1}\n{i + 1},{deck.NumberOf(beam.A)},{next},{deck.NumberOf(beam.B)}\n");
        }

        text.Append(elements);
        for (int i = 0; i < deck.Beams.Length; i++)
        {
            DeckBeam beam = deck.Beams[i];
            text.Append(Elastic(i, beam.Section.YoungsModulusMPa, PoissonRatio(beam)));
            text.Append(CultureInfo.InvariantCulture, $"*BEAM SECTION,ELSET=E{i + 1},MATERIAL=M{i + 1},SECTION={Outline(beam, solids)}\n{Vector((deck.At(beam.B) - deck.At(beam.A)).AnyNormal())}\n");
        }

        return text.ToString();
    }

    private static double PoissonRatio(DeckBeam beam)
    {
        double ratio = (beam.Section.YoungsModulusMPa / (2 * beam.Section.ShearModulusMPa)) - 1;
        return ratio is > -1 and < 0.5 ? ratio : throw new NotSupportedException($"Beam {beam.Name}: expanded beams are of isotropic material, and ν = {ratio} is not.");
    }

    // From I = A(D² + d²)/16 and A = π(D² − d²)/4. Solid: the two diameters; hollow: outer radius and wall.
    private static string Outline(DeckBeam beam, SolidSection solids)
    {
        DeckSection s = beam.Section;
        const double Rounding = 1e-9;
        if (Math.Abs(s.I22Mm4 - s.I33Mm4) > Rounding * s.I22Mm4 || Math.Abs(s.TorsionMm4 - (2 * s.I22Mm4)) > Rounding * s.I22Mm4)
        {
            throw new NotSupportedException($"Beam {beam.Name}: expanded beams are round.");
        }

        double sum = 16 * s.I22Mm4 / s.AreaMm2, difference = 4 * s.AreaMm2 / Math.PI;
        double outer = Math.Sqrt((sum + difference) / 2), inner = Math.Sqrt(Math.Max(0, (sum - difference) / 2));
        bool solid = inner < 1e-6 * outer;
        if (solid && solids == SolidSection.Bored)
        {
            (inner, solid) = (Bore * outer, false);
        }

        return solid
            ? $"CIRC\n{Number(outer)},{Number(outer)}"
            : $"PIPE\n{Number(outer / 2)},{Number((outer - inner) / 2)}";
    }

    private static StringBuilder Nodes(BeamDeck deck)
    {
        StringBuilder text = new("*NODE,NSET=NALL\n");
        for (int i = 0; i < deck.Nodes.Length; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"{i + 1},{Vector(deck.Nodes[i].AtMm)}\n");
        }

        return text;
    }

    private static string Elastic(int beam, double youngsModulusMPa, double poissonRatio) =>
        string.Create(CultureInfo.InvariantCulture, $"*MATERIAL,NAME=M{beam + 1}\n*ELASTIC\n{Number(youngsModulusMPa)},{Number(poissonRatio)}\n");

    private static string Steps(BeamDeck deck)
    {
        StringBuilder text = new("*BOUNDARY\n");
        foreach ((string node, Freedoms held) in deck.Held)
        {
            foreach (int i in Enumerable.Range(0, 6).Where(i => ((int)held >> i & 1) != 0))
            {
                text.Append(CultureInfo.InvariantCulture, $"{deck.NumberOf(node)},{i + 1},{i + 1}\n");
            }
        }

        foreach (ImmutableArray<DeckLoad> loads in deck.LoadCases.Values)
        {
            text.Append("*STEP\n*STATIC\n*CLOAD,OP=NEW\n");
            foreach (DeckLoad load in loads)
            {
                double[] w = [load.Wrench.ForceN.X, load.Wrench.ForceN.Y, load.Wrench.ForceN.Z, load.Wrench.MomentNmm.X, load.Wrench.MomentNmm.Y, load.Wrench.MomentNmm.Z];
                foreach (int i in Enumerable.Range(0, 6).Where(i => w[i] != 0))
                {
                    text.Append(CultureInfo.InvariantCulture, $"{deck.NumberOf(load.Node)},{i + 1},{Number(w[i])}\n");
                }
            }

            text.Append("*NODE PRINT,NSET=NALL\nU\n*END STEP\n");
        }

        return text.ToString();
    }

    // A heading for each step, then a line for each node.
    private static Dictionary<string, ImmutableArray<Motion>> Read(BeamDeck deck, IEnumerable<string> lines, int columns)
    {
        int nodes = deck.Nodes.Length;
        Motion[] read = [.. PrintedRows.Read(lines, columns, nodes * deck.LoadCases.Count).Select(r => new Motion(r.First, r.Second))];
        return deck.LoadCases.Keys.Select((c, i) => (c, i)).ToDictionary(p => p.c, p => read.Skip(p.i * nodes).Take(nodes).ToImmutableArray());
    }

    private static string Vector(Vec3 v) => $"{Number(v.X)},{Number(v.Y)},{Number(v.Z)}";

    private static string Number(double value) => value.ToString(NumberFormat, CultureInfo.InvariantCulture);
}
