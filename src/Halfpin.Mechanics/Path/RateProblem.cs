namespace Halfpin.Mechanics.Path;

/// <summary>
/// How a path goes on from a point: the rates of the dislocations and the contacts that bear, under a load that grows or falls.
/// </summary>
/// <remarks>
/// Seen as dislocations that only open, contacts are yielding components too, and the rates x minimise ½xᵀGx − rᵀx with G positive
/// semidefinite, under x ≥ 0 for components at their capacity (in the sign of their force) and for contacts that just touch, and x
/// free for components without capacity and contacts that are apart. First the set expected is tried: when its answer meets all
/// conditions it is the answer, for the problem is convex. Else the active-set method for non-negative least squares is used (Lawson
/// and Hanson, Solving Least Squares Problems, ch. 23; MEMORY): from none, the variable that pushes hardest joins; the least value
/// over the set is taken, or the way to it until a variable reaches 0 and leaves.
/// It ends: a passage in which nothing leaves finishes at the least value of its set, which is lower than at the passage before, so
/// no set comes twice, and there are finitely many; within a passage each turn takes a variable out. Where the set's matrix is
/// singular its null vector z is taken in the sense in which the load does work, rᵀz > 0: the value falls along it without bound,
/// until a variable leaves; when none does, z is the motion in which the frame gives way. When rᵀz = 0 the load does not drive the
/// motion, and it is held where it has come to: of all least values the one taken is that which leaves the components whose pivots are
/// lost where they are, or the passage would run along z for nothing and take a variable out for it.
/// What joins moves in its own sense, but for rounding: one that would not has been pushed by rounding alone. It leaves again and is not
/// asked until the value has fallen, so that the same two sets cannot take turns (Lawson and Hanson, ch. 23, have the same test).
/// Rounding could still break the argument, so the turns are counted.
/// </remarks>
internal sealed class RateProblem
{
    // A component or a touching contact is pushed when its rate is more than this share of what the rate is the difference of.
    private const double PushShare = 1e-9;
    private const double ContactPushShare = 1e-12;

    // A load drives a mechanism when its work is more than this share of force times way.
    private const double DriveShare = 1e-8;

    private readonly PathProblem _problem;
    private readonly double[] _right;
    private readonly double[] _ray;
    private readonly double[] _now;
    private readonly double[] _openingNow;
    private readonly double[] _image;
    private readonly bool[] _refused;
    private readonly bool[] _contactRefused;
    private int _joined;
    private int _contactJoined;

    public RateProblem(PathProblem problem)
    {
        _problem = problem;
        _right = new double[problem.Components];
        _ray = new double[problem.Components];
        _now = new double[problem.Components];
        _openingNow = new double[problem.Contacts];
        Rate = new(problem);
        Factor = new(problem);
        Bearing = new(problem.SiteFreedoms);
        _image = new double[problem.SiteFreedoms];
        (_refused, _contactRefused) = (new bool[problem.Components], new bool[problem.Contacts]);
    }

    /// <summary>The rates per unit of load factor; in a plateau per unit of the mechanism's motion, with a load rate of 0.</summary>
    public PathState Rate { get; }

    /// <summary>The contacts that bear, as solved last.</summary>
    public SiteBearing Bearing { get; }

    /// <summary>The components that yield, as solved last.</summary>
    public ActiveFactor Factor { get; }

    /// <summary>True when the frame gives way under constant load.</summary>
    public bool IsPlateau { get; private set; }

    /// <summary>Finds the rates.</summary>
    /// <param name="direction">+1 for a growing load, −1 for a falling one.</param>
    /// <param name="sets">Bounds and touching contacts; yielding components and bearing contacts as expected, and as found.</param>
    /// <returns>False when no consistent set was found.</returns>
    public bool Solve(double direction, PathSets sets)
    {
        IsPlateau = false;
        return TryExpected(direction, sets) || Search(direction, sets);
    }

    private bool TryExpected(double direction, PathSets sets)
    {
        SetUp(direction, sets);
        if (FindsRay(direction))
        {
            return false;
        }

        Rate.LoadFactor = direction;
        Factor.Solve(_right, Rate.Dislocation);
        Rate.EvaluateRates(Bearing);
        foreach (int i in Factor.Order)
        {
            if (sets.Bound[i] * Rate.Dislocation[i] < 0)
            {
                return false;
            }
        }

        for (int k = 0; k < sets.Weak.Length; k++)
        {
            if (sets.Weak[k] && !sets.Closed[k] && Rate.OpeningMm[k] < 0)
            {
                return false;
            }
        }

        ForgetRefused();
        return !TryEnter(sets, apply: false);
    }

