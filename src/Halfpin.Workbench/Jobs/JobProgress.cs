namespace Halfpin.Workbench.Jobs;

/// <summary>Where long work tells how far it has come. May be used from several threads.</summary>
public sealed class JobProgress
{
    private readonly Job _job;

    internal JobProgress(Job job) => _job = job;

    /// <summary>Tells how many pieces are done, and of how many.</summary>
    public void Tell(long done, long total) => _job.Progress(done, total);
}
