using Halfpin.Domain.Assessments;

namespace Halfpin.Planning.Steps;

/// <summary>The cautions of building a frame, each with its source and how well it is known.</summary>
internal static class StepCautions
{
    public static SourcedCaution Anatomy { get; } = new("Anatomy varies: dissection, sleeve and imaging decide where a pin may go.", "Common practice, no source", "common practice");

    public static SourcedCaution Compartments { get; } = new("Compartment syndrome: diastolic less compartment pressure under 30 mmHg is an alarm. Harm is irreversible from about 6 h.", "Schmidt AH 2017; Donaldson J 2014", "READ");

    public static SourcedCaution CompartmentSigns { get; } = new("Pain out of proportion counts before any pressure. Keep the limb at heart level.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution Release { get; } = new("From about 6 h harm is irreversible; whether a late fasciotomy still serves, the surgeon decides.", "About 6 h: Schmidt AH 2017; Donaldson J 2014, READ; the rest from memory", "MEMORY");

    public static SourcedCaution Open { get; } = new("If the fracture is open: intravenous antibiotic within 60 min, debridement within 24 h, cover within 7 days, as local protocol has it.", "You DZ, Schneider PS. OTA Int 2020; Appropedia training module", "READ");

    public static SourcedCaution Vessel { get; } = new("A limb without perfusion: restoring flow comes before any frame; the vascular team decides the order.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution Flow { get; } = new("Usual order: shunt when ischaemic, rapid frame, definitive repair, fasciotomy.", "Usual teaching, from memory", "MEMORY");

    public static SourcedCaution Debridement { get; } = new("A clean wound first, then the frame: what is debrided is reached without it, and pins stay out of what is dirty. A limb without flow or a patient who cannot wait may turn the order round.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution Incisions { get; } = new("Keep pins clear of later incisions and of the way of a later nail or plate.", "Online reference: pins outside later plate and nail paths", "READ");

    public static SourcedCaution Aligned { get; } = new("A single rod allows little correction once it is closed: the limb is aligned before.", "Common practice, no source", "common practice");

    public static SourcedCaution OnePlane { get; } = new("At the clamps of pins in one plane, length, angulation and shift in this plane can be set; rotation and what lies out of the plane cannot.", "Geometry of pins and clamps, as for alignment", "DERIVED");

    public static SourcedCaution Middle { get; } = new("A middle fragment is loose on both sides: it turns under the drill unless it is held.", "Common practice, no source", "common practice");

    public static SourcedCaution Handles { get; } = new("Partial frames are locked first, then joined.", "Frame order: online reference", "READ");

    public static SourcedCaution Heat { get; } = new("Bone is harmed above about 47 °C, and the far cortex gets hottest.", "Augustin G. Clin Biomech 2012;27:313-325; Matthews 1984; Paul B 2021; Greinwald M 2018", "READ");

    public static SourcedCaution Drilling { get; } = new("Sharp drill, slow, cooled, with pauses, not through the crest.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution ThreadInSkin { get; } = new("Thread starts at or under the near cortex, not in the skin: it rubs there, and the pin bends with its core.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution Skin { get; } = new("Lengthwise cut, blunt spread to bone, no tension of the skin on the pin.", "Small vertical cut and blunt spread READ; 10–15 mm and tension MEMORY", "MEMORY");

    public static SourcedCaution Edges { get; } = new("Walk the tip to both edges of the bone and centre it between them.", "Wheeless' textbook, external fixation toolbox", "READ");

    public static SourcedCaution Sleeve { get; } = new("Drill and pin pass through a sleeve held on bone.", "Online reference", "READ");

    public static SourcedCaution Plunging { get; } = new("Power for the near cortex, hand for the far one: it avoids plunging.", "Appropedia training module", "READ");

    public static SourcedCaution DrilledDepth { get; } = new("A blunt pin's tip stands no more than 2 mm past the far cortex. The image tells, never the count of turns.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution SelfDrillingDepth { get; } = new("A self-drilling tip is lodged in the far cortex, not through it. The image tells, never the count of turns.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution Guided { get; } = new("A rod takes a clamp for each pin to come; each goes in through its clamp.", "Three pins on one rod: online reference, femur", "READ");

    public static SourcedCaution Order { get; } = new("Far pins first, then near ones; near pins clear of damaged skin.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution Targets { get; } = new("Reduction to aim within: 5° varus or valgus, 10° in the sagittal plane, 10° of rotation, 10 mm short.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution TwoStages { get; } = new("Clamps are tightened in two stages with an image between.", "Common practice, no source", "common practice");

    public static SourcedCaution OpenSide { get; } = new("Only a clamp that opens to the side can be put on a mounted rod.", "Building order of this frame", "DERIVED");

    public static SourcedCaution Room { get; } = new("Between rod and skin two fingers, 30–40 mm, never under 20 mm; look again at full swelling, 24–72 h.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution Image { get; } = new("Image in the plane of each pin and at 90° to it.", "Image intensifier when possible READ; views MEMORY", "MEMORY");

    public static SourcedCaution Ankle { get; } = new("The foot falls into equinus in weeks if nothing holds it.", "Neutral foot, heel off the bed: online reference and memory", "MEMORY");

    public static SourcedCaution Retighten { get; } = new("All clamps are tightened again at the first visit.", "Common practice, no source", "common practice");

    public static SourcedCaution PinCare { get; } = new("Weekly alcoholic chlorhexidine, non-shedding gauze, light compressive dressing; more often when wet or infected.", "RCN consensus 2010/2011; RNOH leaflet", "READ");

    public static SourcedCaution NoLoad { get; } = new("Halfpin never issues an allowed load: how the bone ends bear, how pins hold in this bone, wound, pain and how well orders are kept decide it, and no number here knows them.", "What the model leaves out", "DERIVED");

    public static SourcedCaution Conversion { get; } = new("Infection after change to a nail: 6.5 % up to 14 days, 5.9 % at 15–28, 23.3 % after 28 (122 open fractures).", "J Orthop Surg Res 2021, 10.1186/s13018-021-02814-7", "READ");

    public static SourcedCaution ConversionRule { get; } = new("Nail within 14 days and without pin infection; else in stages.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution Holes { get; } = new("Empty holes weaken the bone: protect it for 6–8 weeks.", "From memory, no source seen", "MEMORY");

    public static SourcedCaution Mechanism { get; } = new("This frame does not hold the fracture.", "Free motions of this frame, computed", "DERIVED");
}
