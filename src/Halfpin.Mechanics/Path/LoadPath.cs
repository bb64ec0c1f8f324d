using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Path;

/// <summary>
/// The way of a frame under one load that grows from nothing and, if wanted, is taken off again: chosen components of its members are
/// elastic–perfectly plastic, slides among them between stops if they have any, and chosen points of its sites bear on each other only
/// under pressure. All else is linear, small displacements.
/// </summary>
/// <remarks>
/// The frame is factorised and solved once, elastic with every component holding (<see cref="DislocationResponse"/>). What remains
/// is a small problem in the dislocations p and the contacts' wrench F: component forces Q = hλ − Mp + DᵀF, |Q| ≤ capacity, p changing
/// only at capacity in the sense of Q; site motion d = tλ + Dp + CF, contact forces κ⟨−gap − b·d⟩. For a given set of yielding
/// components and bearing contacts its rates are constant, so the path is exact from one event to the next: a component reaches its
/// capacity, a contact closes or opens. After each event, and where the load turns, the rates are found anew, which is also where a
/// component holds again. State is computed afresh from λ and p at every event, so contact forces do not drift, and yielding
/// components that rounding took off their capacity are brought back to it (<see cref="PathCorrection"/>).
/// <para>
/// Where the rates have no finite answer the load stays and the frame moves along a mechanism, a motion free of stress that the load
/// drives, to the next contact or stop; without one it gives way. A free mechanism that the load does not drive is held.
/// A plateau is taken as wholly free of stress. Where the mechanism keeps a trace of stiffness and runs so far that the trace takes a
/// component past its capacity or a contact past its place, the run is made once more under a growing load with that trace as it is.
/// </para>
/// <para>
/// Termination. The rates at a point are those of a convex problem and are found in finitely many turns (see the remarks of the rate
/// problem), ties included: everything that is at its limit takes part at once, in no order. On the straight piece that follows, what
/// yields keeps yielding and what bears keeps bearing, and everything that is not at a limit is away from it by more than rounding;
/// so a piece is longer than nothing and the same rates are never asked for twice at one point. Stresses being unique, a load that
/// only grows or only falls passes a limit of each kind finitely often (a sweeping process in a polyhedron under piecewise linear
/// input has finitely many pieces; MEMORY, Krejčí), for which no useful bound is known: points are counted, and a path that needs
/// more than there is room for ends as <see cref="PathStatus.NotConverged"/> with what it has. On a plateau the load's work grows
/// strictly from contact to contact, so none comes back.
/// </para>
/// <para>
/// Checks at every point: forces within capacity and at it where yielding (1e-6 of what they are the difference of), no contact
/// pulling or passed (1e-8 of the motion), work = stored + dissipated (1e-8 of the largest so far). A point that fails ends the path before it.
/// Components of capacity 0 raise no slip or stick events. The dislocations are unique only as far as stresses and motions are: of
/// two components in line that reach the same capacity, one moves.
/// A workspace: nothing is allocated after construction; points are views into it. N, mm, rad, N·mm.
/// </para>
/// </remarks>
public sealed class LoadPath
{
    // A slide nearer to its stop than this share of its way is on it.
    private const double OnStop = 1e-12;

    // An event as near the end of a leg as this share of the whole load is at the end: rounding cannot tell them apart.
    private const double AtTarget = 1e-12;
    private const double ForceCheck = 1e-6;
    private const double ContactCheck = 1e-8;
    private const double EnergyCheck = 1e-8;

    private readonly PathProblem _problem;
    private readonly PathState _state;
    private readonly PathState _before;
    private readonly PathSets _sets;
    private readonly RateProblem _rates;
    private readonly PathRecord _record;
    private readonly SiteBearing _bearing;
    private readonly PathCorrection _correction;
    private readonly PathChanges _changes;
    private readonly PathMechanism _mechanism;
    private DislocationResponse? _response;

    /// <summary>A workspace for a number of components and contacts.</summary>
    /// <param name="components">Yielding components.</param>
    /// <param name="contacts">Contact points.</param>
    /// <param name="sites">Sites.</param>
    /// <param name="maxPoints">Most points of a path; 0 for 64 + 8 for each component and contact.</param>
    public LoadPath(int components, int contacts, int sites = 1, int maxPoints = 0)
    {
        _problem = new(components, contacts, sites);
        _bearing = new(_problem.SiteFreedoms);
        _state = new(_problem);
        _before = new(_problem);
        _sets = new(_problem);
        _rates = new(_problem);
        _record = new(_problem, maxPoints > 0 ? maxPoints : 64 + (8 * (components + contacts)));
        _correction = new(_problem);
        _changes = new(_problem);
        _mechanism = new(_problem);
    }

    /// <summary>How the path ended.</summary>
    public PathStatus Status { get; private set; }

    /// <summary>Why it did not go on, when the status is <see cref="PathStatus.NotConverged"/>.</summary>
    public PathFault Fault { get; private set; }

    /// <summary>Number of points. The first is the unloaded start; neighbours are joined by straight pieces.</summary>
    public int PointCount => _record.PointCount;

    /// <summary>The last point on the way up.</summary>
    public int TopPoint { get; private set; }

