using System.Collections.Immutable;

namespace Halfpin.Stability.Checks;

/// <summary>The words of all rules of an assessment.</summary>
public static class CheckNames
{
    /// <summary>All of them, mechanics before placement.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        "range", "overload-range", "pin-yield", "rod-yield", "clamp-slip", "bone-bearing", "pin-fatigue", "no-fatigue-limit", "full-weight",
        "alignment", "axial-motion", "gap-strain", "shear", "weak-direction", "thread-core", "unclamped-pin", "one-pin-fragment",
        "corridor", "way-in", "joint", "pin-width", "pin-to-fracture", "pin-spacing", "pin-spread", "pin-count", "thread", "tip", "image",
        "skin-room", "wound", "wound-access", "incision", "one-plane", "plane-angle", "rod-ends", "rod-joint", "other-leg",
    ];
}
