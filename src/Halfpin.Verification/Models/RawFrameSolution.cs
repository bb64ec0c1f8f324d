using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Verification.Models;

/// <summary>
/// A solved raw frame and the quantities read from it, by words:
/// <c>displacement NODE ux|uy|uz|rx|ry|rz|u CASE</c> (u: length of the translation); <c>relative UPPER LOWER ux|uy|uz|rx|ry|rz CASE</c>
/// (motion of the first node less that of the second); <c>reaction NODE fx|fy|fz|mx|my|mz CASE</c> (from the support on the frame);
/// <c>internal BEAM FRACTION n|v2|v3|t|m2|m3 CASE</c> (exerted at that share of the length by the part toward B on the part toward A, in
/// local axes); <c>embedded BAR DEPTH deflection|moment x|y|z CASE</c> (in the ground, at a share of the bar's length);
/// <c>touch CASE</c> (the multiple of the load from which on the frame's contact bears); <c>stepwise NODE ux|… CASE FROM TO</c> (how much a
/// node moves as the load grows from one multiple to another, with contact). Quantities joined
/// by <c> + </c> are added: loads in superposition.
/// </summary>
public sealed class RawFrameSolution
{
    private static readonly string[] _motions = ["ux", "uy", "uz", "rx", "ry", "rz"];
    private static readonly string[] _wrenches = ["fx", "fy", "fz", "mx", "my", "mz"];
    private static readonly string[] _internal = ["n", "v2", "v3", "t", "m2", "m3"];

    private readonly RawFrame _frame;
    private readonly ImmutableArray<string> _nodes;
    private readonly ImmutableArray<string> _cases;
    private readonly FrameSystem _system;

    /// <summary>Solves a frame.</summary>
    /// <exception cref="InvalidOperationException">The frame is a mechanism or out of balance.</exception>
    public RawFrameSolution(RawFrame frame)
    {
        _frame = frame;
        _nodes = [.. frame.Nodes.Keys];
        _cases = [.. frame.Loads.Select(l => l.Case).Distinct()];
        _system = Factorised(_cases.Length);
        foreach (RawLoad load in frame.Loads)
        {
            int node = NodeIndex(load.Node);
            _system.AddLoad(CaseIndex(load.Case), node, _system.Node(node), new(Vector(load.Force), Vector(load.Moment)));
        }

        _system.Solve();
        double size = Enumerable.Range(0, _nodes.Length).Max(i => (_system.Node(i) - _system.Node(0)).Length);
        Imbalance = _system.Recover(size == 0 ? 1 : size);
    }

    /// <summary>Largest nodal imbalance as a share of the load.</summary>
    public double Imbalance { get; }

    /// <summary>Reads a quantity by its words.</summary>
    public double Read(string quantity) => quantity.Split(" + ").Sum(ReadOne);

    private double ReadOne(string quantity)
    {
        string[] w = quantity.Split(' ');
        return w[0] switch
        {
            "displacement" when w[2] == "u" => MotionOf(w[1], w[3]).TranslationMm.Length,
            "displacement" => Component(MotionOf(w[1], w[3]), Index(_motions, w[2])),
            "relative" => Component(MotionOf(w[1], w[4]), Index(_motions, w[3])) - Component(MotionOf(w[2], w[4]), Index(_motions, w[3])),
            "reaction" => Component(Reaction(w[1], w[3]), Index(_wrenches, w[2])),
            "internal" => Internal(w[1], Number(w[2]), Index(_internal, w[3]), w[4]),
            "touch" => Contact(w[1]).Touch(),
            "stepwise" => Component(Contact(w[3]).Step(NodeIndex(w[1]), Number(w[4]), Number(w[5])), Index(_motions, w[2])),
            "embedded" => Embedded(w[1], Number(w[2]), w[3], "xyz".IndexOf(w[4][0], StringComparison.Ordinal), w[5]),
            _ => throw new ArgumentException($"Unknown quantity {quantity}.", nameof(quantity)),
        };
    }

    private RawContactSolution Contact(string load)
    {
        RawContact contact = _frame.Contact ?? throw new ArgumentException("The frame has no contact.");
        RawLoad only = _frame.Loads.Single(l => l.Case == load);
        return new(
            Factorised(RawContactSolution.Columns), NodeIndex(contact.Upper), NodeIndex(contact.Lower), Vector(contact.Normal), contact.Gap, contact.Stiffness,
            NodeIndex(only.Node), new(Vector(only.Force), Vector(only.Moment)));
    }

    private Motion MotionOf(string node, string load) => _system.MotionOf(NodeIndex(node), CaseIndex(load));

    // What the members exert on the node, less its own loads, comes from the support with the opposite sign.
    private Wrench Reaction(string node, string load)
    {
        int n = NodeIndex(node), column = CaseIndex(load);
        Wrench sum = default;
        for (int m = 0; m < _system.Topology.Members.Length; m++)
        {
            MemberEnds ends = _system.Topology.Members[m];
            Wrench w = _system.WrenchOn(m, column).About(_system.Node(n) - _system.Member(m).AtMm);
            sum += (ends.B == n ? 1 : ends.A == n ? -1 : 0) * w;
        }

        foreach (RawLoad l in _frame.Loads.Where(l => l.Node == node && l.Case == load))
        {
            sum += -1 * new Wrench(Vector(l.Force), Vector(l.Moment));
        }

        return sum;
    }