    /// <summary>The largest load factor reached.</summary>
    public double ReachedLoadFactor => _record.Point(TopPoint).LoadFactor;

    /// <summary>All events in their order.</summary>
    public ReadOnlySpan<PathEvent> Events => _record.Events;

    /// <summary>The components that move when the frame gives way without end; else none.</summary>
    public ReadOnlySpan<int> GivingComponents => _mechanism.Components;

    /// <summary>Dislocation of each component in the motion in which the frame gives way, to an arbitrary scale; else zeros.</summary>
    public ReadOnlySpan<double> Mechanism => _mechanism.Dislocations;

    /// <summary>Motion of the first site left when the load is off again; null unless the path was run there and back to its end.</summary>
    public Motion? PermanentSet => PermanentSetAt(0);

    /// <summary>A point of the path.</summary>
    public PathPoint this[int point] => _record.Point(point);

    /// <summary>Follows the path.</summary>
    /// <param name="response">A run response of the frame; it must stay as it is while wrenches are read from this path.</param>
    /// <param name="contacts">As many as the workspace was made for.</param>
    /// <param name="load">The wrench at the loaded end for a load factor of 1, about the point of the response.</param>
    /// <param name="targetLoadFactor">The largest load factor, more than 0.</param>
    /// <param name="andBack">Whether the load is taken off again.</param>
    /// <exception cref="ArgumentException">Numbers of components, sites or contacts differ from the workspace's, or the target is not positive.</exception>
    public PathStatus Run(DislocationResponse response, ReadOnlySpan<ContactPoint> contacts, in Wrench load, double targetLoadFactor, bool andBack)
    {
        if (response.Components != _problem.Components || response.SiteFreedoms != _problem.SiteFreedoms || contacts.Length != _problem.Contacts || !(targetLoadFactor > 0))
        {
            throw new ArgumentException(
                $"{response.Components} components, {contacts.Length} contacts and target {targetLoadFactor} for a workspace of {_problem.Components} and {_problem.Contacts}.", nameof(response));
        }

        _response = response;
        _problem.Set(response, contacts, load);
        _state.Reset(targetLoadFactor);
        _sets.Reset();
        _record.Clear(targetLoadFactor);
        _mechanism.Clear();
        (Fault, TopPoint) = (PathFault.None, 0);
        _bearing.Set(_problem, _sets.Closed);
        _state.Evaluate(_bearing);
        _record.Add(_state);
        _sets.Classify(_state, PathStep.None);
        _changes.Reset(_sets);

        Status = Leg(targetLoadFactor, 1);
        TopPoint = _record.PointCount - 1;
        if (andBack && Status == PathStatus.Complete)
        {
            Array.Clear(_sets.Slipping);
            Status = Leg(0, -1);
        }

        return Status;
    }

    /// <summary>Motion of a site left when the load is off again; null unless the path was run there and back to its end.</summary>
    public Motion? PermanentSetAt(int site) => Status == PathStatus.Complete && TopPoint < PointCount - 1 ? _record.Point(PointCount - 1).SiteMotionAt(site) : null;

    /// <summary>Where on the way up a load is first reached: 2.25 is a quarter of the way from point 2 to point 3. Null when it is not.</summary>
    public double? PositionOf(double loadFactor)
    {
        for (int i = 1; i <= TopPoint; i++)
        {
            double from = _record.Numbers(i - 1)[0], to = _record.Numbers(i)[0];
            if (from <= loadFactor && loadFactor <= to)
            {
                return i - 1 + (to > from ? (loadFactor - from) / (to - from) : 0);
            }
        }

        return null;
    }

    /// <summary>The wrench on a member from its end b at its point P, somewhere on the path.</summary>
    /// <param name="member">The member.</param>
    /// <param name="position">A point's number, or a place between two (see <see cref="PositionOf"/>).</param>
    public Wrench WrenchOn(int member, double position)
    {
        ReadOnlySpan<double> numbers = _record.NumbersAt(position, stackalloc double[_record.Stride]);
        Span<double> load = stackalloc double[Six.Count];
        return _response!.WrenchOn(member, LoadAt(numbers, load), ContactWrenchOf(numbers), DislocationsOf(numbers));
    }

    /// <summary>The motion of a node somewhere on the path.</summary>
    /// <param name="node">The node.</param>
    /// <param name="position">A point's number, or a place between two (see <see cref="PositionOf"/>).</param>
    public Motion MotionOf(int node, double position)
    {
        ReadOnlySpan<double> numbers = _record.NumbersAt(position, stackalloc double[_record.Stride]);
        Span<double> load = stackalloc double[Six.Count];
        return _response!.MotionOf(node, LoadAt(numbers, load), ContactWrenchOf(numbers), DislocationsOf(numbers));
    }

    private ReadOnlySpan<double> ContactWrenchOf(ReadOnlySpan<double> numbers) => numbers.Slice(_record.ContactWrenchAt, _problem.SiteFreedoms);

    private ReadOnlySpan<double> DislocationsOf(ReadOnlySpan<double> numbers) => numbers.Slice(_record.ComponentsAt, _problem.Components);

