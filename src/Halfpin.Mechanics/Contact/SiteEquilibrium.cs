using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Contact;

/// <summary>
/// Equilibrium of a site whose faces may bear on each other at given points, with an elastic layer between them if wanted: the
/// relative motion d that makes the frame's resistance K(d − t − Gs), the layer's and the contact forces balance, where t is the
/// motion that the loads cause without contact and G the slides that meet no resistance.
/// </summary>
/// <remarks>
/// d and s minimise ½eᵀKe + ½dᵀLd + Σ½k⟨−γ⟩² + friction − Drive·s with e = d − t − Gs and γ = gap + b·d the opening of a point. Without
/// slides the energy is strictly convex, since K is positive definite: the answer is unique, and Newton's method on the active
/// points with a line search ends at it. With slides it is unique once layer or contact restrains them. Friction is Coulomb's law in
/// total form, for loads that grow in proportion: for given normal forces each point resists tangentially by an elastic-to-constant
/// (Huber) law, which keeps the energy convex; the normal forces are then brought up to date until they stay. That iteration has one
/// answer while it contracts (small friction); when it does not, <see cref="ContactStatus.NotConverged"/> says so.
/// A workspace: nothing is allocated after construction. Units N, mm, rad.
/// </remarks>
public sealed class SiteEquilibrium
{
    /// <summary>Most slides at once.</summary>
    public const int MaxSlides = 2;

    private const int Six = 6;
    private const int MaxNewton = 60;
    private const int MaxFriction = 200;

    // Newton ends on this share of the largest product of a stiffness and a motion; rounding leaves some 1e-15 of it.
    private const double BalanceTolerance = 1e-13;

    // Normal forces are taken as settled on this share of the largest.
    private const double FrictionTolerance = 1e-9;

    // Tangential stiffness of a touching point as a share of its normal one. ASSUMED: Mindlin's ratio is 0.7–1 for like bodies.
    private const double TangentialShare = 0.8;

    private readonly ContactPoint[] _points;
    private readonly double[] _b;
    private readonly double[] _force;
    private readonly double[] _bound;
    private readonly double[] _x = new double[Six + MaxSlides];
    private readonly double[] _step = new double[Six + MaxSlides];
    private readonly double[] _trial = new double[Six + MaxSlides];
    private readonly double[] _gradient = new double[Six + MaxSlides];
    private readonly double[] _hessian = new double[(Six + MaxSlides) * (Six + MaxSlides)];
    private readonly double[] _free = new double[Six];
    private SquareMatrix _k = new(Six);
    private SquareMatrix? _layer;
    private int _slides;

    /// <summary>A workspace for a number of points.</summary>
    public SiteEquilibrium(int points)
    {
        _points = new ContactPoint[points];
        _b = new double[points * Six];
        _force = new double[points];
        _bound = new double[points];
        Slides = new SlideFreedom[MaxSlides];
    }

    /// <summary>Relative motion of the faces, ux … rz.</summary>
    public ReadOnlySpan<double> Motion => _x.AsSpan(0, Six);

    /// <summary>How far each slide ran, in its own unit.</summary>
    public ReadOnlySpan<double> SlideTravel => _x.AsSpan(Six, _slides);

    /// <summary>Normal force at each point, N; 0 where the faces do not touch.</summary>
    public ReadOnlySpan<double> NormalForcesN => _force;

    /// <summary>Newton steps of the last solution.</summary>
    public int Steps { get; private set; }

    private SlideFreedom[] Slides { get; }

    /// <summary>Sets the points.</summary>
    /// <param name="points">As many as the workspace was made for.</param>
    public void SetPoints(ReadOnlySpan<ContactPoint> points)
    {
        points.CopyTo(_points);
        for (int i = 0; i < points.Length; i++)
        {
            Vec3 n = points[i].Normal, m = points[i].OffsetMm.Cross(n);
            (_b[6 * i], _b[(6 * i) + 1], _b[(6 * i) + 2]) = (n.X, n.Y, n.Z);
            (_b[(6 * i) + 3], _b[(6 * i) + 4], _b[(6 * i) + 5]) = (m.X, m.Y, m.Z);
        }
    }

