namespace Halfpin.Workbench.Answers;

/// <summary>The rules by short names for people, where a table has no room for what they found.</summary>
public static class CheckWords
{
    private static readonly Dictionary<string, string> _words = new()
    {
        ["range"] = "Answer at the chosen load",
        ["overload-range"] = "Answer in the overload",
        ["pin-yield"] = "Pins below yield",
        ["rod-yield"] = "Rods within strength",
        ["clamp-slip"] = "Clamps hold",
        ["bone-bearing"] = "Bone bears the pins",
        ["pin-fatigue"] = "Pins outlast the steps",
        ["no-fatigue-limit"] = "Fatigue can be judged",
        ["full-weight"] = "Full weight",
        ["alignment"] = "Alignment while loaded",
        ["axial-motion"] = "Axial motion",
        ["gap-strain"] = "Strain of the gap",
        ["shear"] = "Shear in the fracture",
        ["weak-direction"] = "Weak bending direction",
        ["thread-core"] = "Core of the thread given",
        ["unclamped-pin"] = "Every pin clamped",
        ["one-pin-fragment"] = "Two pins or more a fragment",
        ["corridor"] = "Pins in safe corridors",
        ["way-in"] = "Way in clear of vessels and nerves",
        ["joint"] = "Pins clear of the joints",
        ["pin-width"] = "Holes small beside the bone",
        ["pin-to-fracture"] = "Pins clear of the fracture",
        ["pin-spacing"] = "Pins apart from each other",
        ["pin-spread"] = "Pins spread over the fragment",
        ["pin-count"] = "Enough pins",
        ["thread"] = "Thread in the far cortex, none at the skin",
        ["tip"] = "Tips beyond the far cortex",
        ["image"] = "Fracture seen on X-rays",
        ["skin-room"] = "Room between rod and skin",
        ["wound"] = "Pins clear of wounds",
        ["wound-access"] = "Way to the wound",
        ["incision"] = "Planned incisions free",
        ["one-plane"] = "Pins of a rod in one plane",
        ["plane-angle"] = "Angle between the planes",
        ["rod-ends"] = "Rods run on beyond their clamps",
        ["rod-joint"] = "Rods end before the joints",
        ["other-leg"] = "Clear of the other leg",
        ["order"] = "Pins of a fragment in their order along the bone",
        ["possible"] = "Can be built: parts in bone, not meeting each other",
        ["stock"] = "Parts in stock",
    };

    /// <summary>The short name of a rule; its own word when it has none.</summary>
    /// <param name="check">The rule's word.</param>
    public static string Of(string check) => _words.GetValueOrDefault(check, check);

    /// <summary>True when a rule has a short name.</summary>
    public static bool Has(string check) => _words.ContainsKey(check);
}
