using System.Globalization;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;

namespace Halfpin.Stability.Healing;

/// <summary>What must hold between a case's healing and its bone.</summary>
internal static class HealingRules
{
    public static IEnumerable<Fault> Check(Case value, BoneShape bone, Fracture fracture)
    {
        if (value.Healing.CollarDiameterMm is not double collar)
        {
            yield break;
        }

        double least = 2 * CallusDisc.OutlineRadiusMm(bone, fracture.LevelMm);
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
