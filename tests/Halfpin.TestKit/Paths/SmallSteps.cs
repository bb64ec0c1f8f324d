using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Path;

namespace Halfpin.TestKit.Paths;

/// <summary>
/// A second way along an overload path, which shares nothing with the first but the input: the full set of node freedoms, a dense
/// matrix assembled from each member's relative motion, the load in small steps, each brought into balance by Newton's method with
/// the yielding components returned to their capacity, or as far as their stops, at the end of the step (backward Euler) and the
/// contacts as springs that only push.
/// </summary>
/// <remarks>
/// Return mapping after Simo and Hughes, Computational Inelasticity, 1998, ch. 1–3 (MEMORY). Its error is that of the step: a
/// component that yields and holds again within one step, and events placed at the end of a step. The tangent, not the balance, is
/// stiffened by a trifle, so that motions which nothing resists do not stop it.
/// </remarks>
public sealed class SmallSteps
{
    private const int MaxNewton = 400;
    private const double Stiffening = 1e-9;
    private const double BalanceShare = 1e-11;

    private readonly StepModel _model;
    private readonly double[][,] _motion;
    private readonly double[][,] _stiffness;
    private readonly int[][] _touched;
    private readonly double[][] _component;
    private readonly double[][] _opening;
    private readonly double[][,] _sites;
    private readonly bool[] _free;
    private readonly double[] _load;
    private readonly double[] _u;
    private readonly double[] _settled;
    private readonly double[] _p;

    /// <summary>The unloaded frame.</summary>
    public SmallSteps(StepModel model)
    {
        _model = model;
        int n = 6 * model.Nodes.Count;
        _motion = [.. model.Ends.Select((e, i) => RelativeMotion(e, model.Members[i].AtMm, n))];
        _stiffness = [.. model.Members.Select(Full)];
        _touched = [.. _motion.Select(b => Enumerable.Range(0, n).Where(j => Enumerable.Range(0, 6).Any(i => b[i, j] != 0)).ToArray())];
        _component = [.. model.Components.Select(c => Row(c, model.Members[c.Member].AtMm))];
        _sites = [.. model.Sites.Select(s => RelativeMotion(new(s.Lower, s.Upper), s.PointMm, n))];
        _opening = [.. model.Contacts.Select(c => OpeningRow(c, _sites[c.Site]))];
        _free = [.. Enumerable.Range(0, n).Select(i => !model.Supports.Any(s => s.Node == i / 6 && ((int)s.Held >> (i % 6) & 1) == 1))];
        _load = new double[n];
        double[] six = [model.LoadForceN.X, model.LoadForceN.Y, model.LoadForceN.Z, model.LoadMomentNmm.X, model.LoadMomentNmm.Y, model.LoadMomentNmm.Z];
        six.CopyTo(_load, 6 * model.Loaded);
        _u = new double[n];
        _settled = new double[model.Components.Count];
        _p = new double[model.Components.Count];
    }

    /// <summary>Dislocations now.</summary>
    public IReadOnlyList<double> Dislocations => _settled;

    /// <summary>Motion of the loaded node.</summary>
    public double[] EndMotion => [.. _u.Skip(6 * _model.Loaded).Take(6)];

    /// <summary>Relative motion of a site's faces, ux … rz.</summary>
    public double[] SiteMotion(int site) => Times(_sites[site], _u);

    /// <summary>Forces at the contacts, N.</summary>
    public double[] ContactForcesN() => [.. _opening.Select((row, k) => _model.Contacts[k].StiffnessNPerMm * Math.Max(0, -_model.Contacts[k].GapMm - Dot(row, _u)))];

    /// <summary>Forces of the components.</summary>
    public double[] ComponentForces() => [.. _component.Select((row, i) => Dot(row, Wrench(_model.Components[i].Member)))];

    /// <summary>The wrench on a member at its point.</summary>
    public double[] Wrench(int member)
    {
        double[] strain = Times(_motion[member], _u);
        for (int i = 0; i < _component.Length; i++)
        {
            if (_model.Components[i].Member == member)
            {
                for (int c = 0; c < 6; c++)
                {
                    strain[c] -= _component[i][c] * _p[i];
                }
            }
        }

        return Times(_stiffness[member], strain);
    }

