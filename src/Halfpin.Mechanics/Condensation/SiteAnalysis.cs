using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Condensation;

/// <summary>A site where two bodies face each other across a gap.</summary>
/// <param name="UpperNode">Node of the face on the loaded side.</param>
/// <param name="LowerNode">Node of the face on the held side.</param>
public readonly record struct Site(int UpperNode, int LowerNode);

/// <summary>
/// A frame condensed onto its sites and its loaded end: how the end moves under end wrenches, how the faces of each site
/// move apart under end wrenches (T_end), and how they move under opposite wrenches on the two faces (K_site⁻¹).
/// </summary>
/// <remarks>
/// The system must be held at its other end in a statically determinate way. Pairs of opposite wrenches need no support,
/// so the site compliance does not depend on which end is held; its inverse is the 12×12 stiffness of the two faces
/// reduced to their relative motion. Order ux, uy, uz, rx, ry, rz; upper face less lower face, both carried by rigid arms
/// to the site point; N, mm, rad. A workspace: filled again by each <see cref="Run"/>, nothing allocated.
/// </remarks>
public sealed class SiteAnalysis
{
    private const int Six = 6;
    private readonly FrameSystem _system;
    private readonly Site[] _sites;
    private readonly int _loadedNode;

    /// <summary>An analysis of a system that has room for <see cref="ColumnsFor"/> load cases.</summary>
    /// <param name="system">The system.</param>
    /// <param name="loadedNode">Node of the loaded end.</param>
    /// <param name="sites">The sites.</param>
    /// <param name="slides">Number of member slides to follow, see <see cref="SlideResponse"/>.</param>
    public SiteAnalysis(FrameSystem system, int loadedNode, ReadOnlySpan<Site> sites, int slides = 0)
    {
        if (system.Panels * FrameSystem.ColumnsPerPanel < ColumnsFor(sites.Length, slides))
        {
            throw new ArgumentException($"{sites.Length} sites and {slides} slides need {ColumnsFor(sites.Length, slides)} load cases.", nameof(system));
        }

        _system = system;
        _loadedNode = loadedNode;
        _sites = sites.ToArray();
        EndCompliance = new(Six);
        EndToSite = [.. _sites.Select(_ => new SquareMatrix(Six))];
        SiteCompliance = new(Six * _sites.Length);
        SiteStiffness = new(Six * _sites.Length);
        Slides = new(system, slides, ColumnsFor(_sites.Length));
    }

    /// <summary>What slides of single members do to ends and sites.</summary>
    public SlideResponse Slides { get; }

    /// <summary>Motion of the loaded end per unit wrench there.</summary>
    public SquareMatrix EndCompliance { get; }

    /// <summary>T_end of each site: relative face motion per unit wrench at the loaded end.</summary>
    public IReadOnlyList<SquareMatrix> EndToSite { get; }

    /// <summary>Relative face motions per unit pair of opposite wrenches on the faces.</summary>
    public SquareMatrix SiteCompliance { get; }

    /// <summary>K_site, the inverse of <see cref="SiteCompliance"/>.</summary>
    public SquareMatrix SiteStiffness { get; }

    /// <summary>Load cases needed for a number of sites and of slides.</summary>
    public static int ColumnsFor(int sites, int slides = 0) => Six + (Six * sites) + slides;

    /// <summary>The load case of a unit wrench component at the loaded end.</summary>
    public static int EndColumn(int component) => component;

    /// <summary>The load case of a unit pair of opposite wrench components at a site.</summary>
    public static int SiteColumn(int site, int component) => Six + (Six * site) + component;

    /// <summary>Solves all unit cases with the system's present factor and fills the matrices.</summary>
    /// <param name="loadPointMm">Where end wrenches act and the end's motion is read.</param>
    /// <param name="sitePointsMm">Where the relative motion of each site is read.</param>
    /// <param name="leverMm">A length of the frame, for comparing forces with moments.</param>
    /// <param name="slides">The slides to follow, as many as the analysis was made for.</param>
    /// <returns>The largest imbalance of a node (see <see cref="FrameSystem.Recover"/>); infinite when K_site does not exist.</returns>
    public double Run(Vec3 loadPointMm, ReadOnlySpan<Vec3> sitePointsMm, double leverMm, ReadOnlySpan<MemberSlide> slides = default)
    {
        _system.ClearLoads();
        for (int i = 0; i < Six; i++)
        {
            Wrench unit = Unit(i);
            _system.AddLoad(EndColumn(i), _loadedNode, loadPointMm, unit);
            for (int s = 0; s < _sites.Length; s++)
            {
                _system.AddLoad(SiteColumn(s, i), _sites[s].UpperNode, sitePointsMm[s], unit);
                _system.AddLoad(SiteColumn(s, i), _sites[s].LowerNode, sitePointsMm[s], -1 * unit);
            }
        }

        Slides.AddLoads(slides);
        _system.Solve();
        double imbalance = _system.Recover(leverMm);
        for (int c = 0; c < Six; c++)
        {
            Write(EndCompliance, 0, c, MotionAt(_loadedNode, EndColumn(c), loadPointMm));
            for (int s = 0; s < _sites.Length; s++)
            {
                Write(EndToSite[s], 0, c, Relative(s, EndColumn(c), sitePointsMm[s]));
            }
        }

        for (int c = 0; c < Six * _sites.Length; c++)
        {
            for (int s = 0; s < _sites.Length; s++)
            {
                Write(SiteCompliance, Six * s, c, Relative(s, SiteColumn(0, c), sitePointsMm[s]));
            }
        }

        for (int k = 0; k < slides.Length; k++)
        {
            Slides.WriteMotion(k, 0, MotionAt(_loadedNode, Slides.Column(k), loadPointMm));
            for (int s = 0; s < _sites.Length; s++)
            {
                Slides.WriteMotion(k, s + 1, Relative(s, Slides.Column(k), sitePointsMm[s]));
            }
        }

        Slides.ReadStiffness();
        return SiteCompliance.TryInvertInto(SiteStiffness) ? imbalance : double.PositiveInfinity;
    }

    private Motion Relative(int site, int column, Vec3 at) =>
        MotionAt(_sites[site].UpperNode, column, at) - MotionAt(_sites[site].LowerNode, column, at);

    private Motion MotionAt(int node, int column, Vec3 at) => _system.MotionOf(node, column).At(at - _system.Node(node));

    private static Wrench Unit(int i) => new(
        new(i == 0 ? 1 : 0, i == 1 ? 1 : 0, i == 2 ? 1 : 0),
        new(i == 3 ? 1 : 0, i == 4 ? 1 : 0, i == 5 ? 1 : 0));

    private static void Write(SquareMatrix to, int row, int column, in Motion m)
    {
        to[row, column] = m.TranslationMm.X;
        to[row + 1, column] = m.TranslationMm.Y;
        to[row + 2, column] = m.TranslationMm.Z;
        to[row + 3, column] = m.RotationRad.X;
        to[row + 4, column] = m.RotationRad.Y;
        to[row + 5, column] = m.RotationRad.Z;
    }
}