    private bool Search(double direction, PathSets sets)
    {
        Array.Clear(_now);
        Array.Clear(_openingNow);
        Array.Clear(sets.Slipping);
        for (int k = 0; k < sets.Weak.Length; k++)
        {
            sets.Closed[k] |= sets.Weak[k];
        }

        ForgetRefused();
        int turns = 20 + (10 * (_problem.Components + _problem.Contacts));
        while (turns-- > 0)
        {
            SetUp(direction, sets);
            bool ray = FindsRay(direction);
            Rate.LoadFactor = ray ? 0 : direction;
            if (ray)
            {
                _ray.CopyTo(Rate.Dislocation, 0);
            }
            else
            {
                Factor.Solve(_right, Rate.Dislocation);
                StayAlongNullVectors();
            }

            Rate.EvaluateRates(Bearing);
            if (Refuses(ray, sets))
            {
                // The set is that of the turn before again: whoever is pushed next joins, and without anyone its rates are the answer.
                SolveRates(direction, sets);
                if (!TryEnter(sets, apply: true))
                {
                    return true;
                }

                continue;
            }

            double share = WayTo(ray, sets);
            if (double.IsPositiveInfinity(share))
            {
                IsPlateau = true;
                return true;
            }

            if (!Go(share, ray, sets) && !TryEnter(sets, apply: true))
            {
                return true;
            }
        }

        return false;
    }

    private void SolveRates(double direction, PathSets sets)
    {
        SetUp(direction, sets);
        Rate.LoadFactor = direction;
        Factor.Solve(_right, Rate.Dislocation);
        StayAlongNullVectors();
        Rate.EvaluateRates(Bearing);
    }

    // Of all solutions of a singular set the one in which components with lost pivots stay as they are.
    private void StayAlongNullVectors()
    {
        for (int place = 0; Factor.Lost > 0 && place < Factor.Order.Length; place++)
        {
            double now = _now[Factor.Order[place]];
            if (Factor.IsDependent(place) && now != 0)
            {
                Factor.NullVector(place, _ray);
                foreach (int i in Factor.Order)
                {
                    Rate.Dislocation[i] += now * _ray[i];
                }
            }
        }
    }

    // True when what has just joined would move against its own sense: it leaves again.
    private bool Refuses(bool ray, PathSets sets)
    {
        (int component, int contact) = (_joined, _contactJoined);
        (_joined, _contactJoined) = (-1, -1);
        if (component >= 0 && sets.Bound[component] * Rate.Dislocation[component] <= 0 && !(ray && Rate.Dislocation[component] == 0))
        {
            _refused[component] = true;
            sets.Slipping[component] = false;
            return true;
        }

        if (contact >= 0 && Rate.OpeningMm[contact] <= 0 && !ray)
        {
            _contactRefused[contact] = true;
            sets.Closed[contact] = true;
            return true;
        }

        if (component >= 0 || contact >= 0)
        {
            Array.Clear(_refused);
            Array.Clear(_contactRefused);
        }

        return false;
    }

    private void ForgetRefused()
    {
        Array.Clear(_refused);
        Array.Clear(_contactRefused);
        (_joined, _contactJoined) = (-1, -1);
    }

    private void SetUp(double direction, PathSets sets)
    {
        Bearing.Set(_problem, sets.Closed);
        Factor.Set(Bearing, sets);
        Array.Clear(_image);
        if (Bearing.Bears)
        {
            Six.AddProduct(Bearing.Stiffness, _problem.SitePerLoad, _image);
        }

        foreach (int i in Factor.Order)
        {
            _right[i] = direction * (_problem.Drive[i] - Six.Dot(_problem.SiteOf(i), _image));
        }
    }

