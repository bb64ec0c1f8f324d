using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Path;

/// <summary>
/// How an elastic frame answers unit wrenches at its loaded end, unit pairs of opposite wrenches at its sites and a unit dislocation in
/// each yielding component: everything that a <see cref="LoadPath"/> needs, from one factor.
/// </summary>
/// <remarks>
/// A member with dislocation a·p carries S(δ − a·p), with δ the relative motion of its arms and S its stiffness. In the equations of
/// the frame the part S·a·p is a pair of opposite wrenches at the member's point; the member's own wrench is that of the solution
/// less S·a·p. So the force of component i is aᵢ·(wrench), its matrix M of forces per dislocation (with negative sign) is symmetric
/// and positive semidefinite, and by reciprocity the motion of end and site per unit dislocation is also the component's force per
/// unit wrench there. A null vector of M is a mechanism: dislocations that fit together without any stress.
/// A workspace: filled again by each <see cref="Run"/>, which leaves its columns in the system; nothing is allocated. N, mm, rad.
/// </remarks>
public sealed class DislocationResponse
{
    private const double UnitTolerance = 1e-9;

    private readonly FrameSystem _system;
    private readonly int _loadedNode;
    private readonly Site[] _sites;
    private readonly int _firstDislocation;
    private readonly YieldingComponent[] _components;
    private readonly Motion[] _dislocation;
    private readonly Wrench[] _hold;

    /// <summary>A workspace for a number of components on a system that has room for <see cref="ColumnsFor"/> load cases.</summary>
    /// <exception cref="ArgumentException">The system has too few load cases.</exception>
    public DislocationResponse(FrameSystem system, int loadedNode, ReadOnlySpan<Site> sites, int components)
    {
        if (system.Panels * FrameSystem.ColumnsPerPanel < ColumnsFor(components, sites.Length))
        {
            throw new ArgumentException($"{components} components need {ColumnsFor(components, sites.Length)} load cases.", nameof(system));
        }

        (_system, _loadedNode, _sites, _firstDislocation) = (system, loadedNode, [.. sites], ColumnsFor(0, sites.Length));
        SiteFreedoms = Six.Count * sites.Length;
        _components = new YieldingComponent[components];
        _dislocation = new Motion[components];
        _hold = new Wrench[components];
        Stiffness = new double[components * components];
        Own = new double[components];
        SiteMotion = new double[components * SiteFreedoms];
        (SiteCompliance, EndToSite, SiteToEnd) = (new double[SiteFreedoms * SiteFreedoms], new double[SiteFreedoms * Six.Count], new double[Six.Count * SiteFreedoms]);
        EndMotion = new double[components * Six.Count];
    }

    /// <summary>Number of yielding components.</summary>
    public int Components => _components.Length;

    /// <summary>Six for each site.</summary>
    internal int SiteFreedoms { get; }

    /// <summary>The components as last run.</summary>
    public ReadOnlySpan<YieldingComponent> YieldingComponents => _components;

    /// <summary>M: loss of component force per unit dislocation, row by row.</summary>
    internal double[] Stiffness { get; }

    /// <summary>Each component's own elastic stiffness in its member, the natural size of its row of M.</summary>
    internal double[] Own { get; }

    /// <summary>Relative motion of the sites per unit dislocation, six numbers a site for each component.</summary>
    internal double[] SiteMotion { get; }

    /// <summary>End motion per unit dislocation, six numbers a component.</summary>
    internal double[] EndMotion { get; }

    /// <summary>Relative site motion per unit pair of wrenches, row by row.</summary>
    internal double[] SiteCompliance { get; }

    /// <summary>Relative site motion per unit wrench at the end, row by row.</summary>
    internal double[] EndToSite { get; }

    /// <summary>End motion per unit pair of wrenches at the site, row by row.</summary>
    internal double[] SiteToEnd { get; }

    /// <summary>End motion per unit wrench there, row by row.</summary>
    internal double[] EndCompliance { get; } = new double[Six.Count * Six.Count];

    /// <summary>Load cases needed for a number of components and sites.</summary>
    public static int ColumnsFor(int components, int sites = 1) => Six.Count + (Six.Count * sites) + components;

