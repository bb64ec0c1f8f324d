using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Record = Halfpin.Domain.Cases.Indication;

namespace Halfpin.Planning.Indication;

/// <summary>Published facts that bear on an indication, and reminders; source and tag carried over.</summary>
internal static class IndicationFacts
{
    private const string Series = "J Orthop Surg Res 2021, 10.1186/s13018-021-02814-7";
    private const string Contraindications = "usual lists of contraindications";

    /// <summary>What argues against a frame.</summary>
    public static ImmutableArray<AgainstItem> Against(Record value) =>
    [
        .. Enum.GetValues<FrameObjection>().Select(o => new AgainstItem(Objection(o), value.Against.Contains(o), Contraindications, "MEMORY"))
            .OrderByDescending(a => a.Recorded),
    ];

    /// <summary>Reminders for every such limb.</summary>
    public static ImmutableArray<IndicationNote> Reminders(Record value) =>
    [
        new("compartment syndrome", "Pain out of proportion; a gap of less than 30 mmHg between diastolic and compartment pressure alarms; irreversible from about 6 h; limb at heart level. 11 to 18 % of high-energy tibiae.", "Schmidt AH 2017; Donaldson J 2014", "READ"),
        new("compartment syndrome", "At risk above all: young, male, high energy, proximal, polytrauma.", "Morello V, Gamulin A. EFORT Open Rev 2023;8(12)", "READ"),
        new("vessels and nerves", "Perfusion, nerves and compartments are recorded before and after, and again as swelling changes.", "common practice", "MEMORY"),
        new("thrombosis", "DVT in 2.1 % (3 of 143) with LMWH within 24 h; 10 to 40 % quoted after fractures of the tibia and below. Local protocol decides.", "Sems SA 2010; Patterson JT, Morshed S 2017", "READ"),
        .. value.ClosedGrade is not null && value.OpenGrade is null ? Array.Empty<IndicationNote>() :
        [
            new IndicationNote("open wound", "Intravenous antibiotic within 60 min by local protocol, debridement within 24 h, cover within 7 days; washout 3, 6, 9 L for type I, II, III.", "You DZ, Schneider PS. OTA Int 2020; Appropedia", "READ"),
        ],
        new("pin sites", "Weekly care with alcoholic chlorhexidine and a non-shedding dressing; more often when wet or infected.", "RCN consensus 2010/2011; RNOH leaflet", "READ"),
        new("after removal", "Protect the limb for 6 to 8 weeks: pin holes raise stress.", "common practice", "MEMORY"),
    ];

    /// <summary>Published facts that bear on what is recorded.</summary>
    public static IEnumerable<IndicationNote> Of(Record value)
    {
        if (value.OpenGrade is OpenFractureGrade grade)
        {
            yield return new("open fracture", $"Grade {grade}: {Wound(grade)}. Observers agree in about 60 %.", "definitions as tabulated at orthobullets and others", "READ");
            yield return new("open fracture", $"Usual fixation of grade {grade}: {Fixation(grade)}.", "usual teaching", "MEMORY");
            yield return new("infection", "By grade in one series: 0 % (I), 5.7 % (II), 8.3 % (IIIA), 17.9 % (IIIB).", Series, "READ");
            yield return new("frame or nail", "Open tibia, 9 randomised trials, 733 patients: with a fixator superficial infection RR 2.84 and malunion RR 3.05; hardware failure RR 0.38; deep infection and union equal.", "PMC9817243", "READ");
        }

        if (value.ClosedGrade is ClosedSoftTissueGrade closed)
        {
            yield return new("closed fracture", $"{Closed(closed)}.", "Tscherne's grades", "MEMORY");
        }

        if (value.Conversion is { To: ConversionTarget.Nail })
        {
            yield return new("conversion to a nail", "Infection by day of conversion in 122 open fractures: 6.5 % up to day 14, 5.9 % on days 15 to 28, 23.3 % after day 28.", Series, "READ");
            yield return new("conversion to a nail", "Femur and tibia within 14 days and without pin-site infection; else a pin holiday or stages. The figures above show no difference between days 14 and 28: the two disagree.", "usual rule (Bhandari 2005, not seen)", "MEMORY");
        }

        if (value.Reasons.Contains(FrameReason.Physiology) || value.DamageControl is not null || value.Physiology != new Physiology())
        {
            yield return new("physiology", "Further triggers for damage control: ISS over 40, or over 20 with chest injury; femur broken on both sides; base deficit over 8.", "usual teaching", "MEMORY");
            yield return new("physiology", "Lactate over 4 postpones; early care when lactate is under 4.0, pH at least 7.25 and base deficit under 5.5.", "usual teaching", "MEMORY");
        }

        if (value.OpenGrade == OpenFractureGrade.IIIC || value.Vascular is VascularState.RepairPlanned)
        {
            yield return new("arteries", "Perfusion first: a shunt when ischaemic, a rapid frame, definitive repair, fasciotomy. The vascular team decides the order.", "usual teaching", "MEMORY");
        }
    }

    /// <summary>An objection in words.</summary>
    public static string Objection(FrameObjection o) => o switch
    {
        FrameObjection.NoConsent => "no consent",
        FrameObjection.Compliance => "a frame will not be cared for",
        FrameObjection.PoorBone => "poor bone (osteoporosis)",
        FrameObjection.PinPathInfected => "pin path through infection",
        FrameObjection.PinPathBurnt => "pin path through a burn",
        FrameObjection.OpenPhysis => "open physis in the pin path",
        FrameObjection.ImplantPath => "pins in the path of a planned nail or plate",
        FrameObjection.BleedingDisorder => "bleeding disorder",
        FrameObjection.MetalAllergy => "metal allergy",
        _ => "unfit for anaesthesia",
    };

    private static string Wound(OpenFractureGrade grade) => grade switch
    {
        OpenFractureGrade.I => "wound up to 1 cm, clean, low energy",
        OpenFractureGrade.II => "wound 1 to 10 cm, moderate",
        OpenFractureGrade.IIIA => "wound over 10 cm, high energy or farm; cover adequate",
        OpenFractureGrade.IIIB => "flap needed, periosteum stripped, heavy contamination",
        _ => "arterial injury that needs repair",
    };

    private static string Fixation(OpenFractureGrade grade) => grade switch
    {
        OpenFractureGrade.I => "nail or plate as in a closed fracture",
        OpenFractureGrade.II => "nail or plate; a frame when delayed or dirty",
        OpenFractureGrade.IIIA => "nail when clean, temporary frame when contaminated",
        OpenFractureGrade.IIIB => "frame, early flap, then nail or definitive frame",
        _ => "perfusion first, rapid frame, definitive repair, fasciotomy",
    };

    private static string Closed(ClosedSoftTissueGrade grade) => grade switch
    {
        ClosedSoftTissueGrade.Grade0 => "Grade 0: little or no soft-tissue injury",
        ClosedSoftTissueGrade.Grade1 => "Grade 1: superficial abrasion or contusion",
        ClosedSoftTissueGrade.Grade2 => "Grade 2: deep contaminated abrasion, contused muscle; a compartment syndrome threatens",
        _ => "Grade 3: extensive contusion or crush, degloving, compartment syndrome or arterial injury",
    };
}
