using CsCheck;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Path;
using Halfpin.Mechanics.Tests.Frames;
using Halfpin.TestKit.Paths;

namespace Halfpin.Mechanics.Tests.Path;

/// <summary>
/// Random frames of two bars of three beams each, one above the other with a site between them, joined by eccentric springs along any
/// axes some of whose components yield; held below, loaded on top.
/// </summary>
internal static class PathGen
{
    private const int Held = 0, Lower = 3, Upper = 4, Loaded = 7;

    /// <summary>Three springs, two yielding components each (some free, some nearly), eight contacts.</summary>
    public static readonly Gen<StepModel> Frame = Frames(springs: 3, yielding: [0, 4], contacts: 8);

    /// <summary>The same with a piece more, a second site and four contacts at each.</summary>
    public static readonly Gen<StepModel> TwoSites = Frames(springs: 4, yielding: [0, 4], contacts: 8, sites: 2);

    /// <summary>The first with stops to its slides: close, one way, at the start or far; every second has little or no capacity.</summary>
    public static readonly Gen<StepModel> Stopped = WithStops(Frame);

    /// <summary>The second with such stops.</summary>
    public static readonly Gen<StepModel> StoppedTwoSites = WithStops(TwoSites);

    /// <summary>The same with nothing to bear on.</summary>
    public static readonly Gen<StepModel> OpenFrame = Frames(springs: 3, yielding: [1, 3], contacts: 0);

    /// <summary>Two springs that yield in all six components, and no contact: gives way under any load that is large enough.</summary>
    public static readonly Gen<StepModel> Falling = Frames(springs: 2, yielding: [0, 1, 2, 3, 4, 5], contacts: 0).Select(m => m with
    {
        Components = [.. m.Components.Select(c => c with { Capacity = c.Capacity + (c.Kind == ComponentKind.Force ? 11 : 700) })],
    });

    // Evenly spread: the library's own doubles prefer round and tiny numbers, which make most frames degenerate alike.
    private static Gen<double> Uniform(double least, double most) => Gen.Int[0, 999_999].Select(i => least + ((most - least) * (i + 0.5) / 1e6));

    // Shares of two kinds: in a quarter each there is a stop at the start, a close one, a far one and none.
    private static Gen<StepModel> WithStops(Gen<StepModel> frames) =>
        from m in frames
        from stops in Gen.Select(Uniform(0, 1), Uniform(0, 1), Uniform(0, 1)).Array[m.Components.Count]
        select m with
        {
            Components = [.. m.Components.Select((c, i) => c.Kind == ComponentKind.Moment ? c : c with
            {
                LeastMm = -Stop(stops[i].Item1),
                MostMm = Stop(stops[i].Item2),
                Capacity = stops[i].Item3 < 0.3 ? 0 : stops[i].Item3 < 0.5 ? 0.1 * c.Capacity : c.Capacity,
            })],
        };

    private static double Stop(double share) => share < 0.25 ? 0 : share < 0.5 ? 0.4 * (share - 0.24) : share < 0.75 ? 4 * (share - 0.4) : double.PositiveInfinity;

    private static Gen<StepModel> Frames(int springs, int[] yielding, int contacts, int sites = 1) =>
        from across in Uniform(-17, 17).Array[16]
        from diameters in Uniform(7, 17).Array[6]
        from moduli in Uniform(5e3, 60e3).Array[6]
        from at in Gen.Select(Uniform(25, 60), Uniform(-60, 60), Uniform(-90, 90)).Array[springs]
        from axes in FrameGen.Rotation.Array[springs]
        from size in Uniform(0, 1).Array[6 * springs]
        from shares in Uniform(0, 1).Array[springs * yielding.Length]
        from load in Gen.Select(FrameGen.Direction, FrameGen.Direction)
        from ring in Gen.Select(Uniform(-0.5, 0.5), Uniform(-0.5, 0.5), Uniform(0, 0.4), Uniform(2e3, 3e4))
        select Build(across, diameters, moduli, at, axes, size, shares, load, ring, yielding, contacts, sites);