    /// <summary>Finds the equilibrium.</summary>
    /// <param name="siteStiffness">K, symmetric positive definite.</param>
    /// <param name="freeMotion">t: the motion that the loads cause without contact, layer or slide.</param>
    /// <param name="layer">L, stiffness of an elastic layer between the faces, or null.</param>
    /// <param name="slides">Free slides, at most <see cref="MaxSlides"/>.</param>
    /// <param name="friction">Coulomb coefficient; 0 for none.</param>
    public ContactStatus Solve(
        SquareMatrix siteStiffness, ReadOnlySpan<double> freeMotion, SquareMatrix? layer, ReadOnlySpan<SlideFreedom> slides, double friction)
    {
        (_k, _layer, _slides) = (siteStiffness, layer, slides.Length);
        freeMotion.CopyTo(_free);
        slides.CopyTo(Slides);
        Array.Clear(_x);
        Array.Clear(_bound);
        freeMotion.CopyTo(_x);
        Steps = 0;
        if (_slides > 0 && !RunToTouch())
        {
            return ContactStatus.Unrestrained;
        }

        ContactStatus status = Newton();
        for (int i = 0; friction > 0 && status == ContactStatus.Solved && i < MaxFriction; i++)
        {
            if (Settled(friction))
            {
                return status;
            }

            status = Newton();
        }

        return friction > 0 ? ContactStatus.NotConverged : status;
    }

    /// <summary>The wrench that contact and layer exert on the upper face about the site point.</summary>
    public Wrench WrenchOnUpperFace()
    {
        Span<double> f = stackalloc double[Six];
        for (int r = 0; r < Six; r++)
        {
            for (int c = 0; c < Six; c++)
            {
                f[r] += _k[r, c] * Elastic(_x, c);
            }
        }

        return new(new(f[0], f[1], f[2]), new(f[3], f[4], f[5]));
    }

    /// <summary>How far apart the faces are at a point, along its normal; negative when pressed together.</summary>
    public double OpeningMm(int point) => Opening(_x, point);

    // With a load along a slide the faces first run together without resistance: start where the first point touches.
    private bool RunToTouch()
    {
        double drive = 0;
        for (int s = 0; s < _slides; s++)
        {
            drive = Math.Max(drive, Math.Abs(Slides[s].Drive));
        }

        if (drive == 0 || _layer is not null)
        {
            return true;
        }

        double travel = double.PositiveInfinity;
        for (int i = 0; i < _points.Length; i++)
        {
            double rate = 0;
            for (int s = 0; s < _slides; s++)
            {
                rate += Slides[s].Drive / drive * Dot(i, Slides[s].SiteMotion);
            }

            // Beyond the touch by a hair, so that the point counts as active.
            travel = rate < 0 ? Math.Min(travel, (Opening(_x, i) + 1e-9) / -rate) : travel;
        }

        if (double.IsInfinity(travel))
        {
            return false;
        }

        for (int s = 0; s < _slides; s++)
        {
            _x[Six + s] = travel * Slides[s].Drive / drive;
            for (int c = 0; c < Six; c++)
            {
                _x[c] += _x[Six + s] * Slides[s].SiteMotion[c];
            }
        }

        return true;
    }

    private ContactStatus Newton()
    {
        for (int i = 0; i < MaxNewton; i++, Steps++)
        {
            if (Derivatives())
            {
                return ContactStatus.Solved;
            }

            if (!Direction())
            {
                return ContactStatus.Unrestrained;
            }

            Search();
        }

        return ContactStatus.NotConverged;
    }

    // Gradient and Hessian at _x; true when the gradient vanishes against the terms it is made of.
    private bool Derivatives()
    {
        int n = Six + _slides;
        Array.Clear(_gradient);
        Array.Clear(_hessian);
        double size = 0;
        for (int r = 0; r < Six; r++)
        {
            double force = 0;
            for (int c = 0; c < Six; c++)
            {
                double l = _layer is null ? 0 : _layer[r, c];
                double frame = _k[r, c] * Elastic(_x, c), layer = l * _x[c];
                force += frame;
                _gradient[r] += frame + layer;
                size = Math.Max(size, Lever(r) * Math.Max(Math.Abs(_k[r, c]) * (Math.Abs(_x[c]) + Math.Abs(_free[c])), Math.Abs(layer)));
                _hessian[(r * n) + c] = _k[r, c] + l;
            }

            for (int s = 0; s < _slides; s++)
            {
                _gradient[Six + s] -= Slides[s].SiteMotion[r] * force;
            }
        }

        SlideHessian(n);
        for (int i = 0; i < _points.Length; i++)
        {
            size = Math.Max(size, AddPoint(i, n));
        }

        double left = 0;
        for (int s = 0; s < _slides; s++)
        {
            _gradient[Six + s] -= Slides[s].Drive;
            size = Math.Max(size, Math.Abs(Slides[s].Drive));
            left = Math.Max(left, Math.Abs(_gradient[Six + s]));
        }

        for (int r = 0; r < Six; r++)
        {
            left = Math.Max(left, Lever(r) * Math.Abs(_gradient[r]));
        }

        return left <= BalanceTolerance * size || size == 0;
    }

