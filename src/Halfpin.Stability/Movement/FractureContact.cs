using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Placement;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.FreeMotions;

namespace Halfpin.Stability.Movement;

/// <summary>The equilibrium of the analyser's last frame with bone ends that may bear on each other, at all fractures together.</summary>
/// <remarks>
/// <para>
/// With w on the proximal end and f on the faces the frame gives d = T_end·w + K_site⁻¹·f + Σ gᵢsᵢ, where gᵢ is the motion of the faces
/// in an intended slide and sᵢ how far it runs; d, f and gᵢ have six entries for each fracture. The slides are held in T_end and K_site. Let K₀ be the frame's matrix with a slide free,
/// φ its motion (K₀φ = 0) and K = K₀ + k·aaᵀ that with it held at one clamp. For loads with φᵀF = 0 the held frame's answer u = K⁻¹F has
/// 0 = φᵀKu = k(φᵀa)(aᵀu): the held clamp carries nothing, and K₀(u + sφ) = F for any s. So the sum above is exact, whichever clamp is
/// held, as long as end load and contact together do no work on the slide: gᵢᵀf = −vᵢᵀw with vᵢ the end's motion in it.
/// vᵢᵀw is the drive of <see cref="SlideFreedom"/>.
/// </para>
/// A workspace: after <see cref="Update"/> for each frame, nothing is allocated per load.
/// </remarks>
internal sealed class FractureContact
{
    // Points that touch at loads this near each other touch together.
    private const double Together = 1e-9;

    // Below this share of the greatest force a point only grazes.
    private const double Grazing = 1e-9;

    private readonly FrameAnalyser _analyser;
    private readonly SiteEquilibrium _equilibrium;
    private readonly int _fractures;

    // Where the points of each fracture begin; −1 where the ends never bear.
    private readonly int[] _firstPoint;
    private readonly ContactPoint[] _open;
    private readonly ContactPoint[] _closed;
    private readonly double[] _factor;
    private readonly BoneShape _bone;
    private readonly ImmutableArray<Fracture> _analysed;
    private readonly double _friction;
    private readonly double _layerMm;
    private readonly SlideFreedom[] _slides = new SlideFreedom[SiteEquilibrium.MaxSlides];
    private double _nearAzimuthDeg = double.NaN;
    private int _slideCount;
    private SlideFreedom[] _limited = [];
    private SlideLaw[] _laws = [];
    private SlideLaw[] _lawsAtLength = [];
    private LimitedSlides? _limitedSlides;

    /// <summary>Contact at the analyser's fractures.</summary>
    public FractureContact(FrameAnalyser analyser)
    {
        _analyser = analyser;
        ImmutableArray<Fracture> fractures = analyser.Data.Fractures;
        _fractures = fractures.Length;
        (_friction, _layerMm) = (analyser.Data.Model.ContactFriction, analyser.Data.Model.ContactLayerMm);
        (_bone, _analysed) = (analyser.Data.Bone, fractures);
        Rings = [.. fractures.Select(f => new CorticalRing(analyser.Data.Bone, f, analyser.Data.Model.ContactLayerMm))];
        int points = 0;
        _firstPoint = [.. fractures.Select(f => f.Contact ? (points += CorticalRing.Points) - CorticalRing.Points : -1)];
        _equilibrium = new(points, _fractures);
        (_open, _closed, _factor) = (new ContactPoint[points], new ContactPoint[points], new double[points]);
        Update();
    }

    /// <summary>Where the bone ends of each fracture can bear.</summary>
    public ImmutableArray<CorticalRing> Rings { get; }

    /// <summary>The first fracture's ring.</summary>
    public CorticalRing Ring => Rings[0];

    /// <summary>True when more slides are free at once than can be followed: no load can then be solved.</summary>
    public bool HasTooManySlides => _analyser.Freedoms.Slides.Length > SiteEquilibrium.MaxSlides || _analyser.LimitedClamps.Length > SiteEquilibrium.MaxStiffSlides;

    /// <summary>True when loose clamps have stops or friction: nothing but <see cref="Under"/> and the touch found by it then hold.</summary>
    public bool HasLimitedSlides => _analyser.LimitedClamps.Length > 0;

    /// <summary>True when it was made for the bone, the fractures and the contact that the analyser works with now.</summary>
    public bool FitsAnalyser => ReferenceEquals(_analyser.Data.Bone, _bone) && _analyser.Data.Fractures == _analysed
        && _analyser.Data.Model.ContactFriction == _friction && _analyser.Data.Model.ContactLayerMm == _layerMm;

