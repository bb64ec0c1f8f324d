namespace Halfpin.Mechanics.Contact;

/// <summary>What limits a slide: a constant resistance against any run, and stops.</summary>
/// <param name="ResistanceN">Force that a run takes, not negative.</param>
/// <param name="LeastMm">The stop behind, 0 or less.</param>
/// <param name="MostMm">The stop in front, 0 or more.</param>
public readonly record struct SlideLaw(double ResistanceN, double LeastMm, double MostMm);

/// <summary>What a limited slide does.</summary>
internal enum SlideState
{
    /// <summary>It has not run: its force is within the resistance.</summary>
    Stuck,

    /// <summary>It runs forward against its resistance.</summary>
    Forward,

    /// <summary>It runs backward against its resistance.</summary>
    Backward,

    /// <summary>It bears on the stop in front.</summary>
    AtMost,

    /// <summary>It bears on the stop behind.</summary>
    AtLeast,
}