    private static StepModel Build(
        double[] across, double[] diameters, double[] moduli, (double X, double Y, double Z)[] at, Mat3[] axes, double[] size, double[] shares,
        (Vec3 Force, Vec3 Moment) load, (double TiltX, double TiltY, double GapMm, double StiffnessNPerMm) ring, int[] yielding, int contacts, int sites)
    {
        double[] heights = [-173, -109, -57, -7, 9, 61, 113, 167];
        Vec3[] nodes = [.. heights.Select((z, i) => new Vec3(across[2 * i], across[(2 * i) + 1], z))];
        (int A, int B)[] bars = [(0, 1), (1, 2), (2, 3), (4, 5), (5, 6), (6, 7)];
        if (sites == 2)
        {
            // The upper bar in two: each piece hangs on two springs.
            bars = [.. bars.Where(b => b != (5, 6))];
        }

        List<MemberEnds> ends = [.. bars.Select(b => new MemberEnds(b.A, b.B))];
        ends.AddRange(at.Select((_, i) => new MemberEnds(1 + (i % 3), 5 + (i % 2))));
        List<YieldingComponent> components = [];
        for (int s = 0; s < at.Length; s++)
        {
            Vec3 point = new(at[s].X, at[s].Y, at[s].Z);
            foreach (int y in yielding)
            {
                Vec3 axis = Row(axes[s], y % 3);
                components.Add(y < 3 ? YieldingComponent.Force(bars.Length + s, axis, 0) : YieldingComponent.Moment(bars.Length + s, point, axis, 0));
            }
        }

        Vec3 normal = new Vec3(ring.TiltX, ring.TiltY, 1).Normalised();
        StepModel model = new(
            nodes,
            ends,
            [
                .. bars.Select((b, i) => PathRun.Beam(nodes[b.A], nodes[b.B], moduli[i], diameters[i])),
                .. at.Select((p, s) => Mechanics.Members.Spring.Stiffness(
                    new(p.X, p.Y, p.Z), axes[s], Sizes(size, 6 * s, 150, 3000), Sizes(size, (6 * s) + 3, 1e5, 3e6))),
            ],
            [new(Held, Freedoms.All)],
            components,
            Upper,
            Lower,
            new(2, -1, 1),
            [.. Enumerable.Range(0, contacts).Select(i =>
            {
                (double s, double c) = Math.SinCos(2 * Math.PI * i / contacts);
                return new ContactPoint(new(13 * c, 12 * s, -((normal.X * 13 * c) + (normal.Y * 12 * s)) / normal.Z), normal, ring.GapMm, ring.StiffnessNPerMm, i % sites);
            })],
            Loaded,
            170 * (load.Force - new Vec3(0, 0, 0.7)),
            9000 * load.Moment,
            sites == 2 ? new(6, 5, new(3, -2, 87)) : null);
        return WithCapacities(model, shares);
    }

    // Capacities from a tenth of the elastic force under the whole load to half as much again; one in six is free, one nearly so.
    private static StepModel WithCapacities(StepModel model, double[] shares)
    {
        StepModel elastic = model with { Components = [.. model.Components.Select(c => c with { Capacity = 1e12 })], Contacts = [] };
        LoadPath path = PathRun.Follow(elastic, 1);
        double[] forces = path[path.TopPoint].ComponentForces.ToArray();
        return model with
        {
            Components = [.. model.Components.Select((c, i) => c with
            {
                Capacity = shares[i] < 0.16 ? 0 : shares[i] > 0.84 ? 1e-3 * Math.Abs(forces[i]) : (0.1 + (2 * (shares[i] - 0.16))) * Math.Abs(forces[i]),
            })],
        };
    }

    private static Vec3 Sizes(double[] size, int from, double least, double most) =>
        new(Between(size[from], least, most), Between(size[from + 1], least, most), Between(size[from + 2], least, most));

    private static double Between(double share, double least, double most) => least * Math.Pow(most / least, share);

    private static Vec3 Row(in Mat3 m, int row) => row switch
    {
        0 => new(m.XX, m.XY, m.XZ),
        1 => new(m.YX, m.YY, m.YZ),
        _ => new(m.ZX, m.ZY, m.ZZ),
    };
}