    // A mechanism of the set that the load drives, in the sense in which it does work.
    private bool FindsRay(double direction)
    {
        for (int place = 0; Factor.Lost > 0 && place < Factor.Order.Length; place++)
        {
            if (Factor.IsDependent(place))
            {
                Factor.NullVector(place, _ray);
                double work = 0, size = 0;
                foreach (int i in Factor.Order)
                {
                    work += direction * _problem.Drive[i] * _ray[i];
                    size += _problem.DriveSize[i] * Math.Abs(_ray[i]);
                }

                if (Math.Abs(work) > DriveShare * size)
                {
                    for (int i = 0; i < _ray.Length; i++)
                    {
                        _ray[i] *= Math.Sign(work);
                    }

                    return true;
                }
            }
        }

        return false;
    }

    // The share of the way to the rates at hand (or along the ray) at which the first variable reaches 0: 1 or infinite when none does.
    private double WayTo(bool ray, PathSets sets)
    {
        double share = ray ? double.PositiveInfinity : 1, least = ray ? PushShare * LargestMove() : 0, leastOpening = ray ? PushShare * Rate.LargestOpeningSize : 0;
        foreach (int i in Factor.Order)
        {
            if (sets.Bound[i] != 0)
            {
                double now = sets.Bound[i] * _now[i], move = Move(now, sets.Bound[i] * Rate.Dislocation[i], ray);
                share = move * _problem.RootOwn[i] < -least ? Math.Min(share, now / -move) : share;
            }
        }

        for (int k = 0; k < sets.Weak.Length; k++)
        {
            if (sets.Weak[k] && !sets.Closed[k])
            {
                double move = Move(_openingNow[k], Rate.OpeningMm[k], ray);
                share = move < -leastOpening ? Math.Min(share, _openingNow[k] / -move) : share;
            }
        }

        return share;
    }

    // Goes that far; variables that reach 0 leave. True when one did.
    private bool Go(double share, bool ray, PathSets sets)
    {
        const double AtZero = 1e-12;
        bool left = false;
        foreach (int i in Factor.Order)
        {
            double move = Move(_now[i], Rate.Dislocation[i], ray), from = _now[i];
            _now[i] += share * move;
            if (sets.Bound[i] != 0 && sets.Bound[i] * move < 0 && sets.Bound[i] * _now[i] <= AtZero * Math.Abs(from))
            {
                _now[i] = 0;
                sets.Slipping[i] = false;
                left = true;
            }
        }

        for (int k = 0; k < sets.Weak.Length; k++)
        {
            if (sets.Weak[k] && !sets.Closed[k])
            {
                double move = Move(_openingNow[k], Rate.OpeningMm[k], ray), from = _openingNow[k];
                _openingNow[k] += share * move;
                if (move < 0 && _openingNow[k] <= AtZero * from)
                {
                    _openingNow[k] = 0;
                    sets.Closed[k] = true;
                    left = true;
                }
            }
        }

        return left;
    }

    // The component that would pass its capacity, or the contact that would pull, by most of its size; true when there is one.
    private bool TryEnter(PathSets sets, bool apply)
    {
        int component = -1, contact = -1;
        double most = 1;
        for (int i = 0; i < sets.Bound.Length; i++)
        {
            double push = sets.Bound[i] * Rate.Force[i] / (PushShare * Rate.ForceSize[i]);
            if (sets.Bound[i] != 0 && !sets.Slipping[i] && !_refused[i] && push > most)
            {
                (component, most) = (i, push);
            }
        }

        for (int k = 0; k < sets.Weak.Length; k++)
        {
            // Openings are of another kind than forces, but any order of joining ends: shares of size will do.
            double push = Rate.OpeningMm[k] / (ContactPushShare * Rate.OpeningSize[k]);
            if (sets.Weak[k] && sets.Closed[k] && !_contactRefused[k] && push > most)
            {
                (component, contact, most) = (-1, k, push);
            }
        }

        if (apply && component >= 0)
        {
            (sets.Slipping[component], _joined) = (true, component);
        }
        else if (apply && contact >= 0)
        {
            (sets.Closed[contact], _contactJoined) = (false, contact);
        }

        return component >= 0 || contact >= 0;
    }

    private double LargestMove()
    {
        double most = 0;
        foreach (int i in Factor.Order)
        {
            most = Math.Max(most, _problem.RootOwn[i] * Math.Abs(Rate.Dislocation[i]));
        }

        return most;
    }

    private static double Move(double now, double to, bool ray) => ray ? to : to - now;
}
