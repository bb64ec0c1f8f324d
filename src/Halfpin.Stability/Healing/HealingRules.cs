using System.Globalization;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;

namespace Halfpin.Stability.Healing;

/// <summary>What must hold between a case's healing and its bone.</summary>
public static class HealingRules
{
    /// <summary>All faults of the plan. Numbers that are NaN are passed over: their own fault has been told.</summary>
    public static IEnumerable<Fault> Check(Case value)
    {
        if (value.Healing.CollarDiameterMm is not double collar || value.Fractures.IsEmpty || double.IsNaN(value.Limb.LengthMm))
        {
            yield break;
        }

        double least = 2 * CallusDisc.OutlineRadiusMm(BoneShape.For(value.Limb), value.Fractures[0].LevelMm);
        if (collar < least)
        {
            yield return new(
                "/healing/collarDiameterMm", FaultCodes.Inconsistent,
                $"A collar of {Text(collar)} mm lies within the bone.", $"At least {Text(least)} mm at the fracture.",
                "Use a wider collar, or leave it out for callus with the cortex's own section.");
        }
    }

    private static string Text(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);
}