    private double Internal(string beam, double fraction, int component, string load)
    {
        int m = _frame.Beams.ToList().FindIndex(b => b.Id == beam);
        RawBeam b = _frame.Beams[m];
        Vec3 from = _system.Node(NodeIndex(b.A)), to = _system.Node(NodeIndex(b.B));
        Wrench w = _system.WrenchOn(m, CaseIndex(load)).About(from + (fraction * (to - from)) - _system.Member(m).AtMm);
        Mat3 axes = Beam.LocalAxes(from, to, Vector(b.Towards2));
        return Component(new Wrench(axes * w.ForceN, axes * w.MomentNmm), component);
    }

    private double Embedded(string bar, double depth, string what, int axis, string load)
    {
        int index = _frame.EmbeddedBars.ToList().FindIndex(b => b.Id == bar);
        RawEmbeddedBar b = _frame.EmbeddedBars[index];
        GroundSpan[] spans = Spans(b);
        const int Stations = 2001;
        BarStation[] profile = new BarStation[spans.Length * Stations];
        EmbeddedBar.Profile(spans, Stations, profile);
        BarStation s = profile.MinBy(p => Math.Abs(p.DepthMm - (depth * spans.Sum(x => x.LengthMm))));
        Wrench w = _system.WrenchOn(_frame.Beams.Length + _frame.Springs.Length + index, CaseIndex(load));
        Vec3 d = Vector(b.Direction).Normalised();
        Vec3 force = w.ForceN - (w.ForceN.Dot(d) * d), moment = w.MomentNmm.Cross(d);
        Vec3 value = what == "deflection"
            ? (s.DeflectionPerForceMm * force) + (s.DeflectionPerMomentMm * moment)
            : (s.MomentPerForceNmm * force) + (s.MomentPerMoment * moment);
        return axis switch { 0 => value.X, 1 => value.Y, _ => value.Z };
    }

    private FrameSystem Factorised(int columns)
    {
        FrameSystem system = new(
            new(_nodes.Length, Ends(_frame), _frame.Supports.Select(s => new Support(NodeIndex(s.Key), Held(s.Value)))), columns);
        Fill(system);
        return system.Factorise().IsStable ? system : throw new InvalidOperationException("The frame is not held.");
    }

    private void Fill(FrameSystem system)
    {
        for (int i = 0; i < _nodes.Length; i++)
        {
            system.SetNode(i, Vector(_frame.Nodes[_nodes[i]]));
        }

        int m = 0;
        foreach (RawBeam b in _frame.Beams)
        {
            system.SetMember(m++, Beam.Stiffness(
                system.Node(NodeIndex(b.A)), system.Node(NodeIndex(b.B)), new(b.E, b.G),
                new(b.Area, b.I22, b.I33, b.I23, b.Torsion, b.ShearCoefficient ?? 1),
                b.ShearCoefficient is null ? BeamTheory.EulerBernoulli : BeamTheory.Timoshenko, Vector(b.Towards2)));
        }

        foreach (RawSpring s in _frame.Springs)
        {
            system.SetMember(m++, Spring.Stiffness(system.Node(NodeIndex(s.A)), Mat3.Identity, Vector(s.Translation), Vector(s.Rotation)));
        }

        foreach (RawEmbeddedBar b in _frame.EmbeddedBars)
        {
            system.SetMember(m++, EmbeddedBar.Stiffness(
                Spans(b), system.Node(NodeIndex(b.Node)), Vector(b.Direction).Normalised()));
        }
    }

    private IEnumerable<MemberEnds> Ends(RawFrame frame) =>
        frame.Beams.Select(b => new MemberEnds(NodeIndex(b.A), NodeIndex(b.B)))
            .Concat(frame.Springs.Select(s => s.B is null ? new MemberEnds(FrameTopology.Ground, NodeIndex(s.A)) : new MemberEnds(NodeIndex(s.A), NodeIndex(s.B))))
            .Concat(frame.EmbeddedBars.Select(b => new MemberEnds(FrameTopology.Ground, NodeIndex(b.Node))));

    private static GroundSpan[] Spans(RawEmbeddedBar b) =>
        [.. b.Spans.Select(s => new GroundSpan(s.Length, s.Foundation, new(b.BendingStiffness, b.AxialStiffness, b.TorsionStiffness, b.Diameter)))];

    private static Freedoms Held(ImmutableArray<string> names) => names.Aggregate(Freedoms.None, (f, n) => f | (Freedoms)(1 << Index(_motions, n)));

    private int NodeIndex(string node) => _nodes.IndexOf(node) is int i && i >= 0 ? i : throw new ArgumentException($"No node {node}.", nameof(node));

    private int CaseIndex(string load) => _cases.IndexOf(load) is int i && i >= 0 ? i : throw new ArgumentException($"No load case {load}.", nameof(load));

    private static int Index(string[] words, string word) => Array.IndexOf(words, word) is int i && i >= 0 ? i : throw new ArgumentException($"{word} is none of {string.Join(", ", words)}.", nameof(word));

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static Vec3 Vector(ImmutableArray<double> v) => new(v[0], v[1], v[2]);

    private static double Component(in Motion m, int i) => i < 3 ? Component(m.TranslationMm, i) : Component(m.RotationRad, i - 3);

    private static double Component(in Wrench w, int i) => i < 3 ? Component(w.ForceN, i) : Component(w.MomentNmm, i - 3);

    private static double Component(Vec3 v, int i) => i switch { 0 => v.X, 1 => v.Y, _ => v.Z };
}
