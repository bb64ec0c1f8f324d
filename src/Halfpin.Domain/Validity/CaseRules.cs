using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Materials;

namespace Halfpin.Domain.Validity;

/// <summary>
/// What must hold between the members of a case, beyond each one's own range. Numbers that are NaN are passed over: their own
/// fault has been told.
/// </summary>
public static class CaseRules
{
    // ASSUMED: what is shorter than a pin is thick is debris, not a fragment.
    private const double ShortestFragmentMm = 5;

    /// <summary>All faults of a case's limb, injury, materials and frames, but those of geometry in space.</summary>
    public static IEnumerable<Fault> Check(Case value) =>
        Bone(value.Limb).Concat(Injury(value)).Concat(OfLoading(value.Loading)).Concat(Weeks(value.Healing)).Concat(OwnMaterials(value))
            .Concat(SearchRules.Check(value)).Concat(FrameRules.Check(value)).Concat(StageRules.Check(value)).Concat(IndicationRules.Check(value.Indication))
            .Concat(UncertaintyRules.Check(value));

    /// <summary>A number for a message.</summary>
    internal static string Text(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);

    private static IEnumerable<Fault> Bone(Limb limb)
    {
        if (limb.BoneModel is TubeBone tube && tube.InnerDiameterMm >= tube.OuterDiameterMm)
        {
            yield return new("/limb/boneModel/innerDiameterMm", FaultCodes.Inconsistent, $"The tube's inner diameter {Text(tube.InnerDiameterMm)} mm leaves no wall.", $"Less than the outer diameter, {Text(tube.OuterDiameterMm)} mm.", "Exchange the two, or lower the inner one.");
        }
    }

    private static IEnumerable<Fault> Injury(Case value)
    {
        double length = value.Limb.LengthMm;
        for (int i = 0; i < value.Fractures.Length; i++)
        {
            Fracture f = value.Fractures[i];
            if (f.LevelMm - (f.GapMm / 2) <= 0 || f.LevelMm + (f.GapMm / 2) >= length)
            {
                yield return new($"/fractures/{i}/levelMm", FaultCodes.OutsideBone, $"The fracture's gap, {Text(f.LevelMm)} ± {Text(f.GapMm / 2)} mm, leaves the bone.", $"Faces between 0 and {Text(length)} mm.", "Check the level, the gap and the bone's length.");
            }
        }

        for (int i = 1; i < value.Fractures.Length; i++)
        {
            Fracture above = value.Fractures[i - 1], f = value.Fractures[i];
            double between = f.LevelMm - (f.GapMm / 2) - above.LevelMm - (above.GapMm / 2);
            if (f.LevelMm <= above.LevelMm)
            {
                yield return new($"/fractures/{i}/levelMm", FaultCodes.Inconsistent, $"The fracture at {Text(f.LevelMm)} mm stands after the one at {Text(above.LevelMm)} mm.", "Fractures in order, from proximal.", "Exchange the two.");
            }
            else if (between < ShortestFragmentMm)
            {
                yield return new($"/fractures/{i}/levelMm", FaultCodes.Inconsistent, between > 0 ? $"Only {Text(between)} mm of bone lie between this fracture's gap and the one above." : "The fracture's gap reaches into the one above.", $"At least {Text(ShortestFragmentMm)} mm of bone between two gaps.", "Check levels and gaps, or enter one comminuted fracture with a gap that spans both.");
            }
        }

        foreach ((Wound wound, string pointer) in value.Wounds.Select((w, i) => (w, $"/wounds/{i}"))
            .Concat(value.PlannedIncisions.Select((w, i) => ((Wound)w, $"/plannedIncisions/{i}"))))
        {
            if (wound.FromLevelMm > wound.ToLevelMm)
            {
                yield return new($"{pointer}/toLevelMm", FaultCodes.Inconsistent, $"The area runs from level {Text(wound.FromLevelMm)} up to {Text(wound.ToLevelMm)} mm.", "The distal edge at or beyond the proximal one.", "Exchange the two levels.");
            }

            if (wound.ToLevelMm > length)
            {
                yield return new($"{pointer}/toLevelMm", FaultCodes.OutsideBone, $"Level {Text(wound.ToLevelMm)} mm lies beyond the bone.", $"0 to {Text(length)} mm.", "Check the level and the bone's length.");
            }
        }
    }

    private static IEnumerable<Fault> OfLoading(Loading loading)
    {
        if (loading is { Grade: not null, AllowedKg: not 0 })
        {
            yield return new("/loading/grade", FaultCodes.Inconsistent, "The axial load is given twice: as a grade and in kilograms.", "One of grade and allowedKg.", "Leave one of them out.");
        }

        if (loading.StepsPerDay is null != loading.Weeks is null)
        {
            string missing = loading.Weeks is null ? "weeks" : "stepsPerDay";
            yield return new($"/loading/{missing}", FaultCodes.Missing, "Steps a day and weeks say together how often the load comes.", "Both or neither.", $"Give {missing} too.");
        }
    }

    private static IEnumerable<Fault> Weeks(HealingPlan plan)
    {
        for (int i = 1; i < plan.Weeks.Length; i++)
        {
            if (plan.Weeks[i].Week <= plan.Weeks[i - 1].Week)
            {
                yield return new($"/healing/weeks/{i}/week", FaultCodes.Inconsistent, $"Week {Text(plan.Weeks[i].Week)} stands after week {Text(plan.Weeks[i - 1].Week)}.", $"More than {Text(plan.Weeks[i - 1].Week)}.", "Put the weeks in rising order, each once.");
            }
        }
    }

    private static IEnumerable<Fault> OwnMaterials(Case value)
    {
        foreach (Fault duplicate in Duplicates(value.Materials.Select((m, i) => (m.Id, $"/materials/{i}/id"))))
        {
            yield return duplicate;
        }

        for (int i = 0; i < value.Materials.Length; i++)
        {
            Material m = value.Materials[i];
            if (m.ShearModulusMPa is null && m.PoissonRatio is null)
            {
                yield return new($"/materials/{i}/shearModulusMPa", FaultCodes.Missing, $"Material {m.Id} has neither a shear modulus nor a Poisson's ratio.", "One of the two.", "Give shearModulusMPa; for an isotropic metal, poissonRatio 0.3 will do.");
            }

            if (m is { TensileStrengthMPa: double strength, FatigueLimitMPa: double limit } && 0.9 * strength <= limit)
            {
                yield return new($"/materials/{i}/fatigueLimitMPa", FaultCodes.Inconsistent, $"The fatigue limit {Text(limit)} MPa does not lie below nine tenths of the tensile strength {Text(strength)} MPa.", $"Less than {Text(0.9 * strength)} MPa.", "Check the two strengths.");
            }
        }
    }

    /// <summary>A fault for every id that stands more than once.</summary>
    internal static IEnumerable<Fault> Duplicates(IEnumerable<(string Id, string Pointer)> ids) =>
        ids.GroupBy(i => i.Id).SelectMany(g => g.Skip(1)).Select(d => new Fault(
            d.Pointer, FaultCodes.DuplicateId, $"\"{d.Id}\" is taken.", "Ids that differ.", "Rename one of them."));
}
