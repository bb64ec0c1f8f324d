namespace Halfpin.Domain.Assessments;

/// <summary>What was found at one of several fractures, all of them open or bearing at the same time.</summary>
public sealed record FractureResult
{
    /// <summary>Middle of its gap.</summary>
    public required double LevelMm { get; init; }

    /// <summary>Load on the proximal end against the relative motion of this fracture's faces.</summary>
    public required FourStiffnesses AtFracture { get; init; }

    /// <summary>What opposite wrenches on its faces meet while all other gaps are open; null beside an intended freedom.</summary>
    public SiteStiffness? SiteStiffness { get; init; }

    /// <summary>Bending stiffness here by direction; null when a freedom lets the frame bend.</summary>
    public BendingRose? BendingRose { get; init; }

    /// <summary>Motion here under the chosen load; null when withheld.</summary>
    public FractureMotion? Motion { get; init; }

    /// <summary>Motion here in the overload case; null when withheld.</summary>
    public FractureMotion? OverloadMotion { get; init; }

    /// <summary>How its ends come to bear on each other.</summary>
    public BoneContact? Contact { get; init; }
}
