using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>Frames of a case with callus in the gap, week by week.</summary>
public sealed record HealingReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-healing";

    /// <summary>The version of the format.</summary>
    public const int CurrentFormatVersion = 1;

    public string Format { get; init; } = FormatName;

    public int FormatVersion { get; init; } = CurrentFormatVersion;

    public required ProgramStamp Program { get; init; }

    /// <summary>SHA-256 of the case file's bytes, lower-case hexadecimal.</summary>
    public required string CaseSha256 { get; init; }

    public required string CaseTitle { get; init; }

    /// <summary>What must be said wherever advice is shown.</summary>
    public required string SafetyNote { get; init; }

    /// <summary>The frames, and why one has no weeks.</summary>
    public required ImmutableArray<HealingFrame> Frames { get; init; }

    /// <summary>The weeks of all frames, frame by frame.</summary>
    public required ImmutableArray<HealingWeekResult> Weeks { get; init; }

    /// <summary>A published bending stiffness at which frames were removed, to hold callus against.</summary>
    public required RemovalThreshold RemovalThreshold { get; init; }

    /// <summary>Every modelling assumption in force, with its value and source.</summary>
    public required ImmutableArray<Assumption> Assumptions { get; init; }
}

/// <summary>A frame whose healing was looked at.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">Its name.</param>
/// <param name="Status">Ok, or why weeks or their motion are missing; out of range when some week's motion is withheld.</param>
/// <param name="Diagnosis">Why; null when nothing is missing for the whole frame.</param>
public sealed record HealingFrame(string Id, string Name, FrameStatus Status, Diagnosis? Diagnosis);

/// <summary>A frame in a week of healing.</summary>
public sealed record HealingWeekResult
{
    /// <summary>Id of the frame.</summary>
    public required string Frame { get; init; }

    /// <summary>Weeks since the injury.</summary>
    public required double Week { get; init; }

    /// <summary>Young's modulus of callus.</summary>
    public required double CallusModulusMPa { get; init; }

    /// <summary>The tissue that has this modulus; null when none of the table has.</summary>
    public string? Tissue { get; init; }

    /// <summary>The axial load looked at: the surgeon's.</summary>
    public required double LoadKg { get; init; }

    /// <summary>Motion under it at the fracture, the first of several; null when withheld.</summary>
    public FractureMotion? Motion { get; init; }

    /// <summary>Each fracture by itself, from proximal, when there are several; empty for one. The members beside it speak of the first.</summary>
    public ImmutableArray<HealingFractureResult> Fractures { get; init; } = [];

    /// <summary>Number of the fracture, from 1, whose callus is strained most; null for one fracture or when withheld.</summary>
    public int? MostStrainedFracture { get; init; }

    /// <summary>Why motion is withheld; null when it is not.</summary>
    public Diagnosis? Diagnosis { get; init; }

    /// <summary>
    /// Share of the axial load that passes through the frame; without axial load that of a small one. Null when withheld.
    /// </summary>
    public double? FrameLoadShare { get; init; }

    /// <summary>Closing at the cortex toward the rods as a share of the gap; negative when it opens. Null when withheld.</summary>
    public double? StrainNearPercent { get; init; }

    /// <summary>The same at the opposite cortex.</summary>
    public double? StrainFarPercent { get; init; }

    /// <summary>Bending stiffness of the callus alone.</summary>
    public required CallusBending CallusBendingNmPerDeg { get; init; }

    /// <summary>The part nearest to a limit under the load, fatigue included; null when withheld.</summary>
    public UtilisationEntry? NearestLimit { get; init; }

    /// <summary>What is left to that limit; negative beyond it. Null when withheld.</summary>
    public double? MarginPercent { get; init; }
}

/// <summary>One of several fractures in a week of healing, callus standing in all of them.</summary>
public sealed record HealingFractureResult
{
    /// <summary>Middle of its gap.</summary>
    public required double LevelMm { get; init; }

    /// <summary>Motion here; null when withheld.</summary>
    public FractureMotion? Motion { get; init; }

    /// <summary>Share of the axial load that passes through the frame here.</summary>
    public double? FrameLoadShare { get; init; }

    /// <summary>Closing at the cortex toward the rods as a share of the gap.</summary>
    public double? StrainNearPercent { get; init; }

    /// <summary>The same at the opposite cortex.</summary>
    public double? StrainFarPercent { get; init; }

    /// <summary>Bending stiffness of the callus here alone.</summary>
    public required CallusBending CallusBendingNmPerDeg { get; init; }
}

/// <summary>Bending stiffness of callus in the sagittal (AP) and the frontal plane (ML).</summary>
public sealed record CallusBending(double Ap, double Ml);

/// <summary>A published bending stiffness at which frames were removed.</summary>
/// <param name="BendingNmPerDeg">The stiffness, wanted in both planes.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Failures">What went wrong all the same.</param>
/// <param name="Tag">READ, MEMORY, DERIVED or ASSUMED.</param>
public sealed record RemovalThreshold(double BendingNmPerDeg, string Source, string Failures, string Tag)
{
    /// <summary>15 N·m/deg in two planes, with its failures. READ.</summary>
    public static RemovalThreshold Published { get; } = new(
        15,
        "Bending stiffness of the limb at which frames were removed, better in two planes: Ogrodnik et al. 2008; Joslin et al., Clin Biomech 2008;23:329",
        "4 of 76 patients at or above it went on to malunion (JBJS Br 2008;90-B Supp III); at this stiffness tissue differs 500-fold with the size of the bone. Measured on patients, not predicted by a model.",
        "READ");
}
