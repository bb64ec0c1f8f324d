using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.FreeMotions;
using Halfpin.Stability.Placement;

namespace Halfpin.Stability.Movement;

/// <summary>Where and when the bone ends first touch.</summary>
/// <param name="Factor">The load at which they do, as a multiple of the direction asked about.</param>
/// <param name="Point">The point of the ring.</param>
internal readonly record struct Touch(double Factor, int Point);

/// <summary>The equilibrium of the analyser's last frame with bone ends that may bear on each other.</summary>
/// <remarks>
/// <para>
/// With w on the proximal end and f on the faces the frame gives d = T_end·w + K_site⁻¹·f + Σ gᵢsᵢ, where gᵢ is the motion of the faces
/// in an intended slide and sᵢ how far it runs. The slides are held in T_end and K_site. Let K₀ be the frame's matrix with a slide free,
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
    private readonly bool _bears;
    private readonly double _friction;
    private readonly SlideFreedom[] _slides = new SlideFreedom[SiteEquilibrium.MaxSlides];
    private int _slideCount;

    /// <summary>Contact at the analyser's fracture.</summary>
    public FractureContact(FrameAnalyser analyser, BoneShape bone, Fracture fracture, ModelOptions model)
    {
        _analyser = analyser;
        _bears = fracture.Contact;
        _friction = model.ContactFriction;
        _equilibrium = new(_bears ? CorticalRing.Points : 0);
        Ring = new(bone, fracture, model.ContactLayerMm);
        Update();
    }

    /// <summary>Where the bone ends can bear.</summary>
    public CorticalRing Ring { get; }

    /// <summary>True when more slides are free at once than can be followed: no load can then be solved.</summary>
    public bool HasTooManySlides => _analyser.Freedoms.Slides.Length > SiteEquilibrium.MaxSlides;

    /// <summary>Takes over the analyser's frame after an analysis.</summary>
    public void Update()
    {
        Ring.TurnTo(NearAzimuthDeg());
        ImmutableArray<IntendedSlide> slides = _analyser.Freedoms.Slides;
        _slideCount = HasTooManySlides ? 0 : slides.Length;
        for (int s = 0; s < _slideCount; s++)
        {
            _slides[s] = new([.. slides[s].SiteMotion], 0);
        }
    }

    /// <summary>The equilibrium under a load.</summary>
    /// <param name="load">On the proximal end.</param>
    /// <param name="callus">Stiffness of callus between the faces at the middle of the gap, or null.</param>
    public SiteState Under(EndLoad load, SquareMatrix? callus = null) => Solve(load, Ring.Contacts, callus);

    /// <summary>
    /// The equilibrium with no gap at all: what a load that grows without end tends to, per unit of it, since the gap then counts for
    /// nothing and the rest is homogeneous.
    /// </summary>
    public SiteState FullyBearing(EndLoad direction) => Solve(direction, Ring.Closed, null);

    /// <summary>The equilibrium of the frame alone, however far its ends move; for a load that drives no slide.</summary>
    public SiteState OverOpenGap(EndLoad load)
    {
        FreeMotion(load, out Motion motion);
        return new(ContactStatus.Solved, load, motion, 0);
    }

    /// <summary>Where and at which multiple of a load the bone ends first touch; null when they never do.</summary>
    public Touch? FirstTouch(EndLoad direction)
    {
        if (!_bears || HasTooManySlides)
        {
            return null;
        }

        double first = double.PositiveInfinity;
        Span<double> factor = stackalloc double[CorticalRing.Points];
        bool driven = FreeMotion(direction, out Motion motion);
        for (int i = 0; i < factor.Length; i++)
        {
            double closing = -Ring.PlaneNormal.Dot(motion.At(Ring.OffsetMm(i)).TranslationMm);
            factor[i] = closing > 0 ? Ring.Contacts[i].GapMm / closing : double.PositiveInfinity;
            first = Math.Min(first, factor[i]);
        }

        if (double.IsInfinity(first))
        {
            return null;
        }

        // Of points that touch together the one that is pressed hardest as the load goes on.
        SiteState full = FullyBearing(direction);
        int point = -1;
        double most = -1;
        for (int i = 0; i < factor.Length; i++)
        {
            double force = full.IsSolved ? _equilibrium.NormalForcesN[i] : 0;
            if (factor[i] <= first * (1 + Together) && force > most)
            {
                (point, most) = (i, force);
            }
        }

        return new(driven ? 0 : first, point);
    }

    /// <summary>True when a load works on a slide, so that the frame alone does not carry it.</summary>
    public bool Drives(EndLoad load) => FreeMotion(load, out _);

    // The motion without contact: elastic, or, where the load drives a slide, the run of the slides itself.
    private bool FreeMotion(EndLoad load, out Motion motion)
    {
        motion = default;
        for (int s = 0; s < _slideCount; s++)
        {
            double drive = Drive(s, load);
            ReadOnlySpan<double> g = _slides[s].SiteMotion;
            motion += drive * new Motion(new(g[0], g[1], g[2]), new(g[3], g[4], g[5]));
        }

        if (motion != default)
        {
            return true;
        }

        Span<double> t = stackalloc double[6];
        Elastic(load, t);
        motion = new(new(t[0], t[1], t[2]), new(t[3], t[4], t[5]));
        return false;
    }

    private SiteState Solve(EndLoad load, ReadOnlySpan<ContactPoint> ring, SquareMatrix? callus)
    {
        if (HasTooManySlides)
        {
            return new(ContactStatus.NotConverged, load, default, 0);
        }

        for (int s = 0; s < _slideCount; s++)
        {
            _slides[s] = _slides[s] with { Drive = Drive(s, load) };
        }

        Span<double> t = stackalloc double[6];
        Elastic(load, t);
        _equilibrium.SetPoints(_bears ? ring : default);
        ContactStatus status = _equilibrium.Solve(_analyser.Site.SiteStiffness, t, callus, _slides.AsSpan(0, _slideCount), _friction);
        if (status != ContactStatus.Solved)
        {
            return new(status, load, default, 0);
        }

        ReadOnlySpan<double> d = _equilibrium.Motion;
        return new(status, new(load, _equilibrium.WrenchOnUpperFace()), new(new(d[0], d[1], d[2]), new(d[3], d[4], d[5])), Bearing());
    }

    private uint Bearing()
    {
        double most = 0;
        foreach (double force in _equilibrium.NormalForcesN)
        {
            most = Math.Max(most, force);
        }

        uint bearing = 0;
        for (int i = 0; i < _equilibrium.NormalForcesN.Length; i++)
        {
            bearing |= _equilibrium.NormalForcesN[i] > Grazing * most ? 1u << i : 0;
        }

        return bearing;
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
        SquareMatrix t = _analyser.Site.EndToSite[0];
        for (int r = 0; r < 6; r++)
        {
            motion[r] = 0;
            for (int c = 0; c < 6; c++)
            {
                motion[r] += t[r, c] * load[c];
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
