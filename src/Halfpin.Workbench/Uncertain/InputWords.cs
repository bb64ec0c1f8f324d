using Halfpin.Domain.Cases;

namespace Halfpin.Workbench.Uncertain;

/// <summary>Inputs of a study of uncertainty by names for people.</summary>
public static class InputWords
{
    private static readonly Dictionary<string, string> _inputs = new()
    {
        [UncertainInputs.ClampRotational] = "rotational stiffness of the clamps",
        [UncertainInputs.SlipMoment] = "moment at which clamps slip",
        [UncertainInputs.Foundation] = "seat of the pins in bone",
        [UncertainInputs.BoneModuli] = "stiffness of the bone",
        [UncertainInputs.BoneWall] = "wall of the bone",
        [UncertainInputs.ContactStiffness] = "stiffness of the bone ends in contact",
        [UncertainInputs.SteelModulus] = "modulus of steel",
        [UncertainInputs.SteelFatigue] = "fatigue limit of steel",
        [UncertainInputs.CarbonModulus] = "modulus of carbon",
        [UncertainInputs.CarbonShear] = "shear modulus of carbon",
        [UncertainInputs.PinLevel] = "level of pin",
        [UncertainInputs.PinAzimuth] = "direction of pin",
        [UncertainInputs.RodStandoff] = "distance of rod",
    };

    /// <summary>An input; a pointer stays as it is.</summary>
    public static string Input(string name)
    {
        string[] parts = name.Split(':', 2);
        return !_inputs.TryGetValue(parts[0], out string? words) ? name : parts.Length == 1 ? words : $"{words} {parts[1]}";
    }
}
