using System.Diagnostics;
using System.Globalization;

namespace Halfpin.Cli;

/// <summary>Tells on standard error how far a study is and what time it has left: a line when a tenth is done, none for a study of a second or two.</summary>
internal sealed class StudyProgress(Terminal terminal)
{
    private static readonly TimeSpan _quiet = TimeSpan.FromSeconds(2);

    private readonly Stopwatch _clock = Stopwatch.StartNew();
    private long _first = -1;
    private long _tenth;

    public void Tell(long done, long of)
    {
        _first = _first < 0 ? done : _first;
        long tenth = 10 * done / Math.Max(1, of);
        if (_clock.Elapsed < _quiet || tenth == _tenth || done <= _first)
        {
            return;
        }

        _tenth = tenth;
        TimeSpan left = _clock.Elapsed * ((double)(of - done) / (done - _first));
        terminal.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{done} of {of} evaluations, {10 * tenth} %, about {Math.Ceiling(left.TotalSeconds):0} s left."));
    }
}
