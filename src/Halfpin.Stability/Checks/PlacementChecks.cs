using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Placement;

namespace Halfpin.Stability.Checks;

/// <summary>What the places of the pins give away: holes too wide for the bone, pins in the fracture's haematoma.</summary>
internal static class PlacementChecks
{
    private const double WidestShareOfBone = 1.0 / 3;
    private const double NearestToFractureMm = 20;

    public static IEnumerable<Check> Of(CheckInput input)
    {
        yield return Width(input);
        yield return Fracture(input);
    }

    private static Check Width(CheckInput input)
    {
        (string Id, double Share) worst = Enumerable.Range(0, input.Data.Pins.Length)
            .Select(i => (input.Data.Pins[i].Id, Share: input.Data.Pins[i].DiameterMm / AcrossMm(input, i))).MaxBy(p => p.Share);
        bool fits = worst.Share < WidestShareOfBone;
        return new("pin-width", fits ? Verdict.Pass : Verdict.Fail,
            $"The hole of pin {worst.Id} takes {CheckInput.Percent(worst.Share)} of the bone's width there.",
            fits ? "" : "Use a thinner pin or a level where the bone is wider.", "Pin under a third of the bone's diameter: Wheeless' Textbook of Orthopaedics", "READ");
    }

    private static Check Fracture(CheckInput input)
    {
        (Pin Pin, int Fracture, double Mm) nearest = Enumerable.Range(0, input.Data.Pins.Length).SelectMany(i => input.Case.Fractures
            .Select((f, n) => (Pin: input.Data.Pins[i], Fracture: n, Mm: FracturePlane.ClearanceMm(f, input.Data.PlacedPins[i])))).MinBy(p => p.Mm);
        string edge = input.Case.Fractures.Length == 1 ? "the fracture's edge" : $"the edge of fracture {nearest.Fracture + 1}";
        bool clear = nearest.Mm >= NearestToFractureMm;
        return new("pin-to-fracture", clear ? Verdict.Pass : Verdict.Caution,
            $"Nearest pin {nearest.Pin.Id} passes {CheckInput.Text(nearest.Mm, "0")} mm from {edge}.",
            clear ? "" : "Move it at least a fingerbreadth (20 mm) away, out of the haematoma.",
            "At least 20 mm, outside haematoma and damaged skin: open tibia training module", "READ");
    }

    // Width of the bone at right angles to the pin, at its level.
    private static double AcrossMm(CheckInput input, int pin) =>
        input.Data.Bone.OuterRadiusMm(input.Data.Pins[pin].LevelMm, input.Data.Pins[pin].AzimuthDeg + 90)
        + input.Data.Bone.OuterRadiusMm(input.Data.Pins[pin].LevelMm, input.Data.Pins[pin].AzimuthDeg - 90);
}
