using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Path;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Benchmarks;

/// <summary>
/// Two tubes on four bars to one rod through four clamps, each a spring with four yielding components (slide and turn along the rod, turn
/// about the bar, turn about both); 24 contact points in the gap. Invented numbers of a usual size.
/// </summary>
internal sealed class ClampedFrame
{
    public const int Components = 16, Contacts = 24;
    private const double LeverMm = 100, TargetN = 900;

    private static readonly double[] _levelsMm = [110, 30, -30, -110];
    private readonly FrameSystem _system;
    private readonly SiteAnalysis _site;
    private readonly DislocationResponse _response;
    private readonly LoadPath _path = new(Components, Contacts);
    private readonly YieldingComponent[] _components;
    private readonly ContactPoint[] _contacts;
    private readonly Wrench _load = new(new(0, 0, -1), new(2, 3, 4));

    public ClampedFrame()
    {
        // Nodes: tube 0–3 at the bars, 4 and 5 at the ends, 6 and 7 at the gap; bar ends 8–11; rod 12–15.
        Vec3[] tube = [.. _levelsMm.Select(z => new Vec3(0, 0, z)), new(0, 0, 170), new(0, 0, -170), new(0, 0, 0.5), new(0, 0, -0.5)];
        Vec3[] nodes = [.. tube, .. _levelsMm.Select(z => new Vec3(60, 0, z)), .. _levelsMm.Select(z => new Vec3(72, 0, z))];
        Section shaft = Section.Round(27, 13, 0.5), bar = Section.Round(5, 0, 0.9), rod = Section.Round(11, 0, 0.9);
        (int A, int B, Section Section, double E)[] beams =
        [
            (4, 0, shaft, 17e3), (0, 1, shaft, 17e3), (1, 6, shaft, 17e3), (7, 2, shaft, 17e3), (2, 3, shaft, 17e3), (3, 5, shaft, 17e3),
            (0, 8, bar, 193e3), (1, 9, bar, 193e3), (2, 10, bar, 193e3), (3, 11, bar, 193e3),
            (12, 13, rod, 110e3), (13, 14, rod, 110e3), (14, 15, rod, 110e3),
        ];
        MemberEnds[] ends = [.. beams.Select(b => new MemberEnds(b.A, b.B)), .. Enumerable.Range(0, 4).Select(i => new MemberEnds(8 + i, 12 + i))];
        _system = new(new(nodes.Length, ends, [new(5, Freedoms.All)]), DislocationResponse.ColumnsFor(Components));
        for (int i = 0; i < nodes.Length; i++)
        {
            _system.SetNode(i, nodes[i]);
        }

        for (int i = 0; i < beams.Length; i++)
        {
            (int a, int b, Section section, double e) = beams[i];
            _system.SetMember(i, Beam.Stiffness(nodes[a], nodes[b], new(e, e / 2.6), section, BeamTheory.EulerBernoulli, Vec3.UnitY));
        }

        List<YieldingComponent> components = [];
        for (int c = 0; c < 4; c++)
        {
            int member = beams.Length + c;
            _system.SetMember(member, Spring.Stiffness(nodes[12 + c], Mat3.Identity, new(2e4, 2e4, 2e4), new(3e5, 3e5, 3e5)));
            components.Add(YieldingComponent.Force(member, Vec3.UnitZ, c % 2 == 0 ? 130 : 450));
            components.Add(YieldingComponent.Moment(member, nodes[12 + c], Vec3.UnitX, c % 2 == 0 ? 300 : 6100));
            components.Add(YieldingComponent.Moment(member, nodes[12 + c], Vec3.UnitY, c % 2 == 0 ? 4100 : 7300));
            components.Add(YieldingComponent.Moment(member, nodes[12 + c], Vec3.UnitZ, c % 2 == 0 ? 700 : 5900));
        }

        _components = [.. components];
        _contacts = [.. Enumerable.Range(0, Contacts).Select(i =>
        {
            (double s, double c) = Math.SinCos(2 * Math.PI * i / Contacts);
            return new ContactPoint(new(13.5 * c, 13.5 * s, 0), Vec3.UnitZ, 1, 31e3);
        })];
        _site = new(_system, 4, [new(6, 7)]);
        _response = new(_system, 4, [new(6, 7)], Components);
        Equilibrium = new(Contacts);
        Equilibrium.SetPoints(_contacts);
        Factorise();
        _site.Run(nodes[4], [default], LeverMm);
        FreeMotion = [.. Enumerable.Range(0, 6).Select(r => TargetN * ((2 * _site.EndToSite[0][r, 3]) + (3 * _site.EndToSite[0][r, 4]) + (4 * _site.EndToSite[0][r, 5]) - _site.EndToSite[0][r, 2]))];
    }

    public SiteEquilibrium Equilibrium { get; }

    public SquareMatrix SiteStiffness => _site.SiteStiffness;

    public double[] FreeMotion { get; }

    /// <summary>Events of the last path.</summary>
    public int Events => _path.Events.Length;

    /// <summary>Factor and twelve unit cases with wrenches, balance and the site's stiffness.</summary>
    public double LinearSolve()
    {
        Factorise();
        return _site.Run(_system.Node(4), [default], LeverMm);
    }

    /// <summary>Factor, all unit cases and the way up and back.</summary>
    public double Path()
    {
        Factorise();
        _response.Run(_components, _system.Node(4), [default], LeverMm);
        return _path.Run(_response, _contacts, _load, TargetN, andBack: true) == PathStatus.Complete
            ? _path.PermanentSet!.Value.TranslationMm.Z
            : throw new InvalidOperationException($"The path is {_path.Status} ({_path.Fault}) at {_path.ReachedLoadFactor}.");
    }

    private void Factorise()
    {
        if (!_system.Factorise().IsStable)
        {
            throw new InvalidOperationException("The frame holds.");
        }
    }
}
