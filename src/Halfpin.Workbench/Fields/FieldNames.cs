using System.Collections.Frozen;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Modelling;
using Halfpin.Planning.Indication;
using Halfpin.Reports.Words;

namespace Halfpin.Workbench.Fields;

/// <summary>Names of a case's members for people: a label, and the unit that stands at the end of the member's name.</summary>
internal static class FieldNames
{
    private static readonly FrozenDictionary<string, string> _labels = new Dictionary<string, string>
    {
        ["Limb.LengthMm"] = "Bone length",
        ["Limb.PatientMassKg"] = "Patient's mass",
        ["SoftTissueCover.Habitus"] = "Build",
        ["SoftTissueCover.ThicknessMm"] = "Bone to skin, medial face",
        ["SoftTissueCover.SwellingMm"] = "Swelling still to come",
        ["TubeBone.YoungsModulusMPa"] = "Young's modulus",
        ["TubeBone.PoissonRatio"] = "Poisson's ratio",
        ["Fracture.TiltAzimuthDeg"] = "Slopes down toward",
        ["Fracture.Contact"] = "Ends can bear on each other",
        ["Wound.FromLevelMm"] = "Proximal edge",
        ["Wound.ToLevelMm"] = "Distal edge",
        ["Wound.FromAzimuthDeg"] = "First edge round the limb",
        ["Wound.ToAzimuthDeg"] = "Second edge round the limb",
        ["PlannedIncision.For"] = "Incision for",
        ["Indication.Reasons"] = "Reason for a frame",
        ["Indication.Against"] = "Against a frame",
        ["Indication.OpenGrade"] = "Open fracture, Gustilo and Anderson",
        ["Indication.ClosedGrade"] = "Closed fracture, Tscherne",
        ["Indication.Joint"] = "Joint reached",
        ["Indication.NonUnion"] = "Non-union",
        ["Indication.BoneLossMm"] = "Bone missing",
        ["Indication.Vascular"] = "Arteries",
        ["Indication.AntibioticAfterMin"] = "First antibiotic after",
        ["Indication.DamageControl"] = "Damage-control grade",
        ["PlannedConversion.FromDay"] = "First day of the window",
        ["PlannedConversion.ToDay"] = "Last day of the window",
        ["Physiology.SystolicMmHg"] = "Systolic pressure",
        ["Physiology.BloodUnits2H"] = "Units of blood",
        ["Physiology.PaO2FiO2MmHg"] = "PaO₂/FiO₂",
        ["Progress.EndsInContact"] = "Axially stable, ends in contact",
        ["Progress.BoneLoss"] = "Bone is missing",
        ["Loading.AllowedKg"] = "Axial load",
        ["Loading.LineOffsetApMm"] = "Load line in front of the axis",
        ["Loading.LineOffsetMlMm"] = "Load line medial of the axis",
        ["Loading.ApBendingNm"] = "AP bending",
        ["Loading.MlBendingNm"] = "ML bending",
        ["Requirements.MostAxialMm"] = "Most axial motion",
        ["Requirements.LeastAxialMm"] = "Least axial motion",
        ["Requirements.MostOverloadAxialMm"] = "Most axial motion, overload",
        ["Requirements.MostTiltDeg"] = "Most tilt, overload",
        ["Requirements.MostTwistDeg"] = "Most twist, overload",
        ["Requirements.MostUsedPercent"] = "Most use of any limit",
        ["Requirements.MostOverloadUsedPercent"] = "Most use of any limit, overload",
        ["Requirements.MostFatiguePercent"] = "Most use of a pin's life",
        ["Requirements.LeastAxialNPerMm"] = "Least axial stiffness",
        ["Requirements.LeastWeakBendingNmPerDeg"] = "Least bending stiffness",
        ["Requirements.AcceptCautions"] = "Accepted caution",
        ["ModelOptions.ContactFriction"] = "Friction of bone ends",
        ["ModelOptions.ContactLayerMm"] = "Depth that gives way where ends bear",
        ["ModelOptions.Beam"] = "Beam theory",
        ["FoundationFixity.ModulusNPerMm2"] = "Foundation of the pin in cortex",
        ["SpringClamp.RotationalNmPerRad"] = "Clamp, turning",
        ["SpringClamp.TranslationalNPerMm"] = "Clamp, shifting",
        ["SpringClamp.SlipMomentNm"] = "Clamp slips at",
        ["HealingPlan.CallusPoissonRatio"] = "Poisson's ratio of callus",
        ["HealingPlan.CollarDiameterMm"] = "Collar of callus",
        ["HealingWeek.CallusModulusMPa"] = "Callus",
        ["HealingWeek.LoadKg"] = "Load then",
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<Enum, string> _choices = new Dictionary<Enum, string>
    {
        [FrameReason.NonUnion] = "non-union",
        [BeamChoice.Timoshenko] = "Timoshenko",
        [BeamChoice.EulerBernoulli] = "Euler–Bernoulli",
        [WeightBearing.None] = "none",
        [WeightBearing.ToeTouch] = "toe-touch, 20 % of body weight",
        [WeightBearing.Partial] = "partial, 50 % of body weight",
        [WeightBearing.Full] = "full, 100 % of body weight",
        [ClosedSoftTissueGrade.Grade0] = "0, little or none",
        [ClosedSoftTissueGrade.Grade1] = "1, superficial abrasion or contusion",
        [ClosedSoftTissueGrade.Grade2] = "2, deep contaminated abrasion, contused muscle",
        [ClosedSoftTissueGrade.Grade3] = "3, extensive contusion, degloving or arterial injury",
        [Purpose.Temporary] = "temporary, until definitive fixation",
        [Purpose.Definitive] = "definitive, until healed",
    }.ToFrozenDictionary();

    /// <summary>The name of a member.</summary>
    /// <param name="owner">The type that declares it.</param>
    /// <param name="member">Its name in the program.</param>
    public static string Label(Type owner, string member) =>
        _labels.TryGetValue($"{owner.Name}.{member}", out string? label) ? label : NumberWords.Label(member);

    /// <summary>The unit of a number by its name; empty when it has none.</summary>
    public static string Unit(string member) => NumberWords.Unit(member);

    /// <summary>A choice in words.</summary>
    public static string Choice(Enum choice) => _choices.TryGetValue(choice, out string? words) ? words : IndicationRecorder.Word(choice);
}
