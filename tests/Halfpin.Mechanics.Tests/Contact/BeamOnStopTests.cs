using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Xunit;

namespace Halfpin.Mechanics.Tests.Contact;

/// <summary>
/// A cantilever whose loaded tip closes a gap to a stop: F·L³/3EI until the gap is closed, then the tip's and the stop's stiffness
/// together (beam tables of any textbook, such as Roark's Formulas for Stress and Strain). The stop is joined to the wall, so that
/// tip and stop are the two faces of one frame.
/// </summary>
public class BeamOnStopTests
{
    private const double LengthMm = 83, GapMm = 0.7, StopNPerMm = 1e5;

    private static readonly ElasticModuli _moduli = new(193_000, 74_000);
    private static readonly Section _round = Section.Round(5, 0, 1);
    private static readonly double _tipNPerMm = 3 * 193_000 * Math.PI / 64 * 625 / (LengthMm * LengthMm * LengthMm);

    [Theory]
    [InlineData(0.4)]
    [InlineData(0.999)]
    public void Tip_shortOfTheGap_movesAsACantilever(double share)
    {
        double loadN = share * _tipNPerMm * GapMm;
        SiteEquilibrium site = Under(loadN);

        Assert.Equal(-loadN / _tipNPerMm, site.Motion[2], 1e-9);
        Assert.Equal(0, site.NormalForcesN[0]);
    }

    [Theory]
    [InlineData(1.001)]
    [InlineData(7.3)]
    public void Tip_beyondTheGap_leansOnTheStop(double share)
    {
        // The load beyond F·L³/3EI = gap goes to tip and stop as springs side by side.
        double loadN = share * _tipNPerMm * GapMm, beyond = loadN - (_tipNPerMm * GapMm);
        SiteEquilibrium site = Under(loadN);

        Assert.Equal(-GapMm - (beyond / (_tipNPerMm + StopNPerMm)), site.Motion[2], 1e-9);
        Assert.Equal(beyond * StopNPerMm / (_tipNPerMm + StopNPerMm), site.NormalForcesN[0], 1e-5);
    }

    private static SiteEquilibrium Under(double loadN)
    {
        // Nodes: wall, tip and stop; the stop hangs on the wall by a member stiffer than rounding can tell from rigid.
        FrameSystem system = new(new(3, [new(0, 1), new(0, 2)], [new Support(0, Freedoms.All)]), SiteAnalysis.ColumnsFor(1));
        system.SetNode(0, default);
        system.SetNode(1, new(LengthMm, 0, 0));
        system.SetNode(2, new(LengthMm, 0, -3));
        system.SetMember(0, Beam.Stiffness(system.Node(0), system.Node(1), _moduli, _round, BeamTheory.EulerBernoulli, Vec3.UnitZ));
        system.SetMember(1, Spring.Stiffness(system.Node(2), Mat3.Identity, new(1e12, 1e12, 1e12), new(1e14, 1e14, 1e14)));
        Assert.True(system.Factorise().IsStable);
        SiteAnalysis analysis = new(system, 1, [new(1, 2)]);
        analysis.Run(system.Node(1), [system.Node(1)], LengthMm);
        double[] free = [.. Enumerable.Range(0, 6).Select(r => -loadN * analysis.EndToSite[0][r, 2])];
        SiteEquilibrium site = new(1);
        site.SetPoints([new(default, Vec3.UnitZ, GapMm, StopNPerMm)]);
        Assert.Equal(ContactStatus.Solved, site.Solve(analysis.SiteStiffness, free, null, [], 0));
        return site;
    }
}
