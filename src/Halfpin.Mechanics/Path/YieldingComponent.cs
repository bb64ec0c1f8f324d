using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Path;

/// <summary>What a yielding component limits.</summary>
public enum ComponentKind
{
    /// <summary>A force along a direction; yielding is a slide along it.</summary>
    Force,

    /// <summary>A moment about a direction through a point; yielding is a turn about that axis.</summary>
    Moment,
}

/// <summary>
/// One component of a member's wrench that is elastic up to a capacity of either sign and then perfectly plastic, independently of
/// all other components.
/// </summary>
/// <remarks>
/// The elastic stiffness is that of the member, so the member must resist this component: a part that slides or turns freely gets
/// its tight stiffness and a capacity of 0. The sign is that of the wrench which end b exerts on the member; a dislocation is the
/// motion of end b's side less end a's side that is left when the member is free of force. Between stops a slide is as above; on one
/// it takes any force that presses it there.
/// </remarks>
/// <param name="Member">The member.</param>
/// <param name="Kind">Force or moment.</param>
/// <param name="AtMm">A point of the axis about which a moment is taken; for a force it does not matter.</param>
/// <param name="Direction">Unit vector in the global frame.</param>
/// <param name="Capacity">Largest size, N for a force and N·mm for a moment, not negative.</param>
/// <param name="LeastMm">The stop of a slide behind, 0 or less; a turn has none.</param>
/// <param name="MostMm">The stop of a slide in front, 0 or more; a turn has none.</param>
public readonly record struct YieldingComponent(
    int Member, ComponentKind Kind, Vec3 AtMm, Vec3 Direction, double Capacity, double LeastMm = double.NegativeInfinity, double MostMm = double.PositiveInfinity)
{
    /// <summary>A force component.</summary>
    /// <param name="member">The member.</param>
    /// <param name="direction">Unit vector in the global frame.</param>
    /// <param name="capacityN">Largest size, N.</param>
    public static YieldingComponent Force(int member, Vec3 direction, double capacityN) => new(member, ComponentKind.Force, default, direction, capacityN);

    /// <summary>A slide that runs between stops.</summary>
    /// <param name="member">The member.</param>
    /// <param name="direction">Unit vector in the global frame.</param>
    /// <param name="resistanceN">Force that a run takes, not negative.</param>
    /// <param name="leastMm">The stop behind, 0 or less.</param>
    /// <param name="mostMm">The stop in front, 0 or more.</param>
    public static YieldingComponent Slide(int member, Vec3 direction, double resistanceN, double leastMm, double mostMm) =>
        new(member, ComponentKind.Force, default, direction, resistanceN, leastMm, mostMm);

    /// <summary>A moment component about an axis through a point.</summary>
    /// <param name="member">The member.</param>
    /// <param name="atMm">A point of the axis.</param>
    /// <param name="direction">Unit vector in the global frame.</param>
    /// <param name="capacityNmm">Largest size, N·mm.</param>
    public static YieldingComponent Moment(int member, Vec3 atMm, Vec3 direction, double capacityNmm) => new(member, ComponentKind.Moment, atMm, direction, capacityNmm);

    /// <summary>The unit dislocation as a motion at a member's point; its work with the member's wrench there is the component's value.</summary>
    internal Motion DislocationAt(Vec3 pointMm) => Kind == ComponentKind.Force
        ? new(Direction, default)
        : new(Direction.Cross(pointMm - AtMm), Direction);
}
