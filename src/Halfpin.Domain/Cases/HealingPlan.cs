using System.Collections.Immutable;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>The course of healing that the surgeon chooses to look at. It describes no patient and promises nothing.</summary>
public sealed record HealingPlan
{
    /// <summary>Poisson's ratio of callus. ASSUMED: granulation tissue 0.167, immature bone 0.3 (READ, see <see cref="CallusTissues"/>).</summary>
    public const double UsualCallusPoissonRatio = 0.3;

    [Field("Weeks to look at, rising, each with the stiffness of callus then.", Min = 1, Max = 60)]
    public ImmutableArray<HealingWeek> Weeks { get; init; } = UsualWeeks;

    [Field("Poisson's ratio of callus.", Min = 0, Max = 0.499)]
    public double CallusPoissonRatio { get; init; } = UsualCallusPoissonRatio;

    [Field("Outer diameter of a round collar of callus from the canal outwards; without it callus has the cortex's own section.", Min = 8, Max = 150)]
    public double? CollarDiameterMm { get; init; }

    /// <summary>
    /// The weeks looked at unless the case says otherwise. ASSUMED: only the moduli are read, the weeks are set slow, so that a narrow gap
    /// passes 15 N·m/deg between weeks 12 and 24; tibial frames were worn some 25 weeks (82 tibias, BMC MSD 2024, READ).
    /// </summary>
    public static ImmutableArray<HealingWeek> UsualWeeks { get; } =
    [
        Usual(2, 0), Usual(6, 1), Usual(12, 2), Usual(24, 3), Usual(36, 4),
    ];

    /// <summary>True when the weeks are those assumed.</summary>
    public bool HasUsualWeeks => Weeks.SequenceEqual(UsualWeeks);

    private static HealingWeek Usual(double week, int tissue) => new() { Week = week, CallusModulusMPa = CallusTissues.All[tissue].ModulusMPa };
}

/// <summary>A week of healing.</summary>
public sealed record HealingWeek
{
    [Field("Weeks since the injury.", Min = 0, Max = 520)]
    public required double Week { get; init; }

    [Field("Young's modulus of callus then.", Min = 0.001, Max = 30_000)]
    public required double CallusModulusMPa { get; init; }

    [Field("Axial load to look at then, as it reads on a scale; without it the case's own. Halfpin never issues an allowed load.", Min = 0, Max = 300)]
    public double? LoadKg { get; init; }
}

/// <summary>A tissue that callus passes through.</summary>
/// <param name="Name">Name.</param>
/// <param name="ModulusMPa">Young's modulus.</param>
public sealed record CallusTissue(string Name, double ModulusMPa);

/// <summary>The tissues of healing and their moduli.</summary>
public static class CallusTissues
{
    /// <summary>Where the moduli come from. READ.</summary>
    public const string Source = "Lacroix and Prendergast, J Biomech 2002, as given in table 1 of PMC5082538";

    /// <summary>The tissues, from soft to stiff. READ.</summary>
    public static ImmutableArray<CallusTissue> All { get; } =
    [
        new("granulation tissue", 0.2), new("fibrous tissue", 2), new("cartilage", 10), new("immature bone", 1000), new("mature bone", 6000),
    ];

    /// <summary>The name of the tissue that has a modulus, null when none has just that.</summary>
    public static string? NameOf(double modulusMPa) => All.FirstOrDefault(t => t.ModulusMPa == modulusMPa)?.Name;
}
