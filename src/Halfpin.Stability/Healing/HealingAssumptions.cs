using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Healing;

/// <summary>What healing rests on, beside what every assessment does.</summary>
public static class HealingAssumptions
{
    /// <summary>The assumptions of a case when healing is looked at.</summary>
    public static ImmutableArray<Assumption> Of(Case value)
    {
        HealingPlan plan = value.Healing;
        return
        [
            new("Weeks of healing", string.Join("; ", plan.Weeks.Select(w => Text($"week {w.Week}: {w.CallusModulusMPa} MPa"))), !plan.HasUsualWeeks,
                "Which tissue stands when is not known and differs from patient to patient by months; set slow, tibial frames were worn some 25 weeks (82 tibias, BMC MSD 2024, READ)", "ASSUMED"),
            .. value.Fractures.Length == 1 ? Array.Empty<Assumption>() :
            [
                new("Pace of several fractures", "All heal alike: the same modulus at each in a week", false,
                    "Fractures of one bone need not heal at one pace; look at weeks one by one", "ASSUMED"),
            ],
            new("Moduli of callus", string.Join(", ", CallusTissues.All.Select(t => Text($"{t.Name} {t.ModulusMPa} MPa"))), false, CallusTissues.Source, "READ"),
            new("Poisson's ratio of callus", Text($"{plan.CallusPoissonRatio}"), plan.CallusPoissonRatio != HealingPlan.UsualCallusPoissonRatio,
                "Between granulation tissue 0.167 and immature bone 0.3 and beyond", "ASSUMED"),
            new("Shape of callus", plan.CollarDiameterMm is double d
                    ? Text($"A round collar of {d} mm from the canal outwards, as high as the gap")
                    : "A disc with the cortex's own section, as high as the gap", plan.CollarDiameterMm is not null,
                "One tissue fills the gap evenly, transverse even where the fracture is tilted; no callus outside it", "ASSUMED"),
            new("Strength of callus", "Not judged: what it carries here it may not hold", false, "Project convention", "ASSUMED"),
            .. Assumptions.Of(value).Where(a => a.Name != Assumptions.Callus),
        ];
    }

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