    /// <summary>Goes to a load factor in one step.</summary>
    /// <returns>False when the frame finds no balance: it gives way.</returns>
    public bool StepTo(double loadFactor)
    {
        int n = _u.Length;
        int[] free = [.. Enumerable.Range(0, n).Where(i => _free[i])];
        for (int iteration = 0; iteration < MaxNewton; iteration++)
        {
            double[][] tangent = [.. Enumerable.Range(0, n).Select(_ => new double[n])];
            double[] size = new double[n], rest = Rest(loadFactor, size, tangent);
            // Not finer than the whole load allows: at no load there is nothing else to measure by.
            double most = Math.Max(size.Max(), _load.Max(Math.Abs));
            if (free.All(i => Math.Abs(rest[i]) <= BalanceShare * most))
            {
                _p.CopyTo(_settled, 0);
                return true;
            }

            double[][] a = [.. free.Select(r => free.Select(c => tangent[r][c]).ToArray())];
            double[] b = [.. free.Select(r => rest[r])];
            if (!DenseSolve.InPlace(a, b))
            {
                return false;
            }

            double[] step = new double[n];
            for (int i = 0; i < free.Length; i++)
            {
                step[free[i]] = b[i];
            }

            Go(step, loadFactor, Dot(rest, step));
        }

        return false;
    }

    // Along the step to where the forces left over do no more work on it: they fall all the way, for the potential of the step is convex.
    private void Go(double[] step, double loadFactor, double before)
    {
        double[] from = [.. _u];
        double Work(double share)
        {
            for (int i = 0; i < _u.Length; i++)
            {
                _u[i] = from[i] + (share * step[i]);
            }

            return Dot(Rest(loadFactor, new double[_u.Length], null), step);
        }

        double low = 0, high = 1;
        if (Work(1) >= -0.1 * before)
        {
            return;
        }

        for (int i = 0; i < 40; i++)
        {
            double middle = (low + high) / 2, work = Work(middle);
            if (Math.Abs(work) < 0.1 * before)
            {
                return;
            }

            (low, high) = work > 0 ? (middle, high) : (low, middle);
        }
    }

    // Forces left over at the nodes and what they are the difference of; the tangent where wanted.
    private double[] Rest(double loadFactor, double[] size, double[][]? tangent)
    {
        double[] rest = [.. _load.Select(f => loadFactor * f)];
        for (int i = 0; i < rest.Length; i++)
        {
            size[i] = Math.Abs(rest[i]);
        }

        AddMembers(tangent, rest, size);
        AddContacts(tangent, rest, size);
        return rest;
    }

    private void AddMembers(double[][]? tangent, double[] rest, double[] size)
    {
        for (int e = 0; e < _motion.Length; e++)
        {
            int[] own = [.. Enumerable.Range(0, _component.Length).Where(i => _model.Components[i].Member == e)];
            List<int> yielding = Return(e, own, Times(_motion[e], _u));
            double[] wrench = Wrench(e);
            foreach (int r in _touched[e])
            {
                for (int c = 0; c < 6; c++)
                {
                    rest[r] -= _motion[e][c, r] * wrench[c];
                    size[r] += Math.Abs(_motion[e][c, r] * wrench[c]);
                }
            }

            if (tangent is not null)
            {
                AddTangent(tangent, e, Tangent(e, yielding));
            }
        }
    }

    private void AddTangent(double[][] tangent, int member, double[,] d)
    {
        double[,] b = _motion[member];
        foreach (int r in _touched[member])
        {
            for (int k = 0; k < 6; k++)
            {
                double left = 0;
                for (int c = 0; c < 6; c++)
                {
                    left += b[c, r] * d[c, k];
                }

                foreach (int s in _touched[member])
                {
                    tangent[r][s] += left * b[k, s];
                }
            }
        }
    }

    // Each component by itself, the others as they are, until all stay: one round when they are independent.
    private List<int> Return(int member, int[] own, double[] strain)
    {
        List<int> yielding = [];
        foreach (int i in own)
        {
            _p[i] = _settled[i];
        }

        for (int round = 0; round < 500; round++)
        {
            double change = 0;
            yielding.Clear();
            foreach (int i in own)
            {
                double[] elastic = [.. strain];
                foreach (int j in own)
                {
                    double p = j == i ? _settled[j] : _p[j];
                    for (int c = 0; c < 6; c++)
                    {
                        elastic[c] -= _component[j][c] * p;
                    }
                }

                double force = Dot(_component[i], Times(_stiffness[member], elastic)), k = Dot(_component[i], Times(_stiffness[member], _component[i]));
                double capacity = _model.Components[i].Capacity, next = _settled[i];
                if (Math.Abs(force) > capacity)
                {
                    // On a stop it gives no further, and its force is what the rest leaves it.
                    double run = next + ((force - (Math.Sign(force) * capacity)) / k);
                    next = Math.Clamp(run, _model.Components[i].LeastMm, _model.Components[i].MostMm);
                    if (next == run)
                    {
                        yielding.Add(i);
                    }
                }

                change = Math.Max(change, Math.Abs(next - _p[i]));
                _p[i] = next;
            }

            if (change == 0 || own.Length < 2)
            {
                break;
            }
        }

        return yielding;
    }

