using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Contact;

/// <summary>
/// Equilibrium of the sites of a frame whose faces may bear on each other at given points, with elastic layers between them if
/// wanted: the relative motions d that make the frame's resistance K(d − t − Gs), the layers' and the contact forces balance, where t
/// is the motion that the loads cause without contact and G the slides that meet no resistance. With m sites d has 6m entries.
/// </summary>
/// <remarks>
/// d and s minimise ½eᵀKe + ½dᵀLd + Σ½k⟨−γ⟩² + friction − Drive·s with e = d − t − Gs and γ = gap + b·d the opening of a point. Without
/// slides the energy is strictly convex, since K is positive definite: the answer is unique, and Newton's method on the active
/// points with a line search ends at it. With slides it is unique once layer or contact restrains them; a slide that the load drives
/// runs to the next touch, one that is neither driven nor restrained stays where it is. Friction is Coulomb's law in
/// total form, for loads that grow in proportion: for given normal forces each point resists tangentially by an elastic-to-constant
/// (Huber) law, which keeps the energy convex; the normal forces are then brought up to date until they stay. That iteration has one
/// answer while it contracts (small friction); when it does not, <see cref="ContactStatus.NotConverged"/> says so.
/// A workspace: nothing is allocated after construction. Units N, mm, rad.
/// </remarks>
public sealed class SiteEquilibrium
{
    /// <summary>Most slides at once that nothing resists.</summary>
    public const int MaxSlides = 2;

    /// <summary>Most slides beside them that have a stiffness of their own.</summary>
    public const int MaxStiffSlides = 4;

    private const int Most = MaxSlides + MaxStiffSlides;
    private const int Six = 6;
    private const int MaxNewton = 60;
    private const int MaxFriction = 200;

    // Newton ends on this share of the largest product of a stiffness and a motion; rounding leaves some 1e-15 of it.
    private const double BalanceTolerance = 1e-13;

    private readonly int _order;
    private readonly PointLaws _laws;
    private readonly DescentStep _descent;
    private readonly double[] _x;
    private readonly double[] _elastic;
    private readonly double[] _trial;
    private readonly double[] _gradient;
    private readonly double[] _hessian;
    private readonly double[] _free;
    private readonly SlideFreedom[] _slide = new SlideFreedom[Most];
    private SquareMatrix _k;
    private SquareMatrix? _layer;
    private SquareMatrix? _slideStiffness;
    private int _slides;
    private double _size;

    /// <summary>A workspace.</summary>
    /// <param name="points">Number of points of all sites together.</param>
    /// <param name="sites">Number of sites.</param>
    public SiteEquilibrium(int points, int sites = 1)
    {
        Sites = sites;
        _order = Six * sites;
        _laws = new(points);
        int most = _order + Most;
        _descent = new(most);
        (_x, _trial, _gradient) = (new double[most], new double[most], new double[most]);
        (_elastic, _free) = (new double[_order], new double[_order]);
        _hessian = new double[most * most];
        _k = new(_order);
    }

    /// <summary>Number of sites.</summary>
    public int Sites { get; }

    /// <summary>Relative motion of the faces, ux … rz, site after site.</summary>
    public ReadOnlySpan<double> Motion => _x.AsSpan(0, _order);

    /// <summary>How far each slide ran, in its own unit.</summary>
    public ReadOnlySpan<double> SlideTravel => _x.AsSpan(_order, _slides);

    /// <summary>
    /// When the last solution was unrestrained with a stiffness given: how the slides run away from <see cref="SlideTravel"/>, to any scale.
    /// </summary>
    public ReadOnlySpan<double> RunAway => _descent.Step.Slice(_order, _slides);

    /// <summary>Normal force at each point, N; 0 where the faces do not touch.</summary>
    public ReadOnlySpan<double> NormalForcesN => _laws.NormalForcesN;

    /// <summary>Newton steps of the last solution.</summary>
    public int Steps { get; private set; }

    /// <summary>Sets the points.</summary>
    /// <param name="points">As many as the workspace was made for, each of one of its sites.</param>
    public void SetPoints(ReadOnlySpan<ContactPoint> points)
    {
        foreach (ContactPoint p in points)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(p.Site, nameof(points));
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(p.Site, Sites, nameof(points));
        }

