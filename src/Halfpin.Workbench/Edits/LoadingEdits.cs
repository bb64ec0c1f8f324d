using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Edits;

/// <summary>Changes to the load and the course of healing that touch more than one member at once.</summary>
public static class LoadingEdits
{
    /// <summary>The axial load by grade, in place of kilograms.</summary>
    public static CaseEdit ByGrade(WeightBearing grade) =>
        new($"weight-bearing: {Fields.FieldNames.Choice(grade)}", v => v with { Loading = v.Loading with { Grade = grade, AllowedKg = 0 } });

    /// <summary>The axial load in kilograms, in place of a grade: those that the grade came to.</summary>
    public static CaseEdit ByKg() =>
        new("axial load in kg", v => v with { Loading = v.Loading with { Grade = null, AllowedKg = Math.Round(v.Loading.AxialKgFor(v.Limb.PatientMassKg), 1) } });

    /// <summary>How often the load comes; both or neither.</summary>
    public static CaseEdit Repeated(double? stepsPerDay, double? weeks) => new(
        stepsPerDay is double s && weeks is double w ? string.Create(CultureInfo.InvariantCulture, $"{s:0.##} steps a day for {w:0.##} weeks") : "steps not counted",
        v => v with { Loading = v.Loading with { StepsPerDay = stepsPerDay, Weeks = weeks } });

    /// <summary>A further week of healing, put in its place.</summary>
    public static CaseEdit AddWeek(double week, double callusModulusMPa) => new(
        string.Create(CultureInfo.InvariantCulture, $"add week {week:0.##}"),
        v => v with { Healing = v.Healing with { Weeks = v.Healing.Weeks.Insert(v.Healing.Weeks.Count(w => w.Week <= week), new() { Week = week, CallusModulusMPa = callusModulusMPa }) } });

    /// <summary>Without a week of healing.</summary>
    public static CaseEdit RemoveWeek(Case value, int index) => new(
        string.Create(CultureInfo.InvariantCulture, $"remove week {value.Healing.Weeks[index].Week:0.##}"), v => v with { Healing = v.Healing with { Weeks = v.Healing.Weeks.RemoveAt(index) } });

    /// <summary>The weeks that are assumed unless a case says otherwise.</summary>
    public static CaseEdit UsualWeeks() => new("usual weeks of healing", v => v with { Healing = v.Healing with { Weeks = HealingPlan.UsualWeeks } });
}
