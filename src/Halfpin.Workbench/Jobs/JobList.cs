using System.Security.Cryptography;

namespace Halfpin.Workbench.Jobs;

/// <summary>
/// The long work of this run of the program: a few at once, each on a thread of its own; what has ended is kept until newer work takes its
/// place. May be used from several threads.
/// </summary>
public sealed class JobList : IDisposable
{
    /// <summary>Most at once, so that the machine stays usable.</summary>
    public const int MostAtOnce = 2;

    /// <summary>Most that are remembered, running ones among them.</summary>
    public const int MostKept = 16;

    private static readonly TimeSpan _usualLongest = TimeSpan.FromHours(1);

    private readonly Lock _gate = new();
    private readonly TimeProvider _time;
    private readonly TimeSpan _longest;
    private readonly List<Job> _jobs = [];
    private bool _closed;

    /// <summary>An empty list.</summary>
    /// <param name="time">The clock.</param>
    /// <param name="longest">The longest time of one; an hour when null.</param>
    public JobList(TimeProvider time, TimeSpan? longest = null) => (_time, _longest) = (time, longest ?? _usualLongest);

    /// <summary>Begins long work; null while as many run as may.</summary>
    /// <param name="kind">What it is.</param>
    /// <param name="total">Pieces there are, as far as known.</param>
    /// <param name="work">Does it and gives the result; is told when to stop, which it answers with an exception.</param>
    public Job? Begin(string kind, long total, Func<JobProgress, CancellationToken, object> work)
    {
        Job job = new(RandomNumberGenerator.GetHexString(16, lowercase: true), kind, total, _longest, _time);
        lock (_gate)
        {
            if (_closed || _jobs.Count(j => !j.Status.IsEnded) >= MostAtOnce)
            {
                return null;
            }

            _jobs.Add(job);
            if (_jobs.Count > MostKept)
            {
                _jobs.Remove(_jobs.First(j => j.Status.IsEnded));
            }
        }

        new Thread(() => job.Run(work)) { IsBackground = true, Name = $"Halfpin {kind}" }.Start();
        return job;
    }

    /// <summary>Finds one of a kind; null when there is none, or none any more.</summary>
    public Job? Find(string kind, string id)
    {
        lock (_gate)
        {
            return _jobs.Find(j => j.Id == id && j.Kind == kind);
        }
    }

    /// <summary>Stops it if it runs, forgets it if it has ended.</summary>
    /// <returns>False when there is none.</returns>
    public bool Remove(string kind, string id)
    {
        Job? job = Find(kind, id);
        if (job is null)
        {
            return false;
        }

        if (job.Status.IsEnded)
        {
            lock (_gate)
            {
                _jobs.Remove(job);
            }
        }
        else
        {
            job.Stop();
        }

        return true;
    }

    /// <summary>Stops all and begins no more.</summary>
    public void Dispose()
    {
        Job[] running;
        lock (_gate)
        {
            _closed = true;
            running = [.. _jobs];
        }

        foreach (Job job in running)
        {
            job.Stop();
        }
    }
}