    /// <summary>Solves all unit cases with the system's present factor.</summary>
    /// <param name="components">As many as the workspace was made for.</param>
    /// <param name="loadPointMm">Where end wrenches act and the end's motion is read.</param>
    /// <param name="sitePointsMm">Where the relative motion of each site is read and its wrenches act.</param>
    /// <param name="leverMm">A length of the frame, for comparing forces with moments.</param>
    /// <returns>
    /// The largest imbalance of a node (see <see cref="FrameSystem.Recover"/>) or, when that is more, the largest want of symmetry of
    /// M against the components' own stiffnesses: what rounding has left in the answer.
    /// </returns>
    /// <exception cref="ArgumentException">A component has no unit direction, no stiffness, a negative capacity, starts beyond a stop, or the number is another.</exception>
    public double Run(ReadOnlySpan<YieldingComponent> components, Vec3 loadPointMm, ReadOnlySpan<Vec3> sitePointsMm, double leverMm)
    {
        Take(components);
        _system.ClearLoads();
        for (int i = 0; i < Six.Count; i++)
        {
            _system.AddLoad(i, _loadedNode, loadPointMm, Six.Unit(i));
            for (int s = 0; s < _sites.Length; s++)
            {
                AddPair(SiteColumn(s, i), _sites[s].UpperNode, _sites[s].LowerNode, sitePointsMm[s], Six.Unit(i));
            }
        }

        for (int i = 0; i < components.Length; i++)
        {
            MemberEnds ends = _system.Topology.Members[components[i].Member];
            AddPair(_firstDislocation + i, ends.B, ends.A, _system.Member(components[i].Member).AtMm, _hold[i]);
        }

        _system.Solve();
        double imbalance = _system.Recover(leverMm);
        for (int c = 0; c < Six.Count; c++)
        {
            WriteColumn(EndCompliance, 0, c, Six.Count, End(c, loadPointMm));
            for (int s = 0; s < _sites.Length; s++)
            {
                int column = (Six.Count * s) + c;
                WriteColumn(EndToSite, Six.Count * s, c, Six.Count, AtSite(s, c, sitePointsMm[s]));
                WriteColumn(SiteToEnd, 0, column, SiteFreedoms, End(SiteColumn(s, c), loadPointMm));
                for (int other = 0; other < _sites.Length; other++)
                {
                    WriteColumn(SiteCompliance, Six.Count * other, column, SiteFreedoms, AtSite(other, SiteColumn(s, c), sitePointsMm[other]));
                }
            }
        }

        for (int i = 0; i < components.Length; i++)
        {
            for (int s = 0; s < _sites.Length; s++)
            {
                Six.Write(AtSite(s, _firstDislocation + i, sitePointsMm[s]), SiteMotion.AsSpan((SiteFreedoms * i) + (Six.Count * s)));
            }

            Six.Write(End(_firstDislocation + i, loadPointMm), EndMotion.AsSpan(Six.Count * i));
            for (int j = 0; j < components.Length; j++)
            {
                Stiffness[(i * components.Length) + j] = Six.Work(OwnWrench(components[i].Member, j), _dislocation[i]);
            }
        }

        return Math.Max(imbalance, Symmetrise());
    }

    /// <summary>The wrench on a member from its end b at its point P.</summary>
    /// <param name="member">The member.</param>
    /// <param name="endWrench">Wrench at the loaded end, six numbers.</param>
    /// <param name="siteWrench">Wrench on the upper face of the site, its opposite on the lower one, six numbers.</param>
    /// <param name="dislocations">One for each component, mm or rad.</param>
    internal Wrench WrenchOn(int member, ReadOnlySpan<double> endWrench, ReadOnlySpan<double> siteWrench, ReadOnlySpan<double> dislocations)
    {
        Wrench sum = default;
        for (int c = 0; c < Six.Count; c++)
        {
            sum += endWrench[c] * _system.WrenchOn(member, c);
        }

        for (int c = 0; c < siteWrench.Length; c++)
        {
            sum += siteWrench[c] * _system.WrenchOn(member, Six.Count + c);
        }

        for (int j = 0; j < dislocations.Length; j++)
        {
            sum += -dislocations[j] * OwnWrench(member, j);
        }

        return sum;
    }

