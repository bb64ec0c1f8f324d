namespace Halfpin.Workbench.Jobs;

/// <summary>How far long work has come.</summary>
public enum JobState
{
    /// <summary>It is being worked on.</summary>
    Running,

    /// <summary>It was asked to stop and has not stopped yet.</summary>
    Stopping,

    /// <summary>It has its result.</summary>
    Done,

    /// <summary>It was stopped, or took too long.</summary>
    Stopped,

    /// <summary>It failed.</summary>
    Failed,
}
