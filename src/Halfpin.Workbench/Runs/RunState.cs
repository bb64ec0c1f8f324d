namespace Halfpin.Workbench.Runs;

/// <summary>How far a run is.</summary>
public enum RunState
{
    /// <summary>Nothing was started.</summary>
    Idle,

    /// <summary>It works.</summary>
    Running,

    /// <summary>It was asked to stop and has not yet.</summary>
    Stopping,

    /// <summary>It came to its end; the result is there.</summary>
    Done,

    /// <summary>It was stopped; the result, if any, is that of the run before.</summary>
    Stopped,

    /// <summary>It broke off; the problem says why.</summary>
    Failed,
}
