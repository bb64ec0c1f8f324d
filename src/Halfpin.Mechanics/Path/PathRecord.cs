namespace Halfpin.Mechanics.Path;

/// <summary>The memory of a path: its points with their energies, and its events.</summary>
internal sealed class PathRecord
{
    public const int EndAt = 4;
    public const int SiteAt = EndAt + Six.Count;

    private readonly PathProblem _problem;
    private readonly double[] _points;
    private readonly PathEvent[] _events;
    private double _largestEnergy;

    public PathRecord(PathProblem problem, int maxPoints)
    {
        _problem = problem;
        MaxPoints = maxPoints;
        ContactWrenchAt = SiteAt + problem.SiteFreedoms;
        ComponentsAt = ContactWrenchAt + problem.SiteFreedoms;
        Stride = ComponentsAt + (2 * problem.Components) + problem.Contacts;
        _points = new double[Stride * maxPoints];

        // Between two points each component and each contact changes at most once; a plateau adds one.
        _events = new PathEvent[maxPoints * (problem.Components + problem.Contacts + 1)];
    }

    public int ContactWrenchAt { get; }

    public int ComponentsAt { get; }

    /// <summary>Numbers of a point.</summary>
    public int Stride { get; }

    public int MaxPoints { get; }

    public int PointCount { get; private set; }

    public int EventCount { get; private set; }

    public ReadOnlySpan<PathEvent> Events => _events.AsSpan(0, EventCount);

    /// <summary>Energy put in less stored less dissipated at the last point, as a share of the largest that it was the difference of so far.</summary>
    public double EnergyGap { get; private set; }

    public PathPoint Point(int i) => new(Numbers(i), _problem.SiteFreedoms, _problem.Components, _problem.Contacts);

    public Span<double> Numbers(int i) => _points.AsSpan(Stride * i, Stride);

    /// <summary>The numbers at a point or between two, where all but the energies is linear.</summary>
    /// <param name="position">A point's number, or a place between two.</param>
    /// <param name="at">Where to write them, <see cref="Stride"/> long.</param>
    public ReadOnlySpan<double> NumbersAt(double position, Span<double> at)
    {
        int before = Math.Clamp((int)position, 0, PointCount - 1), after = Math.Min(before + 1, PointCount - 1);
        double share = Math.Clamp(position - before, 0, 1);
        ReadOnlySpan<double> from = Numbers(before), to = Numbers(after);
        for (int i = 0; i < at.Length; i++)
        {
            at[i] = ((1 - share) * from[i]) + (share * to[i]);
        }

        return at;
    }

    /// <summary>Forgets everything.</summary>
    /// <param name="target">The largest load factor to come: the energy check is not finer than the elastic work under it allows.</param>
    public void Clear(double target) =>
        (PointCount, EventCount, EnergyGap, _largestEnergy) = (0, 0, 0, target * target * Six.DotOfLengths(_problem.Load, _problem.EndPerLoad));

    public void Add(PathEventKind kind, double loadFactor, int index) => _events[EventCount++] = new(loadFactor, kind, index, PointCount - 1);

    /// <summary>Takes the last point away again.</summary>
    public void DropLast() => PointCount--;

    /// <summary>Adds a point and adds up energies since the one before.</summary>
    public void Add(PathState state)
    {
        Span<double> to = Numbers(PointCount);
        to[0] = state.LoadFactor;
        state.SiteMotion.CopyTo(to[SiteAt..]);
        state.ContactWrench.CopyTo(to[ContactWrenchAt..]);
        WriteEnd(state, to.Slice(EndAt, Six.Count));
        state.Dislocation.CopyTo(to[ComponentsAt..]);
        state.Force.CopyTo(to[(ComponentsAt + _problem.Components)..]);
        Span<double> contacts = to[(ComponentsAt + (2 * _problem.Components))..];
        for (int k = 0; k < contacts.Length; k++)
        {
            contacts[k] = Math.Max(0, -state.OpeningMm[k] * _problem.ContactNPerMm[k]);
        }

        WriteEnergies(state, to);
        PointCount++;
    }

    private void WriteEnd(PathState state, Span<double> end)
    {
        end.Clear();
        Six.Add(state.LoadFactor, _problem.EndPerLoad, end);
        Six.AddProduct(_problem.SiteToEnd, state.ContactWrench, end);
        for (int i = 0; i < _problem.Components; i++)
        {
            Six.Add(state.Dislocation[i], _problem.EndOf(i), end);
        }
    }

    // Stored: Clapeyron's theorem for the frame under load, contact wrench and dislocations, and the contacts' own compression.
    // Work and dissipation: forces and motions are linear between two points, so the trapezium is exact.
    private void WriteEnergies(PathState state, Span<double> to)
    {
        ReadOnlySpan<double> before = PointCount > 0 ? Numbers(PointCount - 1) : default;
        double way = Six.Dot(_problem.Load, to.Slice(EndAt, Six.Count));
        double work = 0, dissipated = 0, stored = (state.LoadFactor * way) + Six.Dot(state.ContactWrench, state.SiteMotion);
        double size = Math.Abs(state.LoadFactor * way) + Six.DotOfSizes(state.ContactWrench, state.SiteMotion);
        for (int i = 0; i < _problem.Components; i++)
        {
            stored -= state.Force[i] * state.Dislocation[i];
            size += state.ForceSize[i] * Math.Abs(state.Dislocation[i]);
            if (!before.IsEmpty)
            {
                double force = (state.Force[i] + before[ComponentsAt + _problem.Components + i]) / 2;
                dissipated += force * (state.Dislocation[i] - before[ComponentsAt + i]);
            }
        }

        for (int k = 0; k < _problem.Contacts; k++)
        {
            double compression = Math.Min(0, state.OpeningMm[k]);
            stored += _problem.ContactNPerMm[k] * compression * compression;
        }

        if (!before.IsEmpty)
        {
            double wayBefore = Six.Dot(_problem.Load, before.Slice(EndAt, Six.Count));
            work = before[1] + ((state.LoadFactor + before[0]) / 2 * (way - wayBefore));
            dissipated += before[3];
        }

        (to[1], to[2], to[3]) = (work, stored / 2, dissipated);
        _largestEnergy = Math.Max(_largestEnergy, size + Math.Abs(work) + Math.Abs(dissipated));
        EnergyGap = _largestEnergy > 0 ? Math.Abs(work - (stored / 2) - dissipated) / _largestEnergy : 0;
    }
}
