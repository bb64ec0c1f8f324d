using System.Collections.Immutable;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.TestKit.CrossProgram;
using Halfpin.Verification.Models;
using MathNet.Numerics.LinearAlgebra;

namespace Halfpin.Benchmarks;

/// <summary>
/// Construct A of the verification notes (18 nodes, 19 beams, four loads) as one frame system: made anew from its beams, or as a
/// variant in which only the rod's distance changes.
/// </summary>
internal sealed class ConstructA
{
    private const double SurfaceMm = 13.5;

    private readonly RawBeam[] _beams;
    private readonly Section[] _sections;
    private readonly int[] _a;
    private readonly int[] _b;
    private readonly Vec3[] _nodes;
    private readonly int[] _rodNodes;
    private readonly int[] _pinBeams;
    private readonly int _top;

    public ConstructA()
    {
        RawFrame frame = SampleFrames.ConstructA();
        ImmutableArray<string> names = [.. frame.Nodes.Keys];
        _nodes = [.. frame.Nodes.Values.Select(p => new Vec3(p[0], p[1], p[2]))];
        _beams = [.. frame.Beams];
        _sections = [.. _beams.Select(b => new Section(b.Area, b.I22, b.I33, b.I23, b.Torsion, 1))];
        _a = [.. _beams.Select(b => names.IndexOf(b.A))];
        _b = [.. _beams.Select(b => names.IndexOf(b.B))];
        _rodNodes = [.. Enumerable.Range(0, names.Length).Where(i => names[i][0] == 'r')];
        _pinBeams = [.. Enumerable.Range(0, _beams.Length).Where(i => _beams[i].Id.StartsWith("pin", StringComparison.Ordinal))];
        _top = names.IndexOf(SampleFrames.TopA);
        Topology = new(
            names.Length, _a.Zip(_b, (x, y) => new MemberEnds(x, y)), [new(names.IndexOf("b-170"), Freedoms.All)]);
        System = new(Topology, 4);
        Fill(System);
    }

    private ConstructA(ConstructA other)
    {
        (_beams, _sections, _a, _b, _rodNodes, _pinBeams, _top) = (other._beams, other._sections, other._a, other._b, other._rodNodes, other._pinBeams, other._top);
        _nodes = [.. other._nodes];
        Topology = other.Topology;
        System = other.System.ForAnotherThread();
        Fill(System);
    }

    public FrameTopology Topology { get; }

    public FrameSystem System { get; }

    public ConstructA ForAnotherThread() => new(this);

    /// <summary>Everything anew: nodes, members, assembly, factorisation, four loads, member wrenches and balance.</summary>
    public double FromBeams()
    {
        Fill(System);
        return Solve();
    }

    /// <summary>A variant: the rod at another standoff; only what changes is written again.</summary>
    public double AtStandoff(double standoffMm)
    {
        foreach (int n in _rodNodes)
        {
            _nodes[n] = _nodes[n] with { X = SurfaceMm + standoffMm };
            System.SetNode(n, _nodes[n]);
        }

        // Rod beams keep their length and direction but move: their point does too.
        foreach (int m in _pinBeams)
        {
            System.SetMember(m, Stiffness(m));
        }

        for (int m = 0; m < _beams.Length; m++)
        {
            if (_beams[m].Id.StartsWith("rod", StringComparison.Ordinal))
            {
                System.SetMember(m, System.Member(m) with { AtMm = 0.5 * (_nodes[_a[m]] + _nodes[_b[m]]) });
            }
        }

        return Solve();
    }

    /// <summary>The full matrix and right-hand sides, for a general-purpose library.</summary>
    public (Matrix<double> Stiffness, Matrix<double> Loads) Dense()
    {
        int n = Topology.NodeCount * 6;
        Matrix<double> k = Matrix<double>.Build.Dense(n, n);
        for (int m = 0; m < _beams.Length; m++)
        {
            MemberStiffness s = System.Member(m);
            double[,] six = Full(s);
            foreach ((int node, double sign) in new[] { (_a[m], -1.0), (_b[m], 1.0) })
            {
                foreach ((int other, double otherSign) in new[] { (_a[m], -1.0), (_b[m], 1.0) })
                {
                    Matrix<double> block = Arm(s.AtMm - _nodes[node]).TransposeThisAndMultiply(Matrix<double>.Build.DenseOfArray(six) * Arm(s.AtMm - _nodes[other]));
                    for (int i = 0; i < 6; i++)
                    {
                        for (int j = 0; j < 6; j++)
                        {
                            k[(6 * node) + i, (6 * other) + j] += sign * otherSign * block[i, j];
                        }
                    }
                }
            }
        }

        int[] free = [.. Enumerable.Range(0, n).Where(i => Topology.Held[i / 6] != Freedoms.All)];
        Matrix<double> f = Matrix<double>.Build.Dense(free.Length, 4);
        int at = Array.IndexOf(free, 6 * _top);
        (f[at + 2, 0], f[at + 3, 1], f[at + 4, 2], f[at + 5, 3]) = (-100, 5000, 5000, 5000);
        return (Matrix<double>.Build.Dense(free.Length, free.Length, (i, j) => k[free[i], free[j]]), f);
    }

    private void Fill(FrameSystem system)
    {
        for (int n = 0; n < _nodes.Length; n++)
        {
            system.SetNode(n, _nodes[n]);
        }

        for (int m = 0; m < _beams.Length; m++)
        {
            system.SetMember(m, Stiffness(m));
        }
    }

    private MemberStiffness Stiffness(int m) => Beam.Stiffness(
        _nodes[_a[m]], _nodes[_b[m]], new(_beams[m].E, _beams[m].G), _sections[m], BeamTheory.EulerBernoulli, Vec3.UnitY);

    private double Solve()
    {
        if (!System.Factorise().IsStable)
        {
            throw new InvalidOperationException("Construct A is held.");
        }

        System.ClearLoads();
        Vec3 top = System.Node(_top);
        System.AddLoad(0, _top, top, new(new(0, 0, -100), default));
        System.AddLoad(1, _top, top, new(default, new(5000, 0, 0)));
        System.AddLoad(2, _top, top, new(default, new(0, 5000, 0)));
        System.AddLoad(3, _top, top, new(default, new(0, 0, 5000)));
        System.Solve();
        return System.Recover(100) + System.MotionOf(_top, 0).TranslationMm.Z;
    }

    private static double[,] Full(in MemberStiffness s)
    {
        Mat3 n = s.ForcePerTranslation, q = s.ForcePerRotation, m = s.MomentPerRotation;
        return new[,]
        {
            { n.XX, n.XY, n.XZ, q.XX, q.XY, q.XZ }, { n.YX, n.YY, n.YZ, q.YX, q.YY, q.YZ }, { n.ZX, n.ZY, n.ZZ, q.ZX, q.ZY, q.ZZ },
            { q.XX, q.YX, q.ZX, m.XX, m.XY, m.XZ }, { q.XY, q.YY, q.ZY, m.YX, m.YY, m.YZ }, { q.XZ, q.YZ, q.ZZ, m.ZX, m.ZY, m.ZZ },
        };
    }

    private static Matrix<double> Arm(Vec3 r) => Matrix<double>.Build.DenseOfArray(new[,]
    {
        { 1, 0, 0, 0, r.Z, -r.Y }, { 0, 1, 0, -r.Z, 0, r.X }, { 0, 0, 1, r.Y, -r.X, 0 },
        { 0, 0, 0, 1, 0, 0 }, { 0, 0, 0, 0, 1, 0 }, { 0, 0, 0, 0, 0, 1.0 },
    });
}
