using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>The safety wording, in one place; every screen, report and export that advises carries it.</summary>
public static class Safety
{
    /// <summary>The note in full.</summary>
    public const string Note =
        "Planning and teaching aid, not a medical device. Local protocol, the device's instructions and licensed clinical judgement decide. "
        + "Numbers come from an idealised limb with small displacements; clamp, pin-bone and bone-end stiffness are assumed unless measured. "
        + "Halfpin never issues an allowed load.";

    /// <summary>The note for a line of a table or a footer.</summary>
    public const string ShortNote =
        "Planning and teaching aid, not a medical device. Local protocol, device instructions and licensed judgement decide.";

    /// <summary>What a reader might take for checked and is not.</summary>
    public const string NotChecked =
        "Not checked: individual anatomy (corridors, skin and vessels are those of a usual leg), growth plates, superficial veins, quality of skin, hold of pins in poor bone.";

    /// <summary>Usual cautions that hold for every frame, whatever the numbers say. Common practice, no source.</summary>
    public static ImmutableArray<string> Cautions { get; } =
    [
        "Anatomy varies: dissection, sleeve and imaging decide where a pin may go.",
        "Check vessels, nerves and compartments before and after, and again as swelling changes.",
        "Leave room between rod and skin for swelling and dressings.",
        "Retighten clamps at the first visit; look at pin sites and for loose pins at every visit.",
    ];
}
