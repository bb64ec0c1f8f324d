using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Diagnosis;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Path;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Condensation;

/// <summary>A slide of one member: the end b may move along a direction against end a. The member must resist it.</summary>
/// <param name="Member">The member.</param>
/// <param name="Direction">Unit vector in the global frame.</param>
public readonly record struct MemberSlide(int Member, Vec3 Direction);

/// <summary>
/// How a frame answers unit slides of single members that are held otherwise: the motion of end and sites, and the force along each
/// slide that they take from each other.
/// </summary>
/// <remarks>
/// A member that has slid by p carries S(δ − a·p), as in <see cref="DislocationResponse"/>: force along slide i is
/// Qᵢ = hᵢ·w + Dᵢ·f − Σ Mᵢₖpₖ, with w on the end and f on the sites, and by reciprocity hᵢ and Dᵢ are the motions of end and sites per
/// unit slide. M is symmetric and positive semidefinite; what is less than 1e-11 of the members' own stiffness is a mechanism of slides
/// and is set to nothing. A workspace.
/// </remarks>
public sealed class SlideResponse
{
    private const int Six = 6;

    // As for dislocations: mechanisms leave up to 1e-12 of the members' own stiffness, frames that hold far more.
    private const double MechanismShare = 1e-11;

    private readonly FrameSystem _system;
    private readonly int _first;
    private readonly MemberSlide[] _slides;
    private readonly Wrench[] _hold;
    private readonly double[][] _motion;

    internal SlideResponse(FrameSystem system, int slides, int firstColumn)
    {
        (_system, _first) = (system, firstColumn);
        _slides = new MemberSlide[slides];
        _hold = new Wrench[slides];
        _motion = [.. Enumerable.Range(0, slides).Select(_ => new double[firstColumn])];
        Stiffness = new(slides);
    }

    /// <summary>Number of slides.</summary>
    public int Count => _slides.Length;

    /// <summary>M: force along a slide that is lost per unit of each, N/mm.</summary>
    public SquareMatrix Stiffness { get; }

    /// <summary>The load case of a slide.</summary>
    public int Column(int slide) => _first + slide;

    /// <summary>h: motion of the loaded end per mm of a slide, ux … rz.</summary>
    public ReadOnlySpan<double> EndMotion(int slide) => _motion[slide].AsSpan(0, Six);

    /// <summary>D: relative motion of the sites' faces per mm of a slide, six numbers a site.</summary>
    public ReadOnlySpan<double> SiteMotion(int slide) => _motion[slide].AsSpan(Six);

    /// <summary>Wrench on a member, from its end b at its point, per mm of a slide.</summary>
    public Wrench WrenchOn(int member, int slide)
    {
        Wrench solved = _system.WrenchOn(member, Column(slide));
        return _slides[slide].Member == member ? solved + (-1 * _hold[slide]) : solved;
    }

    internal void AddLoads(ReadOnlySpan<MemberSlide> slides)
    {
        if (slides.Length != Count)
        {
            throw new ArgumentException($"{slides.Length} slides given, {Count} expected.", nameof(slides));
        }

        slides.CopyTo(_slides);
        for (int k = 0; k < Count; k++)
        {
            MemberStiffness s = _system.Member(slides[k].Member);
            _hold[k] = Path.Six.Resistance(s, new(slides[k].Direction, default));
            MemberEnds ends = _system.Topology.Members[slides[k].Member];
            Add(k, ends.B, s.AtMm, _hold[k]);
            Add(k, ends.A, s.AtMm, -1 * _hold[k]);
        }
    }

    internal void WriteMotion(int slide, int place, in Motion motion) => Path.Six.Write(motion, _motion[slide].AsSpan(Six * place, Six));

    // M, symmetric and without the traces that rounding leaves of mechanisms.
    internal void ReadStiffness()
    {
        int n = Count;
        if (n == 0)
        {
            return;
        }

        double[,] m = new double[n, n];
        double own = 0;
        for (int i = 0; i < n; i++)
        {
            own = Math.Max(own, _hold[i].ForceN.Dot(_slides[i].Direction));
            for (int k = 0; k < n; k++)
            {
                m[i, k] -= WrenchOn(_slides[i].Member, k).ForceN.Dot(_slides[i].Direction) / 2;
                m[k, i] -= WrenchOn(_slides[i].Member, k).ForceN.Dot(_slides[i].Direction) / 2;
            }
        }

        (double[] values, double[,] vectors) = SymmetricEigen.Solve(m);
        for (int i = 0; i < n; i++)
        {
            for (int k = 0; k < n; k++)
            {
                double sum = 0;
                for (int v = 0; v < n; v++)
                {
                    sum += values[v] > MechanismShare * own ? values[v] * vectors[i, v] * vectors[k, v] : 0;
                }

                Stiffness[i, k] = sum;
            }
        }
    }

    private void Add(int slide, int node, Vec3 atMm, in Wrench wrench)
    {
        if (node != FrameTopology.Ground)
        {
            _system.AddLoad(Column(slide), node, atMm, wrench);
        }
    }
}