    /// <summary>The motion of a node, for the same causes.</summary>
    internal Motion MotionOf(int node, ReadOnlySpan<double> endWrench, ReadOnlySpan<double> siteWrench, ReadOnlySpan<double> dislocations)
    {
        Motion sum = default;
        for (int c = 0; c < Six.Count; c++)
        {
            sum += endWrench[c] * _system.MotionOf(node, c);
        }

        for (int c = 0; c < siteWrench.Length; c++)
        {
            sum += siteWrench[c] * _system.MotionOf(node, Six.Count + c);
        }

        for (int j = 0; j < dislocations.Length; j++)
        {
            sum += dislocations[j] * _system.MotionOf(node, _firstDislocation + j);
        }

        return sum;
    }

    // What a unit dislocation of component j takes from a member's wrench.
    private Wrench OwnWrench(int member, int j)
    {
        Wrench solved = -1 * _system.WrenchOn(member, _firstDislocation + j);
        return _components[j].Member == member ? _hold[j] + solved : solved;
    }

    private void Take(ReadOnlySpan<YieldingComponent> components)
    {
        if (components.Length != _components.Length)
        {
            throw new ArgumentException($"{components.Length} components given, {_components.Length} expected.", nameof(components));
        }

        components.CopyTo(_components);
        for (int i = 0; i < components.Length; i++)
        {
            YieldingComponent c = components[i];
            if (Math.Abs(c.Direction.Length - 1) > UnitTolerance || !(c.Capacity >= 0) || !(c.LeastMm <= 0) || !(c.MostMm >= 0))
            {
                throw new ArgumentException($"Component {i} needs a unit direction, a capacity of 0 or more and its start between its stops.", nameof(components));
            }

            MemberStiffness s = _system.Member(c.Member);
            _dislocation[i] = c.DislocationAt(s.AtMm);
            _hold[i] = Six.Resistance(s, _dislocation[i]);
            Own[i] = Six.Work(_hold[i], _dislocation[i]);
            if (!(Own[i] > 0))
            {
                throw new ArgumentException($"Component {i} meets no stiffness in its member.", nameof(components));
            }
        }
    }

    private void AddPair(int column, int positiveNode, int negativeNode, Vec3 atMm, in Wrench wrench)
    {
        if (positiveNode != FrameTopology.Ground)
        {
            _system.AddLoad(column, positiveNode, atMm, wrench);
        }

        if (negativeNode != FrameTopology.Ground)
        {
            _system.AddLoad(column, negativeNode, atMm, -1 * wrench);
        }
    }

    private double Symmetrise()
    {
        int n = _components.Length;
        double worst = 0;
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < i; j++)
            {
                double a = Stiffness[(i * n) + j], b = Stiffness[(j * n) + i];
                worst = Math.Max(worst, Math.Abs(a - b) / Math.Sqrt(Own[i] * Own[j]));
                Stiffness[(i * n) + j] = Stiffness[(j * n) + i] = (a + b) / 2;
            }
        }

        for (int i = 0; i < SiteFreedoms; i++)
        {
            for (int j = 0; j < i; j++)
            {
                int lower = (i * SiteFreedoms) + j, upper = (j * SiteFreedoms) + i;
                SiteCompliance[lower] = SiteCompliance[upper] = (SiteCompliance[lower] + SiteCompliance[upper]) / 2;
            }
        }

        return worst;
    }

    private static int SiteColumn(int site, int i) => Six.Count + (Six.Count * site) + i;

    private Motion AtSite(int site, int column, Vec3 atMm) => At(_sites[site].UpperNode, column, atMm) - At(_sites[site].LowerNode, column, atMm);

    private Motion End(int column, Vec3 atMm) => At(_loadedNode, column, atMm);

    private Motion At(int node, int column, Vec3 atMm) =>
        node == FrameTopology.Ground ? default : _system.MotionOf(node, column).At(atMm - _system.Node(node));

    private static void WriteColumn(double[] matrix, int firstRow, int column, int columns, in Motion m)
    {
        Span<double> six = stackalloc double[Six.Count];
        Six.Write(m, six);
        for (int r = 0; r < Six.Count; r++)
        {
            matrix[((firstRow + r) * columns) + column] = six[r];
        }
    }
}
