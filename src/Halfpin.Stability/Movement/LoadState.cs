using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;

namespace Halfpin.Stability.Movement;

/// <summary>Everything that loads a frame.</summary>
internal readonly struct LoadState
{
    private readonly PerFracture<Wrench> _onFaces;
    private readonly PerSlide _slides;

    /// <summary>A load with what contact and callus exert at each fracture.</summary>
    /// <param name="end">The wrench on the proximal end.</param>
    /// <param name="onFaces">
    /// The wrench on each proximal face about the middle of its gap; the distal face takes the opposite. Nil over an open gap.
    /// </param>
    /// <param name="slides">How far each limited slide has run, mm.</param>
    public LoadState(EndLoad end, in PerFracture<Wrench> onFaces, in PerSlide slides = default)
    {
        End = end;
        _onFaces = onFaces;
        _slides = slides;
    }

    /// <summary>How far a limited slide has run, mm.</summary>
    public double SlideMm(int slide) => _slides[slide];

    /// <summary>The wrench on the proximal end.</summary>
    public EndLoad End { get; }

    /// <summary>The wrench on the first fracture's proximal face.</summary>
    public Wrench OnFaces => _onFaces[0];

    /// <summary>
    /// The share of an axial load that passes through the frame at the first fracture.
    /// </summary>
    public double? FrameShare => FrameShareAt(0);

    /// <summary>A load over open gaps.</summary>
    public static implicit operator LoadState(EndLoad end) => new(end, default);

    /// <summary>Motion of a node of the analyser's last frame under this load, by superposition of its unit cases.</summary>
    public Motion MotionOf(FrameAnalyser analyser, int node)
    {
        Span<double> factors = stackalloc double[analyser.System.Panels * FrameSystem.ColumnsPerPanel];
        FactorsOf(analyser, factors);
        Motion sum = default;
        for (int column = 0; column < factors.Length; column++)
        {
            // Most loads have few components, and an open gap none.
            if (factors[column] != 0)
            {
                sum += factors[column] * analyser.System.MotionOf(node, column);
            }
        }

        return sum;
    }

    /// <summary>How much of each unit case of the analyser's last frame this load is.</summary>
    /// <param name="analyser">The analyser.</param>
    /// <param name="factors">Receives a value for each of the system's columns.</param>
    public void FactorsOf(FrameAnalyser analyser, Span<double> factors)
    {
        factors.Clear();
        for (int c = 0; c < 6; c++)
        {
            factors[SiteAnalysis.EndColumn(c)] = End[c];
            for (int s = 0; s < analyser.Plan.Sites.Length; s++)
            {
                factors[SiteAnalysis.SiteColumn(s, c)] = OnFace(s, c);
            }
        }

        for (int k = 0; k < analyser.LimitedClamps.Length; k++)
        {
            factors[analyser.Site.Slides.Column(k)] = SlideMm(k);
        }
    }

    /// <summary>A component of the wrench on the faces of a fracture, 0–5.</summary>
    public double OnFace(int fracture, int i)
    {
        Vec3 v = i < 3 ? _onFaces[fracture].ForceN : _onFaces[fracture].MomentNmm;
        return (i % 3) switch { 0 => v.X, 1 => v.Y, _ => v.Z };
    }

    /// <summary>
    /// The share of an axial load that passes through the frame at a fracture; null without axial load. A frame that pulls the bone
    /// ends together carries less than none.
    /// </summary>
    public double? FrameShareAt(int fracture) => End.Fz == 0 ? null : 1 + (_onFaces[fracture].ForceN.Z / End.Fz);
}

/// <summary>The equilibrium of a frame under a load, with whatever contact and callus there is.</summary>
internal readonly struct SiteState
{
    private readonly PerFracture<Motion> _faces;
    private readonly PerFracture<uint> _bearing;

    /// <summary>An equilibrium.</summary>
    /// <param name="load">What loads the frame.</param>
    /// <param name="faces">Proximal face less distal face at the middle of each gap.</param>
    /// <param name="bearing">Which points of each ring bear, a bit each.</param>
    public SiteState(LoadState load, in PerFracture<Motion> faces, in PerFracture<uint> bearing)
    {
        (Status, Load, _faces, _bearing) = (ContactStatus.Solved, load, faces, bearing);
    }

    /// <summary>No equilibrium.</summary>
    public SiteState(ContactStatus status, EndLoad load)
    {
        (Status, Load) = (status, load);
    }

    /// <summary>How it was found; nothing else but the load on the end may be read unless it is solved.</summary>
    public ContactStatus Status { get; }

    /// <summary>What loads the frame.</summary>
    public LoadState Load { get; }

    /// <summary>True when an equilibrium was found.</summary>
    public bool IsSolved => Status == ContactStatus.Solved;

    /// <summary>Motion of the first fracture's faces.</summary>
    public Motion Faces => _faces[0];

    /// <summary>Bearing points of the first fracture.</summary>
    public uint Bearing => _bearing[0];

    /// <summary>Proximal face less distal face at the middle of a gap.</summary>
    public Motion FacesAt(int fracture) => _faces[fracture];

    /// <summary>Which points of a fracture's ring bear, a bit each.</summary>
    public uint BearingAt(int fracture) => _bearing[fracture];
}
