using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Tests.Frames;

/// <summary>A beam of a test frame.</summary>
public sealed record TestBeam(int A, int B, ElasticModuli Moduli, Section Section, BeamTheory Theory, Vec3 Towards2);

/// <summary>A spring of a test frame, acting at any point, between two nodes or a node and the ground (−1).</summary>
public sealed record TestSpring(int A, int B, Vec3 At, Mat3 Axes, Vec3 Translation, Vec3 Rotation);

/// <summary>A load of a test frame, on load case 0.</summary>
public sealed record TestLoad(int Node, Vec3 Force, Vec3 Moment);

/// <summary>A frame as a value, so that relations between changed copies can be tried.</summary>
public sealed record TestFrame(
    IReadOnlyList<Vec3> Nodes, IReadOnlyList<TestBeam> Beams, IReadOnlyList<TestSpring> Springs, IReadOnlyList<Support> Supports, IReadOnlyList<TestLoad> Loads)
{
    /// <summary>Motions of all nodes.</summary>
    public IReadOnlyList<Motion> Solve() => Solve(out _);

    /// <summary>Motions of all nodes, and the solved system.</summary>
    public IReadOnlyList<Motion> Solve(out FrameSystem system)
    {
        system = System();
        if (!system.Factorise().IsStable)
        {
            throw new InvalidOperationException("The test frame is not held.");
        }

        foreach (TestLoad l in Loads)
        {
            system.AddLoad(0, l.Node, Nodes[l.Node], new(l.Force, l.Moment));
        }

        system.Solve();
        FrameSystem solved = system;
        return [.. Enumerable.Range(0, Nodes.Count).Select(n => solved.MotionOf(n, 0))];
    }

    /// <summary>The frame's system, filled but not factorised.</summary>
    public FrameSystem System(int columns = 1)
    {
        FrameSystem system = new(
            new(Nodes.Count, Beams.Select(b => new MemberEnds(b.A, b.B)).Concat(Springs.Select(s => new MemberEnds(s.A, s.B))), Supports), columns);
        for (int n = 0; n < Nodes.Count; n++)
        {
            system.SetNode(n, Nodes[n]);
        }

        int m = 0;
        foreach (TestBeam b in Beams)
        {
            system.SetMember(m++, Beam.Stiffness(Nodes[b.A], Nodes[b.B], b.Moduli, b.Section, b.Theory, b.Towards2));
        }

        foreach (TestSpring s in Springs)
        {
            system.SetMember(m++, Spring.Stiffness(s.At, s.Axes, s.Translation, s.Rotation));
        }

        return system;
    }

    /// <summary>Work of the loads on the frame's motion.</summary>
    public double Work()
    {
        IReadOnlyList<Motion> motions = Solve();
        return Loads.Sum(l => l.Force.Dot(motions[l.Node].TranslationMm) + l.Moment.Dot(motions[l.Node].RotationRad));
    }

    /// <summary>Turned by a rotation (columns: images of the axes) and shifted.</summary>
    public TestFrame Turned(Mat3 rotation, Vec3 shift)
    {
        Mat3 r = rotation;
        Vec3 Point(Vec3 p) => (r * p) + shift;
        return new(
            [.. Nodes.Select(Point)],
            [.. Beams.Select(b => b with { Towards2 = r * b.Towards2 })],
            [.. Springs.Select(s => s with { At = Point(s.At), Axes = s.Axes * r.Transposed() })],
            Supports,
            [.. Loads.Select(l => l with { Force = r * l.Force, Moment = r * l.Moment })]);
    }

    /// <summary>
    /// Mirrored in the plane y = 0. Moments and rotations are axial vectors: they turn sign except about y. Local axis 3
    /// of a mirrored beam points the other way, which turns the sign of I23.
    /// </summary>
    public TestFrame Mirrored()
    {
        static Vec3 Polar(Vec3 v) => new(v.X, -v.Y, v.Z);
        static Vec3 Axial(Vec3 v) => new(-v.X, v.Y, -v.Z);
        return new(
            [.. Nodes.Select(Polar)],
            [.. Beams.Select(b => b with { Towards2 = Polar(b.Towards2), Section = b.Section with { I23Mm4 = -b.Section.I23Mm4 } })],
            [.. Springs.Select(s => s with { At = Polar(s.At), Axes = MirroredAxes(s.Axes) })],
            Supports,
            [.. Loads.Select(l => l with { Force = Polar(l.Force), Moment = Axial(l.Moment) })]);
    }

    /// <summary>Beams in reverse order with their ends exchanged.</summary>
    public TestFrame EndsExchanged() => this with
    {
        // Exchanging the ends turns axes 1 and 3 round, axis 2 stays: I23 turns sign.
        Beams = [.. Beams.Reverse().Select(b => b with { A = b.B, B = b.A, Section = b.Section with { I23Mm4 = -b.Section.I23Mm4 } })],
    };

    /// <summary>Nodes numbered by a permutation: node i becomes number <paramref name="to"/>[i].</summary>
    public TestFrame Renumbered(int[] to)
    {
        Vec3[] nodes = new Vec3[Nodes.Count];
        for (int i = 0; i < to.Length; i++)
        {
            nodes[to[i]] = Nodes[i];
        }

        return new(
            nodes,
            [.. Beams.Select(b => b with { A = to[b.A], B = to[b.B] })],
            [.. Springs.Select(s => s with { A = s.A < 0 ? s.A : to[s.A], B = s.B < 0 ? s.B : to[s.B] })],
            [.. Supports.Select(s => s with { Node = to[s.Node] })],
            [.. Loads.Select(l => l with { Node = to[l.Node] })]);
    }

    /// <summary>Every beam cut in two at a share of its length.</summary>
    public TestFrame Split(double share)
    {
        List<Vec3> nodes = [.. Nodes];
        List<TestBeam> beams = [];
        foreach (TestBeam b in Beams)
        {
            nodes.Add(Nodes[b.A] + (share * (Nodes[b.B] - Nodes[b.A])));
            beams.Add(b with { B = nodes.Count - 1 });
            beams.Add(b with { A = nodes.Count - 1 });
        }

        return this with { Nodes = nodes, Beams = beams };
    }

    /// <summary>All stiffness times a factor.</summary>
    public TestFrame Stiffened(double factor) => this with
    {
        Beams = [.. Beams.Select(b => b with { Moduli = new(factor * b.Moduli.YoungsModulusMPa, factor * b.Moduli.ShearModulusMPa) })],
        Springs = [.. Springs.Select(s => s with { Translation = factor * s.Translation, Rotation = factor * s.Rotation })],
    };

    /// <summary>
    /// In another unit of length, so many old ones long, with the unit of force kept: also geometric similarity when read back
    /// in old units.
    /// </summary>
    public TestFrame InLengthUnit(double mm)
    {
        double s = 1 / mm, area = s * s, second = area * area, pressure = 1 / area;
        return new(
            [.. Nodes.Select(n => s * n)],
            [.. Beams.Select(b => b with
            {
                Moduli = new(pressure * b.Moduli.YoungsModulusMPa, pressure * b.Moduli.ShearModulusMPa),
                Section = new(area * b.Section.AreaMm2, second * b.Section.I22Mm4, second * b.Section.I33Mm4, second * b.Section.I23Mm4, second * b.Section.TorsionMm4, b.Section.ShearCoefficient),
            })],
            [.. Springs.Select(p => p with { At = s * p.At, Translation = (1 / s) * p.Translation, Rotation = s * p.Rotation })],
            Supports,
            [.. Loads.Select(l => l with { Moment = s * l.Moment })]);
    }

    /// <summary>Every beam replaced by two in parallel that share its stiffness.</summary>
    public TestFrame Doubled(double share) => this with
    {
        Beams = [.. Beams.SelectMany(b => new[] { share, 1 - share }.Select(f => b with
        {
            Moduli = new(f * b.Moduli.YoungsModulusMPa, f * b.Moduli.ShearModulusMPa),
        }))],
    };

    /// <summary>With a beam from a node to a new, unloaded one.</summary>
    public TestFrame WithBranch(int node, Vec3 offset, TestBeam like) => this with
    {
        Nodes = [.. Nodes, Nodes[node] + offset],
        Beams = [.. Beams, like with { A = node, B = Nodes.Count }],
    };

    private static Mat3 MirroredAxes(in Mat3 a) => new(a.XX, -a.XY, a.XZ, a.YX, -a.YY, a.YZ, a.ZX, -a.ZY, a.ZZ);
}
