namespace Halfpin.Search;

/// <summary>Frames none of which dominates another. The result does not depend on the order in which frames come.</summary>
internal sealed class ParetoFront
{
    private readonly List<Found> _frames = [];

    public IReadOnlyList<Found> Frames => _frames;

    /// <summary>Takes a frame in unless one of those kept dominates it; drops those that it dominates.</summary>
    public void Offer(Found frame)
    {
        foreach (Found kept in _frames)
        {
            if (kept.Dominates(frame))
            {
                return;
            }
        }

        _frames.RemoveAll(frame.Dominates);
        _frames.Add(frame);
    }
}