    /// <summary>Takes over the analyser's frame after an analysis.</summary>
    public void Update()
    {
        if (NearAzimuthDeg() is double near && near != _nearAzimuthDeg)
        {
            TurnTo(near);
        }

        ImmutableArray<IntendedSlide> slides = _analyser.Freedoms.Slides;
        _slideCount = HasTooManySlides ? 0 : slides.Length;
        for (int s = 0; s < _slideCount; s++)
        {
            _slides[s] = new([.. slides[s].SiteMotion], 0);
        }

        int limited = HasTooManySlides ? 0 : _analyser.LimitedClamps.Length;
        if (limited != _limited.Length)
        {
            (_limited, _laws, _lawsAtLength) = (new SlideFreedom[limited], new SlideLaw[limited], new SlideLaw[limited]);
            _limitedSlides = limited > 0 ? new(_equilibrium, limited) : null;
        }

        for (int k = 0; k < limited; k++)
        {
            _limited[k] = new([.. _analyser.Site.Slides.SiteMotion(k)], 0);
            _laws[k] = SlideLimits.Of(_analyser.Data, _analyser.LimitedClamps[k]);
            _lawsAtLength[k] = SlideLimits.AtLength(_laws[k]);
        }
    }

    private void TurnTo(double nearAzimuthDeg)
    {
        _nearAzimuthDeg = nearAzimuthDeg;
        for (int f = 0; f < _fractures; f++)
        {
            Rings[f].TurnTo(nearAzimuthDeg);
            for (int i = 0; _firstPoint[f] >= 0 && i < CorticalRing.Points; i++)
            {
                _open[_firstPoint[f] + i] = Rings[f].Contacts[i] with { Site = f };
                _closed[_firstPoint[f] + i] = Rings[f].Closed[i] with { Site = f };
            }
        }
    }

    /// <summary>The equilibrium under a load.</summary>
    /// <param name="load">On the proximal end.</param>
    /// <param name="callus">Stiffness of callus between the faces at the middle of each gap, six rows a fracture, or null.</param>
    public SiteState Under(EndLoad load, SquareMatrix? callus = null) => Solve(load, _open, callus, _laws);

    /// <summary>
    /// The equilibrium with no gap at all: what a load that grows without end tends to, per unit of it, since the gaps, the stops of
    /// slides and their friction then count for nothing and the rest is homogeneous.
    /// </summary>
    public SiteState FullyBearing(EndLoad direction) => Solve(direction, _closed, null, _lawsAtLength);

    /// <summary>The equilibrium of the frame alone, however far its ends move; for a load that drives no slide.</summary>
    public SiteState OverOpenGap(EndLoad load)
    {
        Span<double> motion = stackalloc double[6 * _fractures];
        FreeMotion(load, motion);
        return new(load, Motions(motion), default);
    }

    /// <summary>Where and at which multiple of a load bone ends first touch; null when none ever do.</summary>
    public Touch? FirstTouch(EndLoad direction)
    {
        Touch? first = null;
        for (int f = 0; f < _fractures; f++)
        {
            first = FirstTouch(direction, f) is Touch touch && !(first?.Factor <= touch.Factor) ? touch : first;
        }

        return first;
    }

    /// <summary>
    /// Where and at which multiple of a load the ends of a fracture would first touch if no others did before; null when they never do.
    /// </summary>
    public Touch? FirstTouch(EndLoad direction, int fracture)
    {
        if (_firstPoint[fracture] < 0 || HasTooManySlides)
        {
            return null;
        }

        double first = double.PositiveInfinity;
        Span<double> motions = stackalloc double[6 * _fractures];
        bool driven = FreeMotion(direction, motions);
        Motion motion = Of(motions, fracture);
        CorticalRing ring = Rings[fracture];
        Span<double> factor = _factor.AsSpan(_firstPoint[fracture], CorticalRing.Points);
        for (int i = 0; i < factor.Length; i++)
        {
            double closing = -ring.PlaneNormal.Dot(motion.At(ring.OffsetMm(i)).TranslationMm);
            factor[i] = closing > 0 ? ring.Contacts[i].GapMm / closing : double.PositiveInfinity;
            first = Math.Min(first, factor[i]);
        }

        if (double.IsInfinity(first))
        {
            return null;
        }

        return new(driven ? 0 : first, fracture, HardestPressed(direction, fracture, factor, first * (1 + Together)));
    }

    /// <summary>Of points that touch together the one that is pressed hardest as the load goes on.</summary>
    /// <param name="direction">The load.</param>
    /// <param name="fracture">The fracture.</param>
    /// <param name="when">When each point of its ring touches.</param>
    /// <param name="until">Those until then touch together.</param>
    public int HardestPressed(EndLoad direction, int fracture, ReadOnlySpan<double> when, double until)
    {
        int first = -1, together = 0;
        for (int i = 0; i < when.Length; i++)
        {
            if (when[i] <= until)
            {
                first = together++ == 0 ? i : first;
            }
        }

        return together > 1 ? HardestOf(direction, fracture, when, until) : first;
    }

    private int HardestOf(EndLoad direction, int fracture, ReadOnlySpan<double> when, double until)
    {
        SiteState full = FullyBearing(direction);
        int point = -1;
        double most = -1;
        for (int i = 0; i < when.Length; i++)
        {
            double force = full.IsSolved ? _equilibrium.NormalForcesN[_firstPoint[fracture] + i] : 0;
            if (when[i] <= until && force > most)
            {
                (point, most) = (i, force);
            }
        }

        return point;
    }

