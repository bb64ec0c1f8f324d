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

        BoneShape bone = BoneShape.For(value.Limb);
        double least = 2 * value.Fractures.Where(f => !double.IsNaN(f.LevelMm)).Select(f => CallusDisc.OutlineRadiusMm(bone, f.LevelMm)).DefaultIfEmpty(0).Max();
        if (collar < least)
        {
            yield return new(
                "/healing/collarDiameterMm", FaultCodes.Inconsistent,
                $"A collar of {Text(collar)} mm lies within the bone.", $"At least {Text(least)} mm at the {(value.Fractures.Length == 1 ? "fracture" : "fractures")}.",
                "Use a wider collar, or leave it out for callus with the cortex's own section.");
        }
    }

    private static string Text(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);
}