    private ReadOnlySpan<double> LoadAt(ReadOnlySpan<double> numbers, Span<double> load)
    {
        load.Clear();
        Six.Add(numbers[0], _problem.Load, load);
        return load;
    }

    private PathStatus Leg(double target, double direction)
    {
        while (_state.LoadFactor != target)
        {
            if (!_rates.Solve(direction, _sets))
            {
                return Stop(PathFault.RatesNotFound);
            }

            double from = _state.LoadFactor;
            PathStep step = _rates.IsPlateau
                ? PathStep.OnPlateau(_problem, _sets, _state, _rates.Rate)
                : PathStep.UnderLoad(direction * (target - from), AtTarget * _state.WholeLoadFactor, _problem, _sets, _state, _rates.Rate);
            bool givesWay = double.IsPositiveInfinity(step.Length), isFull = _record.PointCount == _record.MaxPoints;
            PathFault fault = givesWay ? PathFault.None : isFull ? PathFault.TooManyEvents : Take(step, target);
            if (fault is not (PathFault.None or PathFault.TooManyEvents) && _rates.IsPlateau && !_rates.Factor.KeepsTraces)
            {
                // So far a run that the trace of stiffness left in the motion counts: once more, with it and under a growing load.
                _state.CopyFrom(_before);
                _rates.Factor.KeepsTraces = true;
                continue;
            }

            _rates.Factor.KeepsTraces = false;
            _changes.Record(_sets, from, _record);
            if (_rates.IsPlateau)
            {
                int leader = _mechanism.Take(_rates.Rate.Dislocation);
                if (givesWay)
                {
                    return PathStatus.GivesWay;
                }

                _record.Add(PathEventKind.Plateau, from, leader);
                _mechanism.Clear();
            }

            if (fault != PathFault.None)
            {
                return Stop(fault);
            }

            _record.Add(_state);
            if (_record.EnergyGap > EnergyCheck)
            {
                _record.DropLast();
                return Stop(PathFault.EnergyUnbalanced);
            }

            _sets.Classify(_state, step);
        }

        return PathStatus.Complete;
    }

    private PathStatus Stop(PathFault fault)
    {
        Fault = fault;
        return PathStatus.NotConverged;
    }

    // Goes the step. Where the correction of forces carries a nearly free body off the contact that it came to, the step as it was is
    // the better one.
    private PathFault Take(PathStep step, double target)
    {
        _before.CopyFrom(_state);
        Advance(step, target, corrects: true);
        PathFault fault = Check();
        if (fault != PathFault.None)
        {
            _state.CopyFrom(_before);
            Advance(step, target, corrects: false);
            fault = Check() == PathFault.None ? PathFault.None : fault;
        }

        return fault;
    }

    private void Advance(PathStep step, double target, bool corrects)
    {
        bool whole = step is { Component: < 0, Contact: < 0 };
        _state.LoadFactor = whole ? target : _state.LoadFactor + (step.Length * _rates.Rate.LoadFactor);
        for (int i = 0; i < _problem.Components; i++)
        {
            _state.Dislocation[i] += step.Length * _rates.Rate.Dislocation[i];
        }

        _state.Evaluate(_rates.Bearing);
        if (corrects)
        {
            _correction.Apply(_state, _before, _sets, _rates);
        }

        if (PutOnStops(step))
        {
            _state.Evaluate(_rates.Bearing);
        }
    }

    // Slides that have run to a stop are put on it to the last digit; true when that moved one.
    private bool PutOnStops(PathStep step)
    {
        bool moved = false;
        foreach (int i in _rates.Factor.Order)
        {
            double now = _state.Dislocation[i], way = step.Length * _rates.Rate.Dislocation[i], stop = way > 0 ? _problem.Most[i] : _problem.Least[i];
            bool arrives = (step.AtStop && i == step.Component) || (way != 0 && Math.Abs(stop - now) <= OnStop * (Math.Abs(now) + Math.Abs(way)));
            double at = arrives ? stop : Math.Clamp(now, _problem.Least[i], _problem.Most[i]);
            moved |= at != now;
            _state.Dislocation[i] = at;
        }

        return moved;
    }

    private PathFault Check()
    {
        for (int i = 0; i < _problem.Components; i++)
        {
            double allowed = ForceCheck * (_problem.Capacity[i] + _state.ForceSize[i]);
            double beyond = _sets.MayYield(i)
                ? Math.Abs(_state.Force[i] - (_sets.Bound[i] * _problem.Capacity[i]))
                : Math.Abs(_state.Force[i]) - _problem.Capacity[i];
            if (!(beyond <= allowed) && (_sets.MayYield(i) || !_sets.IsStopped(i, _state.Force[i])))
            {
                return PathFault.CapacityExceeded;
            }
        }

        for (int k = 0; k < _problem.Contacts; k++)
        {
            double beyond = _sets.Closed[k] ? _state.OpeningMm[k] : -_state.OpeningMm[k];
            if (!(beyond <= ContactCheck * _state.OpeningSize[k]))
            {
                return PathFault.ContactViolated;
            }
        }

        return PathFault.None;
    }
}