    /// <summary>The point of a fracture that was pressed hardest in the last equilibrium.</summary>
    public int HardestPressed(int fracture)
    {
        int hardest = 0;
        for (int i = 1; i < CorticalRing.Points; i++)
        {
            hardest = _equilibrium.NormalForcesN[_firstPoint[fracture] + i] > _equilibrium.NormalForcesN[_firstPoint[fracture] + hardest] ? i : hardest;
        }

        return hardest;
    }

    /// <summary>True when a load works on a slide, so that the frame alone does not carry it.</summary>
    public bool Drives(EndLoad load)
    {
        Span<double> motion = stackalloc double[6 * _fractures];
        return FreeMotion(load, motion);
    }

    // The motion without contact: elastic, or, where the load drives a slide, the run of the slides itself.
    private bool FreeMotion(EndLoad load, Span<double> motion)
    {
        motion.Clear();
        for (int s = 0; s < _slideCount; s++)
        {
            double drive = Drive(s, load);
            for (int c = 0; c < motion.Length; c++)
            {
                motion[c] += drive * _slides[s].SiteMotion[c];
            }
        }

        if (motion.ContainsAnyExcept(0.0))
        {
            return true;
        }

        Elastic(load, motion);
        return false;
    }

    private SiteState Solve(EndLoad load, ReadOnlySpan<ContactPoint> points, SquareMatrix? callus, ReadOnlySpan<SlideLaw> laws)
    {
        if (HasTooManySlides)
        {
            return new(ContactStatus.NotConverged, load);
        }

        for (int s = 0; s < _slideCount; s++)
        {
            _slides[s] = _slides[s] with { Drive = Drive(s, load) };
        }

        Span<double> t = stackalloc double[6 * _fractures];
        Elastic(load, t);
        _equilibrium.SetPoints(points);
        ContactStatus status = _limitedSlides is null
            ? _equilibrium.Solve(_analyser.Site.SiteStiffness, t, callus, _slides.AsSpan(0, _slideCount), _friction)
            : SolveLimited(load, t, callus, laws);
        if (status != ContactStatus.Solved)
        {
            return new(status, load);
        }

        PerFracture<Wrench> onFaces = default;
        for (int f = 0; f < _fractures; f++)
        {
            onFaces[f] = _equilibrium.WrenchOnUpperFace(f);
        }

        PerSlide travel = default;
        for (int k = 0; k < _limited.Length; k++)
        {
            travel[k] = _limitedSlides!.TravelMm[k];
        }

        return new(new(load, onFaces, travel), Motions(_equilibrium.Motion), Bearing());
    }

    private ContactStatus SolveLimited(EndLoad load, ReadOnlySpan<double> freeMotion, SquareMatrix? callus, ReadOnlySpan<SlideLaw> laws)
    {
        SlideResponse response = _analyser.Site.Slides;
        for (int k = 0; k < _limited.Length; k++)
        {
            double drive = 0;
            for (int c = 0; c < 6; c++)
            {
                drive += response.EndMotion(k)[c] * load[c];
            }

            _limited[k] = _limited[k] with { Drive = drive };
        }

        return _limitedSlides!.Solve(
            _analyser.Site.SiteStiffness, freeMotion, callus, _slides.AsSpan(0, _slideCount), _friction, _limited, response.Stiffness, laws);
    }

    private PerFracture<uint> Bearing()
    {
        double most = 0;
        foreach (double force in _equilibrium.NormalForcesN)
        {
            most = Math.Max(most, force);
        }

        PerFracture<uint> bearing = default;
        for (int f = 0; f < _fractures; f++)
        {
            for (int i = 0; _firstPoint[f] >= 0 && i < CorticalRing.Points; i++)
            {
                bearing[f] |= _equilibrium.NormalForcesN[_firstPoint[f] + i] > Grazing * most ? 1u << i : 0;
            }
        }

        return bearing;
    }

    private PerFracture<Motion> Motions(ReadOnlySpan<double> d)
    {
        PerFracture<Motion> motions = default;
        for (int f = 0; f < _fractures; f++)
        {
            motions[f] = Of(d, f);
        }

        return motions;
    }

    private static Motion Of(ReadOnlySpan<double> d, int fracture)
    {
        ReadOnlySpan<double> six = d.Slice(6 * fracture, 6);
        return new(new(six[0], six[1], six[2]), new(six[3], six[4], six[5]));
    }

    private double Drive(int slide, EndLoad load)
    {
        double work = 0;
        for (int c = 0; c < 6; c++)
        {
            work += _analyser.Freedoms.Slides[slide].EndMotion[c] * load[c];
        }

        return work;
    }

    private void Elastic(EndLoad load, Span<double> motion)
    {
        for (int r = 0; r < motion.Length; r++)
        {
            SquareMatrix t = _analyser.Site.EndToSite[r / 6];
            motion[r] = 0;
            for (int c = 0; c < 6; c++)
            {
                motion[r] += t[r % 6, c] * load[c];
            }
        }
    }

    // The side of the rods: the mean direction of the pins.
    private double NearAzimuthDeg()
    {
        Vec3 sum = default;
        foreach (PlacedPin p in _analyser.Data.PlacedPins)
        {
            sum += p.Outward;
        }

        return Math.Atan2(sum.Y, sum.X) * 180 / Math.PI;
    }
}
