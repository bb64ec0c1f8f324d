using System.Collections.Concurrent;
using System.Collections.Immutable;

namespace Halfpin.Search;

/// <summary>Remembers what was judged, and forgets all of it when that grows too much, so that an answer never depends on it. Safe for threads.</summary>
/// <param name="most">The most that is remembered; threads at work together may go beyond it by one each.</param>
internal sealed class RuleMemory(int most)
{
    private readonly ConcurrentDictionary<object, ImmutableArray<string>> _known = new();

    // Counting a concurrent dictionary locks all of it.
    private int _added;

    /// <summary>How much is remembered.</summary>
    public int Count => _known.Count;

    /// <summary>What was judged of a set of choices, or is judged now.</summary>
    public ImmutableArray<string> Of(object choices, Func<ImmutableArray<string>> judge)
    {
        if (_known.TryGetValue(choices, out ImmutableArray<string> known))
        {
            return known;
        }

        if (Interlocked.Increment(ref _added) > most)
        {
            _known.Clear();
            Interlocked.Exchange(ref _added, 1);
        }

        return _known[choices] = judge();
    }
}
