using Halfpin.Mechanics.Geometry;

namespace Halfpin.Mechanics.Contact;

/// <summary>
/// What the points of all sites contribute to the energy of a <see cref="SiteEquilibrium"/>: unilateral normal springs and
/// Coulomb friction for given bounds. A workspace.
/// </summary>
/// <remarks>Vectors hold the motions of the faces first, six for each site; matrices are row by row with a given order.</remarks>
internal sealed class PointLaws(int points)
{
    private const int Six = 6;

    // Tangential stiffness of a touching point as a share of its normal one. ASSUMED: Mindlin's ratio is 0.7–1 for like bodies.
    private const double TangentialShare = 0.8;

    // Normal forces are taken as settled on this share of the largest.
    private const double FrictionTolerance = 1e-9;

    // Beyond the touch by a hair, so that the point counts as active.
    private const double HairMm = 1e-9;

    // A point that closes slower than this, in mm per mm of a slide, is not closed by it.
    private const double ClosingRate = 1e-9;

    private readonly ContactPoint[] _points = new ContactPoint[points];
    private readonly double[] _b = new double[points * Six];
    private readonly double[] _force = new double[points];
    private readonly double[] _bound = new double[points];

    /// <summary>Normal force at each point after <see cref="Add"/>.</summary>
    public ReadOnlySpan<double> NormalForcesN => _force;

    public void Set(ReadOnlySpan<ContactPoint> points)
    {
        points.CopyTo(_points);
        for (int i = 0; i < points.Length; i++)
        {
            Vec3 n = points[i].Normal, m = points[i].OffsetMm.Cross(n);
            (_b[6 * i], _b[(6 * i) + 1], _b[(6 * i) + 2]) = (n.X, n.Y, n.Z);
            (_b[(6 * i) + 3], _b[(6 * i) + 4], _b[(6 * i) + 5]) = (m.X, m.Y, m.Z);
        }
    }

    /// <summary>Starts again without friction.</summary>
    public void ClearBounds() => Array.Clear(_bound);

    /// <summary>How far apart the faces are at a point.</summary>
    public double Opening(ReadOnlySpan<double> x, int i) => _points[i].GapMm + Dot(i, x);

    /// <summary>How far along a direction the first point comes to touch; infinite when none does.</summary>
    /// <param name="x">Where the faces are.</param>
    /// <param name="along">The direction.</param>
    /// <param name="onlyOpen">Passes over points that touch already; otherwise the way back to where they touched is told.</param>
    public double TravelToTouch(ReadOnlySpan<double> x, ReadOnlySpan<double> along, bool onlyOpen)
    {
        double travel = double.PositiveInfinity;
        for (int i = 0; i < _points.Length; i++)
        {
            double rate = Dot(i, along), opening = Opening(x, i);
            if (rate < -ClosingRate && (opening >= 0 || !onlyOpen))
            {
                travel = Math.Min(travel, (opening + HairMm) / -rate);
            }
        }

        return travel;
    }

    /// <summary>Adds all points to gradient and Hessian.</summary>
    /// <returns>The size of the largest term that a point's force is the difference of.</returns>
    public double Add(ReadOnlySpan<double> x, Span<double> gradient, Span<double> hessian, int n)
    {
        double size = 0;
        for (int i = 0; i < _points.Length; i++)
        {
            size = Math.Max(size, AddPoint(i, x, gradient, hessian, n));
        }

        return size;
    }

    /// <summary>A sum with the energy of all points added.</summary>
    public double AddEnergy(double sum, ReadOnlySpan<double> x)
    {
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

    /// <summary>Brings the friction bounds up to date; true when they were already.</summary>
    public bool Settled(double friction)
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

    private double AddPoint(int i, ReadOnlySpan<double> x, Span<double> gradient, Span<double> hessian, int n)
    {
        double opening = Opening(x, i), k = _points[i].StiffnessNPerMm;
        int first = Six * _points[i].Site;
        _force[i] = opening < 0 ? -k * opening : 0;
        if (opening < 0)
        {
            AddRank(hessian, n, i, k);
            for (int r = 0; r < Six; r++)
            {
                gradient[first + r] -= _force[i] * _b[(6 * i) + r];
            }
        }

        if (_bound[i] > 0)
        {
            AddFriction(i, x, gradient[first..], hessian, n);
        }

        double size = _points[i].GapMm;
        for (int c = 0; c < Six; c++)
        {
            size += Math.Abs(_b[(6 * i) + c] * x[first + c]);
        }

        return opening < 0 ? k * size : 0;
    }

    private void AddRank(Span<double> hessian, int n, int i, double k)
    {
        int first = Six * _points[i].Site;
        for (int r = 0; r < Six; r++)
        {
            for (int c = 0; c < Six; c++)
            {
                hessian[((first + r) * n) + first + c] += k * _b[(6 * i) + r] * _b[(6 * i) + c];
            }
        }
    }

    // Tangential motion v = P(u + θ × p), P = I − nnᵀ; force k v up to the bound, then the bound along v.
    private void AddFriction(int i, ReadOnlySpan<double> x, Span<double> g, Span<double> hessian, int n)
    {
        Vec3 v = Tangential(x, i), p = _points[i].OffsetMm, normal = _points[i].Normal;
        double k = TangentialShare * _points[i].StiffnessNPerMm, length = v.Length;
        bool slips = k * length > _bound[i];
        double secant = slips ? _bound[i] / length : k;
        Vec3 force = secant * v, moment = p.Cross(force);
        (g[0], g[1], g[2]) = (g[0] + force.X, g[1] + force.Y, g[2] + force.Z);
        (g[3], g[4], g[5]) = (g[3] + moment.X, g[4] + moment.Y, g[5] + moment.Z);
        Mat3 tangent = secant * Mat3.Axial(1, 0, normal);
        if (slips)
        {
            Vec3 along = (1 / length) * v;
            tangent -= secant * Mat3.Axial(0, 1, along);
        }

        // Rows and columns of [I −[p×]]ᵀ T [I −[p×]].
        int first = Six * _points[i].Site;
        Mat3 q = tangent.TimesCross(-p), m = q.CrossTimes(p);
        AddBlock(hessian, n, first, first, tangent);
        AddBlock(hessian, n, first, first + 3, q);
        AddBlock(hessian, n, first + 3, first, q.Transposed());
        AddBlock(hessian, n, first + 3, first + 3, m);
    }

    private static void AddBlock(Span<double> hessian, int n, int row, int column, in Mat3 m)
    {
        Span<double> v = [m.XX, m.XY, m.XZ, m.YX, m.YY, m.YZ, m.ZX, m.ZY, m.ZZ];
        for (int r = 0; r < 3; r++)
        {
            for (int c = 0; c < 3; c++)
            {
                hessian[((row + r) * n) + column + c] += v[(3 * r) + c];
            }
        }
    }

    private double Dot(int i, ReadOnlySpan<double> v)
    {
        double sum = 0;
        int first = Six * _points[i].Site;
        for (int c = 0; c < Six; c++)
        {
            sum += _b[(6 * i) + c] * v[first + c];
        }

        return sum;
    }

    private Vec3 Tangential(ReadOnlySpan<double> x, int i)
    {
        ReadOnlySpan<double> d = x.Slice(Six * _points[i].Site, Six);
        Vec3 n = _points[i].Normal;
        Vec3 v = new Vec3(d[0], d[1], d[2]) + new Vec3(d[3], d[4], d[5]).Cross(_points[i].OffsetMm);
        return v - (v.Dot(n) * n);
    }
}
