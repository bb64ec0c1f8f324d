using System.Collections.Immutable;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Movement;

/// <summary>
/// The whole frame with a spring for each bearing point and a member for callus, its intended slides free: an answer that uses neither the condensation nor
/// the equilibrium of the sites, only which points bear.
/// </summary>
internal sealed class FullModel
{
    private readonly FrameAnalyser _analyser;
    private readonly FrameSystem _system;

    public FullModel(FrameAnalyser analyser, ImmutableArray<CorticalRing> rings, SiteState state, MemberStiffness? callus = null)
    {
        _analyser = analyser;
        var plan = analyser.Plan;
        (int Site, ContactPoint Point)[] bearing = [.. Enumerable.Range(0, rings.Length).SelectMany(s =>
            Enumerable.Range(0, CorticalRing.Points).Where(i => (state.BearingAt(s) >> i & 1) != 0).Select(i => (s, rings[s].Contacts[i])))];
        IEnumerable<int> between = bearing.Select(b => b.Site).Concat(callus is null ? [] : [0]);
        MemberEnds[] springs = [.. between.Select(s => new MemberEnds(plan.Sites[s].LowerNode, plan.Sites[s].UpperNode))];
        _system = new(new(plan.Nodes.Length, [.. plan.Topology.Members, .. springs], [new(plan.Stations.Length - 1, Freedoms.All)]), 1);
        analyser.Writer.Write(plan, _system, new bool[plan.Clamps.Length]);
        int member = plan.Members.Length;
        foreach ((int site, ContactPoint p) in bearing)
        {
            Vec3 across = p.Normal.AnyNormal();
            _system.SetMember(member++, Spring.Stiffness(
                analyser.SitePointsMm[site] + p.OffsetMm, Mat3.FromRows(p.Normal, across, p.Normal.Cross(across)), new(p.StiffnessNPerMm, 0, 0), default));
        }

        if (callus is MemberStiffness layer)
        {
            _system.SetMember(member, layer);
        }

        Assert.True(_system.Factorise().IsStable);

        // What the springs would press if they had no gap is taken off by a constant pair of forces.
        foreach ((int site, ContactPoint p) in bearing)
        {
            Wrench pull = new(-p.StiffnessNPerMm * p.GapMm * p.Normal, default);
            _system.AddLoad(0, plan.Sites[site].UpperNode, analyser.SitePointsMm[site] + p.OffsetMm, pull);
            _system.AddLoad(0, plan.Sites[site].LowerNode, analyser.SitePointsMm[site] + p.OffsetMm, -1 * pull);
        }

        EndLoad w = state.Load.End;
        _system.AddLoad(0, 0, _system.Node(0), new(new(w.Fx, w.Fy, w.Fz), new(w.Mx, w.My, w.Mz)));
        _system.Solve();
        Assert.True(_system.Recover(100) < 1e-5);
    }

    public Motion Faces => FacesAt(0);

    public Wrench WrenchOn(int member) => _system.WrenchOn(member, 0);

    public double LargestRotationDeg => Enumerable.Range(0, _analyser.Plan.Nodes.Length).Max(n => _system.MotionOf(n, 0).RotationRad.Length) * 180 / Math.PI;

    public Motion FacesAt(int site) => At(_analyser.Plan.Sites[site].UpperNode, site) - At(_analyser.Plan.Sites[site].LowerNode, site);

    private Motion At(int node, int site) => _system.MotionOf(node, 0).At(_analyser.SitePointsMm[site] - _system.Node(node));
}
