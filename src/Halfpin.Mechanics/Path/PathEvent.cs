namespace Halfpin.Mechanics.Path;

/// <summary>What happens at a point of a load path.</summary>
public enum PathEventKind
{
    /// <summary>A component reaches its capacity and begins to yield; the index is the component's.</summary>
    Slip,

    /// <summary>A yielding component holds again; the index is the component's.</summary>
    Stick,

    /// <summary>A contact begins to bear; the index is the contact's.</summary>
    Close,

    /// <summary>A contact stops bearing; the index is the contact's.</summary>
    Open,

    /// <summary>The frame gives way under a constant load until something stops it; the index is that of the component that moves most.</summary>
    Plateau,

    /// <summary>A slide reaches its stop and is held there; the index is the component's.</summary>
    Stop,

    /// <summary>A slide leaves its stop; the index is the component's.</summary>
    Leave,
}

/// <summary>An event of a load path.</summary>
/// <param name="LoadFactor">The load factor at which it happens.</param>
/// <param name="Kind">What happens.</param>
/// <param name="Index">Component or contact.</param>
/// <param name="Point">The point of the path at which it happens.</param>
public readonly record struct PathEvent(double LoadFactor, PathEventKind Kind, int Index, int Point);

/// <summary>How a load path ended.</summary>
public enum PathStatus
{
    /// <summary>The whole load was applied, and taken off again where asked for.</summary>
    Complete,

    /// <summary>The frame gives way without end under the load reached; more cannot be carried.</summary>
    GivesWay,

    /// <summary>The path could not be followed further or failed a check; <see cref="PathFault"/> says why. What comes after is unknown.</summary>
    NotConverged,
}

/// <summary>Why a path was not followed to its end.</summary>
public enum PathFault
{
    /// <summary>It was, or the frame gives way.</summary>
    None,

    /// <summary>More points than the workspace has room for.</summary>
    TooManyEvents,

    /// <summary>No consistent set of yielding components and bearing contacts was found.</summary>
    RatesNotFound,

    /// <summary>A component's force passed its capacity, or left it while the component yielded.</summary>
    CapacityExceeded,

    /// <summary>A contact pulled, or faces passed through each other.</summary>
    ContactViolated,

    /// <summary>Work done is not what is stored and dissipated.</summary>
    EnergyUnbalanced,
}
