using System.Collections.Immutable;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>Why a frame is used now, as the surgeon records it; what is left out counts as not recorded. No patient's data.</summary>
public sealed record Indication
{
    [Field("Why a frame now.", Max = 20)]
    public ImmutableArray<FrameReason> Reasons { get; init; } = [];

    [Field("What argues against a frame in this limb.", Max = 20)]
    public ImmutableArray<FrameObjection> Against { get; init; } = [];

    [Field("The planned conversion to definitive fixation and its window.")]
    public PlannedConversion? Conversion { get; init; }

    [Field("Grade of an open fracture by Gustilo and Anderson.")]
    public OpenFractureGrade? OpenGrade { get; init; }

    [Field("Soft-tissue grade of a closed fracture by Tscherne.")]
    public ClosedSoftTissueGrade? ClosedGrade { get; init; }

    [Field("Whether the fracture reaches a joint.")]
    public JointInvolvement? Joint { get; init; }

    [Field("The fracture has failed to unite.")]
    public bool? NonUnion { get; init; }

    [Field("The bone or the wound is infected.")]
    public bool? Infection { get; init; }

    [Field("Length of bone that is missing.", Min = 0, Max = 400)]
    public double? BoneLossMm { get; init; }

    [Field("State of the limb's arteries.")]
    public VascularState? Vascular { get; init; }

    [Field("Whether a compartment syndrome was looked for, and what was found.")]
    public CompartmentState? Compartments { get; init; }

    [Field("Diastolic pressure less that of the worst compartment, where it was measured.", Min = -100, Max = 150)]
    public double? PressureGapMmHg { get; init; }

    [Field("Nerves of the limb were examined and recorded.")]
    public bool? NervesRecorded { get; init; }

    [Field("Minutes to the first intravenous antibiotic, counted as the local protocol counts them.", Min = 0, Max = 10_000)]
    public double? AntibioticAfterMin { get; init; }

    [Field("Hours from the injury to debridement, done or planned.", Min = 0, Max = 2_000)]
    public double? DebridementAfterH { get; init; }

    [Field("Days from the injury to soft-tissue cover, done or planned.", Min = 0, Max = 365)]
    public double? CoverAfterDays { get; init; }

    [Field("A plan against deep-vein thrombosis is recorded.")]
    public bool? ThrombosisPlan { get; init; }

    [Field("Damage-control grade as the team judges it.")]
    public DamageControlGrade? DamageControl { get; init; }

    [Field("Figures of physiology.")]
    public Physiology Physiology { get; init; } = new();
}

/// <summary>Reasons for a frame.</summary>
public enum FrameReason
{
    SoftTissue,
    Contamination,
    Swelling,
    Physiology,
    VascularRepair,
    Infection,
    NonUnion,
    BoneLoss,
    JointFracture,
    JointInstability,
    TimeOrResources,
    Transport,
}

/// <summary>What argues against a frame.</summary>
public enum FrameObjection
{
    NoConsent,
    Compliance,
    PoorBone,
    PinPathInfected,
    PinPathBurnt,
    OpenPhysis,
    ImplantPath,
    BleedingDisorder,
    MetalAllergy,
    UnfitForAnaesthesia,
}

/// <summary>A planned change of the frame for definitive fixation.</summary>
public sealed record PlannedConversion
{
    [Field("To what.")]
    public required ConversionTarget To { get; init; }

    [Field("First day of the window, counted from the frame's mounting.", Min = 0, Max = 730)]
    public double? FromDay { get; init; }

    [Field("Last day of the window, counted from the frame's mounting.", Min = 0, Max = 730)]
    public double? ToDay { get; init; }
}

/// <summary>What a frame is to be changed for.</summary>
public enum ConversionTarget
{
    Nail,
    Plate,
    DefinitiveFrame,
    None,
}

/// <summary>Gustilo–Anderson grade of an open fracture.</summary>
public enum OpenFractureGrade
{
    I,
    II,
    IIIA,
    IIIB,
    IIIC,
}

/// <summary>Tscherne grade of the soft tissues of a closed fracture. MEMORY.</summary>
public enum ClosedSoftTissueGrade
{
    /// <summary>Little or no soft-tissue injury.</summary>
    Grade0,

    /// <summary>Superficial abrasion or contusion.</summary>
    Grade1,

    /// <summary>Deep contaminated abrasion, contused muscle; a compartment syndrome threatens.</summary>
    Grade2,

    /// <summary>Extensive contusion or crush, degloving, compartment syndrome or arterial injury.</summary>
    Grade3,
}

/// <summary>Whether a fracture reaches a joint.</summary>
public enum JointInvolvement
{
    None,
    Knee,
    Ankle,
    Both,
}

/// <summary>State of the arteries.</summary>
public enum VascularState
{
    Intact,
    RepairPlanned,
    Repaired,
}

/// <summary>What is known of the compartments.</summary>
public enum CompartmentState
{
    NotSuspected,
    Suspected,
    Released,
}

/// <summary>Damage-control grades.</summary>
public enum DamageControlGrade
{
    Stable,
    Borderline,
    Unstable,
    InExtremis,
}

/// <summary>Figures that the damage-control grades are read from.</summary>
public sealed record Physiology
{
    [Field("Systolic blood pressure.", Min = 0, Max = 300)]
    public double? SystolicMmHg { get; init; }

    [Field("Units of blood given in two hours.", Min = 0, Max = 100)]
    public double? BloodUnits2H { get; init; }

    [Field("Lactate.", Min = 0, Max = 40)]
    public double? LactateMmolPerL { get; init; }

    [Field("Platelets, thousands per microlitre.", Min = 0, Max = 2_000)]
    public double? PlateletsThousand { get; init; }

    [Field("Core temperature, degrees Celsius.", Min = 15, Max = 45)]
    public double? TemperatureC { get; init; }

    [Field("Arterial oxygen pressure over inspired fraction.", Min = 20, Max = 800)]
    public double? PaO2FiO2MmHg { get; init; }

    [Field("Injury severity score.", Min = 0, Max = 75)]
    public double? InjurySeverityScore { get; init; }

    [Field("Base deficit.", Min = -20, Max = 40)]
    public double? BaseDeficitMmolPerL { get; init; }
}