    private void SlideHessian(int n)
    {
        for (int s = 0; s < _slides; s++)
        {
            for (int r = 0; r < Six; r++)
            {
                double kg = 0;
                for (int c = 0; c < Six; c++)
                {
                    kg += _k[r, c] * Slides[s].SiteMotion[c];
                }

                _hessian[(r * n) + Six + s] = _hessian[((Six + s) * n) + r] = -kg;
                for (int q = 0; q < _slides; q++)
                {
                    _hessian[((Six + q) * n) + Six + s] += Slides[q].SiteMotion[r] * kg;
                }
            }
        }
    }

    // Adds a point's normal and tangential law; returns the size of what its force is the difference of.
    private double AddPoint(int i, int n)
    {
        double opening = Opening(_x, i), k = _points[i].StiffnessNPerMm;
        _force[i] = opening < 0 ? -k * opening : 0;
        if (opening < 0)
        {
            AddRank(n, i, k);
            for (int r = 0; r < Six; r++)
            {
                _gradient[r] -= _force[i] * _b[(6 * i) + r];
            }
        }

        if (_bound[i] > 0)
        {
            AddFriction(i, n);
        }

        double size = _points[i].GapMm;
        for (int c = 0; c < Six; c++)
        {
            size += Math.Abs(_b[(6 * i) + c] * _x[c]);
        }

        return opening < 0 ? k * size : 0;
    }

    private void AddRank(int n, int i, double k)
    {
        for (int r = 0; r < Six; r++)
        {
            for (int c = 0; c < Six; c++)
            {
                _hessian[(r * n) + c] += k * _b[(6 * i) + r] * _b[(6 * i) + c];
            }
        }
    }

    // Tangential motion v = P(u + θ × p), P = I − nnᵀ; force k v up to the bound, then the bound along v.
    private void AddFriction(int i, int n)
    {
        Vec3 v = Tangential(_x, i), p = _points[i].OffsetMm, normal = _points[i].Normal;
        double k = TangentialShare * _points[i].StiffnessNPerMm, length = v.Length;
        bool slips = k * length > _bound[i];
        double secant = slips ? _bound[i] / length : k;
        Vec3 force = secant * v, moment = p.Cross(force);
        (_gradient[0], _gradient[1], _gradient[2]) = (_gradient[0] + force.X, _gradient[1] + force.Y, _gradient[2] + force.Z);
        (_gradient[3], _gradient[4], _gradient[5]) = (_gradient[3] + moment.X, _gradient[4] + moment.Y, _gradient[5] + moment.Z);
        Mat3 tangent = secant * Mat3.Axial(1, 0, normal);
        if (slips)
        {
            Vec3 along = (1 / length) * v;
            tangent -= secant * Mat3.Axial(0, 1, along);
        }

        // Rows and columns of [I −[p×]]ᵀ T [I −[p×]].
        Mat3 q = tangent.TimesCross(-p), m = q.CrossTimes(p);
        AddBlock(n, 0, 0, tangent);
        AddBlock(n, 0, 3, q);
        AddBlock(n, 3, 0, q.Transposed());
        AddBlock(n, 3, 3, m);
    }

    private void AddBlock(int n, int row, int column, in Mat3 m)
    {
        Span<double> v = [m.XX, m.XY, m.XZ, m.YX, m.YY, m.YZ, m.ZX, m.ZY, m.ZZ];
        for (int r = 0; r < 3; r++)
        {
            for (int c = 0; c < 3; c++)
            {
                _hessian[((row + r) * n) + column + c] += v[(3 * r) + c];
            }
        }
    }