    // D less what the yielding components give, D A (AᵀDA)⁻¹ AᵀD, taken out one after the other; and the trifle.
    private double[,] Tangent(int member, List<int> yielding)
    {
        double[,] d = (double[,])_stiffness[member].Clone();
        foreach (int i in yielding)
        {
            double[] da = Times(d, _component[i]);
            double k = Dot(_component[i], da);
            for (int r = 0; r < 6 && k > 0; r++)
            {
                for (int c = 0; c < 6; c++)
                {
                    d[r, c] -= da[r] * da[c] / k;
                }
            }
        }

        for (int r = 0; r < 6; r++)
        {
            for (int c = 0; c < 6; c++)
            {
                d[r, c] += Stiffening * _stiffness[member][r, c];
            }
        }

        return d;
    }

    private void AddContacts(double[][]? tangent, double[] rest, double[] size)
    {
        for (int k = 0; k < _opening.Length; k++)
        {
            ContactPoint contact = _model.Contacts[k];
            double opening = contact.GapMm + Dot(_opening[k], _u);
            if (opening >= 0)
            {
                continue;
            }

            for (int r = 0; r < _u.Length; r++)
            {
                double b = _opening[k][r];
                if (b != 0)
                {
                    rest[r] -= contact.StiffnessNPerMm * opening * b;
                    size[r] += Math.Abs(contact.StiffnessNPerMm * opening * b);
                    for (int c = 0; c < _u.Length && tangent is not null; c++)
                    {
                        tangent[r][c] += contact.StiffnessNPerMm * b * _opening[k][c];
                    }
                }
            }
        }
    }

    // Motion of end b's arm less that of end a's arm at a point: translation of the node and rotation × arm.
    private double[,] RelativeMotion(MemberEnds ends, Vec3 at, int n)
    {
        double[,] b = new double[6, n];
        foreach ((int node, double sign) in new[] { (ends.A, -1.0), (ends.B, 1.0) })
        {
            if (node >= 0)
            {
                Vec3 r = at - _model.Nodes[node];
                for (int i = 0; i < 6; i++)
                {
                    b[i, (6 * node) + i] += sign;
                }

                (b[0, (6 * node) + 4], b[0, (6 * node) + 5]) = (sign * r.Z, -sign * r.Y);
                (b[1, (6 * node) + 3], b[1, (6 * node) + 5]) = (-sign * r.Z, sign * r.X);
                (b[2, (6 * node) + 3], b[2, (6 * node) + 4]) = (sign * r.Y, -sign * r.X);
            }
        }

        return b;
    }

    private static double[,] Full(MemberStiffness s)
    {
        Mat3 n = s.ForcePerTranslation, q = s.ForcePerRotation, m = s.MomentPerRotation;
        return new[,]
        {
            { n.XX, n.XY, n.XZ, q.XX, q.XY, q.XZ }, { n.YX, n.YY, n.YZ, q.YX, q.YY, q.YZ }, { n.ZX, n.ZY, n.ZZ, q.ZX, q.ZY, q.ZZ },
            { q.XX, q.YX, q.ZX, m.XX, m.XY, m.XZ }, { q.XY, q.YY, q.ZY, m.YX, m.YY, m.YZ }, { q.XZ, q.YZ, q.ZZ, m.ZX, m.ZY, m.ZZ },
        };
    }

    // The component as a linear form of the wrench at P: a moment about an axis through A is d·(m + (P − A) × f) = d·m + (d × (P − A))·f.
    private static double[] Row(YieldingComponent c, Vec3 p)
    {
        Vec3 d = c.Direction, r = p - c.AtMm;
        return c.Kind == ComponentKind.Force
            ? [d.X, d.Y, d.Z, 0, 0, 0]
            : [(d.Y * r.Z) - (d.Z * r.Y), (d.Z * r.X) - (d.X * r.Z), (d.X * r.Y) - (d.Y * r.X), d.X, d.Y, d.Z];
    }

    // Normal motion of the upper face against the lower one at the contact: n·(u + θ × o).
    private static double[] OpeningRow(ContactPoint c, double[,] site)
    {
        Vec3 n = c.Normal, o = c.OffsetMm;
        double[] row = [n.X, n.Y, n.Z, (o.Y * n.Z) - (o.Z * n.Y), (o.Z * n.X) - (o.X * n.Z), (o.X * n.Y) - (o.Y * n.X)];
        return [.. Enumerable.Range(0, site.GetLength(1)).Select(j => Enumerable.Range(0, 6).Sum(i => row[i] * site[i, j]))];
    }

    private static double[] Times(double[,] a, double[] x)
    {
        double[] y = new double[a.GetLength(0)];
        for (int i = 0; i < y.Length; i++)
        {
            for (int j = 0; j < x.Length; j++)
            {
                y[i] += a[i, j] * x[j];
            }
        }

        return y;
    }

    private static double Dot(double[] a, double[] b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }
}
