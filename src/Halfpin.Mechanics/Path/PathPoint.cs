using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Path;

/// <summary>A point of a load path, as a view into the path's memory: valid until the path is run again.</summary>
/// <remarks>Between two neighbouring points every quantity but the energies is linear.</remarks>
public readonly ref struct PathPoint
{
    private readonly ReadOnlySpan<double> _numbers;
    private readonly int _siteFreedoms;
    private readonly int _components;
    private readonly int _contacts;

    internal PathPoint(ReadOnlySpan<double> numbers, int siteFreedoms, int components, int contacts)
    {
        _numbers = numbers;
        _siteFreedoms = siteFreedoms;
        _components = components;
        _contacts = contacts;
    }

    /// <summary>The load in units of the wrench given.</summary>
    public double LoadFactor => _numbers[0];

    /// <summary>Work of the load up to here, N·mm.</summary>
    public double WorkNmm => _numbers[1];

    /// <summary>Elastic energy in frame and contacts, N·mm.</summary>
    public double StoredNmm => _numbers[2];

    /// <summary>Energy dissipated by yielding up to here, N·mm; never falls.</summary>
    public double DissipatedNmm => _numbers[3];

    /// <summary>Relative motion of the first site's faces, upper less lower.</summary>
    public Motion SiteMotion => SiteMotionAt(0);

    /// <summary>Motion of the loaded end at the load's point.</summary>
    public Motion EndMotion => Six.Motion(_numbers.Slice(PathRecord.EndAt, Six.Count));

    /// <summary>The wrench of the contacts on the first site's upper face.</summary>
    public Wrench ContactWrench => ContactWrenchAt(0);

    /// <summary>Plastic dislocation of each component, mm or rad.</summary>
    public ReadOnlySpan<double> Dislocations => _numbers.Slice(ComponentsAt, _components);

    /// <summary>Force of each component, N or N·mm.</summary>
    public ReadOnlySpan<double> ComponentForces => _numbers.Slice(ComponentsAt + _components, _components);

    /// <summary>Force at each contact, N; 0 where the faces are apart.</summary>
    public ReadOnlySpan<double> ContactForcesN => _numbers.Slice(ComponentsAt + (2 * _components), _contacts);

    private int ComponentsAt => PathRecord.SiteAt + (2 * _siteFreedoms);

    /// <summary>Relative motion of a site's faces, upper less lower.</summary>
    public Motion SiteMotionAt(int site) => Six.Motion(_numbers.Slice(PathRecord.SiteAt + (Six.Count * site), Six.Count));

    /// <summary>The wrench of a site's contacts on its upper face about the site point; the lower face gets the opposite.</summary>
    public Wrench ContactWrenchAt(int site)
    {
        ReadOnlySpan<double> w = _numbers.Slice(PathRecord.SiteAt + _siteFreedoms + (Six.Count * site), Six.Count);
        return new(new(w[0], w[1], w[2]), new(w[3], w[4], w[5]));
    }
}