    // Cholesky of the Hessian in place and the Newton step; false when nothing restrains a slide.
    private bool Direction()
    {
        int n = Six + _slides;
        for (int j = 0; j < n; j++)
        {
            for (int i = j; i < n; i++)
            {
                double sum = _hessian[(i * n) + j];
                for (int k = 0; k < j; k++)
                {
                    sum -= _hessian[(i * n) + k] * _hessian[(j * n) + k];
                }

                if (i == j)
                {
                    if (!(sum > 1e-13 * _hessian[(j * n) + j]))
                    {
                        return false;
                    }

                    _hessian[(j * n) + j] = Math.Sqrt(sum);
                }
                else
                {
                    _hessian[(i * n) + j] = sum / _hessian[(j * n) + j];
                }
            }
        }

        for (int i = 0; i < n; i++)
        {
            double sum = -_gradient[i];
            for (int k = 0; k < i; k++)
            {
                sum -= _hessian[(i * n) + k] * _step[k];
            }

            _step[i] = sum / _hessian[(i * n) + i];
        }

        for (int i = n - 1; i >= 0; i--)
        {
            double sum = _step[i];
            for (int k = i + 1; k < n; k++)
            {
                sum -= _hessian[(k * n) + i] * _step[k];
            }

            _step[i] = sum / _hessian[(i * n) + i];
        }

        return true;
    }

    // The energy along the step is convex: accept the whole step when its slope at the end is not uphill by much, else halve towards
    // the least energy.
    private void Search()
    {
        int n = Six + _slides;
        double here = Energy(_x), slope = 0;
        for (int i = 0; i < n; i++)
        {
            slope += _gradient[i] * _step[i];
        }

        double share = 1;
        for (int halving = 0; halving < 40; halving++, share /= 2)
        {
            for (int i = 0; i < n; i++)
            {
                _trial[i] = _x[i] + (share * _step[i]);
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
        double sum = 0;
        for (int r = 0; r < Six; r++)
        {
            double er = Elastic(x, r);
            for (int c = 0; c < Six; c++)
            {
                sum += 0.5 * ((er * _k[r, c] * Elastic(x, c)) + (_layer is null ? 0 : x[r] * _layer[r, c] * x[c]));
            }
        }

        for (int s = 0; s < _slides; s++)
        {
            sum -= Slides[s].Drive * x[Six + s];
        }

        for (int i = 0; i < _points.Length; i++)
        {
            double opening = Opening(x, i);
            sum += opening < 0 ? 0.5 * _points[i].StiffnessNPerMm * opening * opening : 0;
            if (_bound[i] > 0)
            {
                double k = TangentialShare * _points[i].StiffnessNPerMm, v = Tangential(x, i).Length;
                sum += k * v <= _bound[i] ? 0.5 * k * v * v : (_bound[i] * v) - (_bound[i] * _bound[i] / (2 * k));
            }
        }

        return sum;
    }

    // Brings the friction bounds up to date; true when they were already.
    private bool Settled(double friction)
    {
        double most = 0, change = 0;
        for (int i = 0; i < _points.Length; i++)
        {
            double bound = friction * _force[i];
            most = Math.Max(most, bound);
            change = Math.Max(change, Math.Abs(bound - _bound[i]));
            _bound[i] = bound;
        }

        return change <= FrictionTolerance * most;
    }

    private double Elastic(double[] x, int component)
    {
        double e = x[component] - _free[component];
        for (int s = 0; s < _slides; s++)
        {
            e -= x[Six + s] * Slides[s].SiteMotion[component];
        }

        return e;
    }

    private double Opening(double[] x, int i) => _points[i].GapMm + Dot(i, x);

    private double Dot(int i, double[] v)
    {
        double sum = 0;
        for (int c = 0; c < Six; c++)
        {
            sum += _b[(6 * i) + c] * v[c];
        }

        return sum;
    }

    private Vec3 Tangential(double[] x, int i)
    {
        Vec3 n = _points[i].Normal;
        Vec3 v = new Vec3(x[0], x[1], x[2]) + new Vec3(x[3], x[4], x[5]).Cross(_points[i].OffsetMm);
        return v - (v.Dot(n) * n);
    }

    // Moments count as the forces they are at this distance, the size of a bone's section.
    private static double Lever(int component) => component < 3 ? 1 : 0.1;
}
