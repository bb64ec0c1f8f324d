namespace Halfpin.Mechanics.Path;

/// <summary>Turns what yields, is stopped and bears into events, against the piece before: what was merely expected in between is none.</summary>
internal sealed class PathChanges(PathProblem problem)
{
    private readonly bool[] _yielded = new bool[problem.Components];
    private readonly bool[] _stopped = new bool[problem.Components];
    private readonly bool[] _bore = new bool[problem.Contacts];

    /// <summary>The unloaded start, where nothing has happened yet.</summary>
    public void Reset(PathSets sets)
    {
        for (int i = 0; i < _yielded.Length; i++)
        {
            _yielded[i] = sets.Free[i];
            _stopped[i] = problem.Capacity[i] == 0 && (sets.AtMost[i] || sets.AtLeast[i]);
        }

        Array.Clear(_bore);
    }

    /// <summary>Records what is other than on the piece before.</summary>
    public void Record(PathSets sets, double loadFactor, PathRecord record)
    {
        for (int i = 0; i < _yielded.Length; i++)
        {
            bool yields = sets.MayYield(i), stopped = (sets.AtMost[i] || sets.AtLeast[i]) && !yields && (_yielded[i] || _stopped[i]);
            if (stopped != _stopped[i])
            {
                // One that slides from its stop when nothing has loaded it yet has never leant on it.
                if (record.PointCount > 1)
                {
                    record.Add(stopped ? PathEventKind.Stop : PathEventKind.Leave, loadFactor, i);
                }
            }
            else if (yields != _yielded[i] && problem.Capacity[i] > 0)
            {
                record.Add(yields ? PathEventKind.Slip : PathEventKind.Stick, loadFactor, i);
            }

            (_yielded[i], _stopped[i]) = (yields, stopped);
        }

        for (int k = 0; k < _bore.Length; k++)
        {
            if (sets.Closed[k] != _bore[k])
            {
                record.Add(sets.Closed[k] ? PathEventKind.Close : PathEventKind.Open, loadFactor, k);
                _bore[k] = sets.Closed[k];
            }
        }
    }
}
