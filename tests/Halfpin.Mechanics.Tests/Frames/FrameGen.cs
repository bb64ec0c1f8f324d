using CsCheck;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;

namespace Halfpin.Mechanics.Tests.Frames;

/// <summary>
/// Random frames of 6–14 nodes: bars of 3–20 mm, 2–200 GPa, unsymmetric sections, shear-flexible or not, eccentric
/// springs, one clamped node and a spring to the ground.
/// </summary>
public static class FrameGen
{
    public static readonly Gen<Vec3> Direction = Gen.Select(Gen.Double[-1, 1], Gen.Double[-Math.PI, Math.PI]).Select((z, angle) =>
    {
        double across = Math.Sqrt(1 - (z * z));
        return new Vec3(across * Math.Cos(angle), across * Math.Sin(angle), z);
    });

    public static readonly Gen<Mat3> Rotation = Gen.Select(Direction, Gen.Double[-Math.PI, Math.PI]).Select((x, angle) =>
    {
        Vec3 n = x.AnyNormal(), y = (Math.Cos(angle) * n) + (Math.Sin(angle) * x.Cross(n));
        return Mat3.FromRows(x, y, x.Cross(y));
    });

    public static readonly Gen<Vec3> Point = Gen.Select(Gen.Double[-97, 103], Gen.Double[-61, 59], Gen.Double[-13, 11]).Select((x, y, z) => new Vec3(x, y, z));

    private static readonly Gen<Section> _section = Gen.Select(Gen.Double[3, 20], Gen.Double[0.4, 2.5], Gen.Double[-0.8, 0.8], Gen.Double[0.5, 1]).Select((d, ratio, skew, kappa) =>
    {
        double i = Math.PI / 64 * d * d * d * d;
        return new Section(Math.PI / 4 * d * d, i, ratio * i, skew * Math.Sqrt(ratio) * i, 1.7 * i, kappa);
    });

    private static readonly Gen<TestBeam> _beam =
        Gen.Select(_section, Gen.Double[2e3, 200e3], Gen.Double[0.05, 0.45], Gen.Bool, Direction).Select((s, e, g, shear, up) =>
            new TestBeam(0, 0, new(e, g * e), s, shear ? BeamTheory.Timoshenko : BeamTheory.EulerBernoulli, up));

    private static readonly Gen<TestSpring> _spring = Gen.Select(Rotation, Direction, Direction, Point).Select((axes, t, r, at) =>
        new TestSpring(0, 0, at, axes, 1e4 * Abs(t), 1e6 * Abs(r)));

    private static readonly Gen<TestLoad> _load = Gen.Select(Direction, Direction).Select((f, m) => new TestLoad(0, 83 * f, 2900 * m));

    /// <summary>A held frame.</summary>
    public static readonly Gen<TestFrame> Frame =
        from n in Gen.Int[6, 14]
        from points in Point.Array[n]
        let nodes = Stacked(points)
        from parents in Gen.Int[0, 1_000_000].Array[n]
        from extra in Gen.Select(Gen.Int[0, n - 1], Gen.Int[0, n - 1]).Array[0, 4]
        from beams in _beam.Array[n + 3]
        from springs in _spring.Array[2]
        from loaded in Gen.Int[1, n - 1].Array[2]
        from loads in _load.Array[2]
        select Build(nodes, parents, [.. extra.Where(e => e.Item1 != e.Item2)], beams, springs, loaded, loads);

    /// <summary>A permutation of a number of things.</summary>
    public static Gen<int[]> Permutation(int n) => Gen.Double[0, 1].Array[n].Select(keys => Enumerable.Range(0, n).OrderBy(i => keys[i]).ToArray());

    private static TestFrame Build(
        Vec3[] nodes, int[] parents, (int, int)[] extra, TestBeam[] beams, TestSpring[] springs, int[] loaded, TestLoad[] loads)
    {
        List<TestBeam> all = [];
        for (int i = 1; i < nodes.Length; i++)
        {
            all.Add(Upright(beams[i] with { A = parents[i] % i, B = i }, nodes));
        }

        foreach ((int a, int b) in extra)
        {
            all.Add(Upright(beams[all.Count % beams.Length] with { A = a, B = b }, nodes));
        }

        return new(
            nodes,
            all,
            [springs[0] with { A = nodes.Length - 1, B = FrameTopology.Ground }, springs[1] with { A = 1, B = nodes.Length - 2 }],
            [new(0, Freedoms.All), new(2, Freedoms.Uy | Freedoms.Rx)],
            [.. loads.Select((l, i) => l with { Node = loaded[i] })]);
    }

    // Axis 2 must not lie along the beam.
    private static TestBeam Upright(TestBeam b, Vec3[] nodes)
    {
        Vec3 along = (nodes[b.B] - nodes[b.A]).Normalised();
        return along.Cross(b.Towards2).Length > 0.1 ? b : b with { Towards2 = along.AnyNormal() };
    }

    // Nodes lie in layers 30 mm apart, so that no two come near each other.
    private static Vec3[] Stacked(Vec3[] points) => [.. points.Select((p, i) => p + new Vec3(0, 0, (30 * i) - 190))];

    private static Vec3 Abs(Vec3 v) => new(Math.Abs(v.X) + 0.01, Math.Abs(v.Y) + 0.01, Math.Abs(v.Z) + 0.01);
}