        _laws.Set(points);
    }

    /// <summary>Finds the equilibrium.</summary>
    /// <param name="siteStiffness">K of all sites, symmetric positive definite.</param>
    /// <param name="freeMotion">t: the motion that the loads cause without contact, layer or slide.</param>
    /// <param name="layer">L, stiffness of elastic layers between the faces, of the order of K, or null.</param>
    /// <param name="slides">Free slides, at most <see cref="MaxSlides"/>, or with a stiffness <see cref="MaxStiffSlides"/> more.</param>
    /// <param name="friction">Coulomb coefficient; 0 for none.</param>
    /// <param name="slideStiffness">
    /// What the slides themselves take, positive semidefinite, of at least their number; null when nothing resists any of them.
    /// </param>
    public ContactStatus Solve(
        SquareMatrix siteStiffness, ReadOnlySpan<double> freeMotion, SquareMatrix? layer, ReadOnlySpan<SlideFreedom> slides, double friction, SquareMatrix? slideStiffness = null)
    {
        (_k, _layer, _slides, _slideStiffness) = (siteStiffness, layer, slides.Length, slideStiffness);
        freeMotion.CopyTo(_free);
        slides.CopyTo(_slide);
        Array.Clear(_x);
        _laws.ClearBounds();
        freeMotion.CopyTo(_x);
        Steps = 0;
        if (_slides > 0 && slideStiffness is null && !RunToTouch())
        {
            return ContactStatus.Unrestrained;
        }

        ContactStatus status = Newton();
        for (int i = 0; friction > 0 && status == ContactStatus.Solved && i < MaxFriction; i++)
        {
            if (_laws.Settled(friction))
            {
                return status;
            }

            status = Newton();
        }

        return friction > 0 && status == ContactStatus.Solved ? ContactStatus.NotConverged : status;
    }

    /// <summary>The wrench that contact and layer of a site exert on its upper face about the site point.</summary>
    public Wrench WrenchOnUpperFace(int site = 0)
    {
        Stretch(_x);
        Span<double> f = stackalloc double[Six];
        for (int r = 0; r < Six; r++)
        {
            for (int c = 0; c < _order; c++)
            {
                f[r] += _k[(Six * site) + r, c] * _elastic[c];
            }
        }

        return new(new(f[0], f[1], f[2]), new(f[3], f[4], f[5]));
    }

    /// <summary>How far apart the faces are at a point, along its normal; negative when pressed together.</summary>
    public double OpeningMm(int point) => _laws.Opening(_x, point);

    // With a load along a slide the faces first run together without resistance: start where the first point touches.
    private bool RunToTouch()
    {
        double drive = 0;
        for (int s = 0; s < _slides; s++)
        {
            drive = Math.Max(drive, Math.Abs(_slide[s].Drive));
        }

        if (drive == 0 || _layer is not null)
        {
            return true;
        }

        Span<double> along = _trial.AsSpan(0, _order);
        along.Clear();
        for (int s = 0; s < _slides; s++)
        {
            for (int c = 0; c < _order; c++)
            {
                along[c] += _slide[s].Drive / drive * _slide[s].SiteMotion[c];
            }
        }

        double travel = _laws.TravelToTouch(_x, along, onlyOpen: false);
        if (double.IsInfinity(travel))
        {
            return false;
        }

        for (int s = 0; s < _slides; s++)
        {
            _x[_order + s] = travel * _slide[s].Drive / drive;
            for (int c = 0; c < _order; c++)
            {
                _x[c] += _x[_order + s] * _slide[s].SiteMotion[c];
            }
        }

        return true;
    }

    private ContactStatus Newton()
    {
        int n = _order + _slides;
        for (int i = 0; i < MaxNewton; i++, Steps++)
        {
            if (Derivatives())
            {
                return ContactStatus.Solved;
            }

            switch (_descent.Find(_gradient.AsSpan(0, n), _hessian, _order, _size))
            {
                case Descent.Impossible:
                    return ContactStatus.NotConverged;
                case Descent.Unresisted:
                    double travel = _laws.TravelToTouch(_x, _descent.Step, onlyOpen: true);
                    if (double.IsInfinity(travel))
                    {
                        return ContactStatus.Unrestrained;
                    }

                    for (int c = 0; c < n; c++)
                    {
                        _descent.Step[c] *= travel;
                    }

                    break;
            }

            Search();
        }

        return ContactStatus.NotConverged;
    }

    // Gradient and Hessian at _x; true when the gradient vanishes against the terms it is made of.
    private bool Derivatives()
    {
        int n = _order + _slides;
        Array.Clear(_gradient);
        Array.Clear(_hessian);
        Stretch(_x);
        _size = 0;
        for (int r = 0; r < _order; r++)
        {
            double force = 0;
            for (int c = 0; c < _order; c++)
            {
                double l = _layer is null ? 0 : _layer[r, c];
                double frame = _k[r, c] * _elastic[c], layer = l * _x[c];
                force += frame;
                _gradient[r] += frame + layer;
                _size = Math.Max(_size, Lever(r) * Math.Max(Math.Abs(_k[r, c]) * (Math.Abs(_x[c]) + Math.Abs(_free[c])), Math.Abs(layer)));
                _hessian[(r * n) + c] = _k[r, c] + l;
            }

            for (int s = 0; s < _slides; s++)
            {
                _gradient[_order + s] -= _slide[s].SiteMotion[r] * force;
            }
        }

        SlideHessian(n);
        _size = Math.Max(_size, _laws.Add(_x, _gradient, _hessian, n));
        double left = 0;
        for (int s = 0; s < _slides; s++)
        {
            _gradient[_order + s] -= _slide[s].Drive;
            _size = Math.Max(_size, Math.Abs(_slide[s].Drive));
            for (int q = 0; _slideStiffness is not null && q < _slides; q++)
            {
                double force = _slideStiffness[s, q] * _x[_order + q];
                _gradient[_order + s] += force;
                _size = Math.Max(_size, Math.Abs(force));
            }

            left = Math.Max(left, Math.Abs(_gradient[_order + s]));
        }

        for (int r = 0; r < _order; r++)
        {
            left = Math.Max(left, Lever(r) * Math.Abs(_gradient[r]));
        }

        return left <= BalanceTolerance * _size || _size == 0;
    }

    private void SlideHessian(int n)
    {
        for (int s = 0; s < _slides; s++)
        {
            for (int r = 0; r < _order; r++)
            {
                double kg = 0;
                for (int c = 0; c < _order; c++)
                {
                    kg += _k[r, c] * _slide[s].SiteMotion[c];
                }

                _hessian[(r * n) + _order + s] = _hessian[((_order + s) * n) + r] = -kg;
                for (int q = 0; q < _slides; q++)
                {
                    _hessian[((_order + q) * n) + _order + s] += _slide[q].SiteMotion[r] * kg;
                }
            }

            for (int q = 0; _slideStiffness is not null && q < _slides; q++)
            {
                _hessian[((_order + q) * n) + _order + s] += _slideStiffness[q, s];
            }
        }
    }

    // The energy along the step is convex: accept the whole step when its slope at the end is not uphill by much, else halve towards
    // the least energy.
    private void Search()
    {
        int n = _order + _slides;
        double here = Energy(_x), slope = 0;
        for (int i = 0; i < n; i++)
        {
            slope += _gradient[i] * _descent.Step[i];
        }

        double share = 1;
        for (int halving = 0; halving < 40; halving++, share /= 2)
        {
            for (int i = 0; i < n; i++)
            {
                _trial[i] = _x[i] + (share * _descent.Step[i]);
            }

            if (Energy(_trial) <= here + (1e-4 * share * slope) + (1e-14 * Math.Abs(here)))
            {
                break;
            }
        }

        _trial.CopyTo(_x, 0);
    }

    private double Energy(double[] x)
    {
        Stretch(x);
        double sum = 0;
        for (int r = 0; r < _order; r++)
        {
            for (int c = 0; c < _order; c++)
            {
                sum += 0.5 * ((_elastic[r] * _k[r, c] * _elastic[c]) + (_layer is null ? 0 : x[r] * _layer[r, c] * x[c]));
            }
        }

        for (int s = 0; s < _slides; s++)
        {
            sum -= _slide[s].Drive * x[_order + s];
            for (int q = 0; _slideStiffness is not null && q < _slides; q++)
            {
                sum += 0.5 * x[_order + s] * _slideStiffness[s, q] * x[_order + q];
            }
        }

        return _laws.AddEnergy(sum, x);
    }

    // e = d − t − Gs.
    private void Stretch(double[] x)
    {
        for (int c = 0; c < _order; c++)
        {
            double e = x[c] - _free[c];
            for (int s = 0; s < _slides; s++)
            {
                e -= x[_order + s] * _slide[s].SiteMotion[c];
            }

            _elastic[c] = e;
        }
    }

    // Moments count as the forces they are at this distance, the size of a bone's section.
    private static double Lever(int component) => component % Six < 3 ? 1 : 0.1;
}
