using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Placement.Checks;

/// <summary>Good practice in where the parts of a frame stand: every rule, with what would mend it. Holds for frames that cannot be analysed too.</summary>
public static class PlacementChecks
{
    /// <summary>All rules that apply, each once, in the order of the job: bone, soft tissue, rods. On a synthetic bone those of anatomy are left out.</summary>
    public static ImmutableArray<Check> Of(PlacedFrame frame) =>
        [.. OfPins(frame), .. OfRods(frame)];

    /// <summary>The rules that depend on the pins alone.</summary>
    public static ImmutableArray<Check> OfPins(PlacedFrame frame) => [.. CorridorChecks.Of(frame), .. BoneChecks.Of(frame), .. SkinChecks.OfPins(frame)];

    /// <summary>The rules that depend on rods, their clamps and the planes that they make.</summary>
    public static ImmutableArray<Check> OfRods(PlacedFrame frame) => [.. SkinChecks.OfRods(frame), .. RodChecks.Of(frame)];
}
