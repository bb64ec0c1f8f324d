namespace Halfpin.Mechanics.Path;

/// <summary>Brings yielding components that rounding, or a trace of stiffness, took off their capacity back to it.</summary>
/// <remarks>
/// None goes back behind where the piece began. On a run under constant load a trace of stiffness can unload one that has no part in the
/// run; moving it back until it is at its capacity again would have it yield against its own force, which creates energy. So does rounding
/// in the run itself, of which the rates allow some. It stays where it was, off its capacity by that trace, and the others are corrected
/// with it held.
/// </remarks>
internal sealed class PathCorrection(PathProblem problem)
{
    // Not corrected below this share of what a force is the difference of: in a nearly free motion the least of forces would move the
    // component away from where contacts were found.
    private const double Least = 1e-10;

    private readonly double[] _excess = new double[problem.Components];
    private readonly double[] _correction = new double[problem.Components];
    private readonly bool[] _slipping = new bool[problem.Components];

    /// <summary>Corrects the dislocations at the end of a piece; sets and factor are left as they were.</summary>
    /// <param name="state">The end of the piece.</param>
    /// <param name="before">Its beginning.</param>
    /// <param name="sets">What yields on it.</param>
    /// <param name="rates">Its rates.</param>
    public void Apply(PathState state, PathState before, PathSets sets, RateProblem rates)
    {
        sets.Slipping.CopyTo(_slipping, 0);
        Array.Clear(_correction);
        bool anyHeld = HoldThoseGoingBack(state, before, sets, rates), isDone = false;
        while (!isDone && HasExcess(state, sets, rates.Factor))
        {
            // Each turn but the last takes a component out.
            rates.Factor.Solve(_excess, _correction);
            isDone = !HoldThoseGoingBack(state, before, sets, rates);
            anyHeld |= !isDone;
            if (isDone)
            {
                Add(state, rates.Bearing);
            }
        }

        if (anyHeld)
        {
            _slipping.CopyTo(sets.Slipping, 0);
            rates.Factor.Set(rates.Bearing, sets);
        }
    }

    private void Add(PathState state, SiteBearing bearing)
    {
        for (int i = 0; i < problem.Components; i++)
        {
            state.Dislocation[i] += _correction[i];
        }

        state.Evaluate(bearing);
    }

    // How far the yielding components are off their capacity; true when that is more than rounding leaves.
    private bool HasExcess(PathState state, PathSets sets, ActiveFactor factor)
    {
        bool has = false;
        Array.Clear(_excess);
        foreach (int i in factor.Order)
        {
            _excess[i] = state.Force[i] - (sets.Bound[i] * problem.Capacity[i]);
            has |= Math.Abs(_excess[i]) > Least * (problem.Capacity[i] + state.ForceSize[i]);
        }

        return has;
    }

    // Takes those out of the set that would end behind where they began; true when there are any.
    private bool HoldThoseGoingBack(PathState state, PathState before, PathSets sets, RateProblem rates)
    {
        bool any = false;
        foreach (int i in rates.Factor.Order)
        {
            if (sets.Slipping[i] && sets.Bound[i] * (state.Dislocation[i] + _correction[i] - before.Dislocation[i]) < 0)
            {
                state.Dislocation[i] = before.Dislocation[i];
                sets.Slipping[i] = false;
                any = true;
            }
        }

        if (any)
        {
            rates.Factor.Set(rates.Bearing, sets);
            state.Evaluate(rates.Bearing);
        }

        return any;
    }
}
