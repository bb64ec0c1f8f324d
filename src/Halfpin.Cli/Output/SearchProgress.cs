using System.Diagnostics;
using System.Globalization;

namespace Halfpin.Cli.Output;

/// <summary>How far a search has come and about how long it will still take, now and then on standard error.</summary>
internal sealed class SearchProgress(long total, TextWriter to)
{
    private static readonly TimeSpan _between = TimeSpan.FromSeconds(2);

    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private readonly Lock _lock = new();
    private TimeSpan _told = TimeSpan.Zero;

    /// <summary>Tells the candidates done so far; safe from several threads.</summary>
    public void Tell(long done)
    {
        lock (_lock)
        {
            TimeSpan now = _watch.Elapsed;
            if (now - _told < _between || done <= 0)
            {
                return;
            }

            _told = now;
            double left = now.TotalSeconds * (total - done) / done;
            to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{done:#,0} of {total:#,0} candidates, about {Math.Ceiling(left):0} s left"));
        }
    }
}
