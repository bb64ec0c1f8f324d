namespace Halfpin.Reports.Words;

/// <summary>Terms of frames, their parts and the limb.</summary>
internal static class FrameTerms
{
    public static GlossaryTerm[] Frames { get; } =
    [
        new("external-fixator", "External fixation frame", "Pins in the bone joined by rods outside the skin. It holds the fracture without being buried in the wound.", ["external fixation frame", "external fixator"]),
        new("half-pin", "Half-pin", "A pin that enters the bone from one side, passes through both cortices and is held by a clamp on the side it came from. Also called a Schanz screw.", ["half-pin", "half-pins"]),
        new("schanz-screw", "Schanz screw", "Another name for a half-pin: a long pin with a thread at its tip.", ["Schanz screw", "Schanz screws"]),
        new("full-pin", "Full pin", "A transfixing pin: it leaves the limb on the other side and is held on both. It is not used here.", ["full pin", "transfixing pin"]),
        new("rod", "Rod", "The bar outside the skin that joins the pins, of steel or carbon fibre.", []),
        new("clamp", "Clamp", "Joins a pin to a rod, or a rod to a rod. Tight, it holds by friction and gives a little; overloaded, it slips.", ["clamp", "clamps"]),
        new("cross-link", "Cross-link", "A short rod that ties two rods or two planes of pins together.", ["cross-link", "cross-links"]),
        new("layout", "Layout", "How pins and rods are arranged. One rod: all pins in one plane. Two rods: a second rod on the same pins. V: pins in two planes, each with its rod, tied by cross-links.", ["layout"]),
        new("placement", "Pin placement", "Where along the bone the pins stand, told from the fracture: far-far, near-far, or evenly between the nearest and the farthest.", ["pins stand"]),
        new("near-far", "Near-far", "In each fragment one pin stands near the fracture and one far from it. The wide spread makes bending stiff; the near pins leave less bare rod over the fracture.", ["near-far"]),
        new("far-far", "Far-far", "The pins of each fragment stand away from the fracture, which keeps the injured soft tissue free but makes the frame softer.", ["far-far"]),
        new("near-pin", "Near pin", "The pin of a fragment that stands nearest to the fracture.", ["near pin", "near pins"]),
        new("far-pin", "Far pin", "The pin of a fragment that stands farthest from the fracture.", ["far pin", "far pins"]),
        new("pin-by-pin", "Pin by pin", "A frame given by each of its parts instead of by a layout, so that every pin can be moved by itself.", ["pin by pin", "part by part"]),
        new("standoff", "Standoff", "The distance from the bone's surface to the rod's axis, along the pins. The nearer the rod, the stiffer the frame; it must still clear the skin when it swells.", ["standoff", "rod to bone"]),
        new("rod-spacing", "Rod spacing", "The distance between the axes of two rods on the same pins.", ["outer rod beyond inner"]),
        new("working-length", "Working length", "The free length over which a part bends: of a pin from bone to clamp, of a rod between the two clamps nearest to the fracture. Shorter is stiffer.", ["working length"]),
        new("shank", "Shank and core", "The shank is the smooth part of a pin. The core is what is left of it at the root of the thread; it is thinner, so it bends and breaks first.", ["shank", "core of the thread"]),
        new("thread", "Thread", "The part of a pin that is cut to hold in bone. Common practice, no source: it should grip the far cortex and end before the skin.", ["thread length", "thread"]),
        new("exposed-thread", "Thread out of bone", "Thread that lies outside the bone. It bends with its thin core, and at the skin it irritates.", ["thread out of bone"]),
        new("bicortical", "Bicortical", "Held in both cortices, the one where the pin enters and the one opposite.", ["bicortical"]),
        new("near-cortex", "Near cortex", "The wall of the bone on the side of the rods, where the pins enter.", ["near cortex", "cortex near the rods"]),
        new("far-cortex", "Far cortex", "The wall of the bone opposite to the rods, where the tips of the pins come out.", ["far cortex", "opposite cortex"]),
        new("pre-drilled", "Pre-drilled", "A hole is drilled before the pin is put in, which keeps the bone cooler. A self-drilling pin cuts its own hole.", ["pre-drilled", "predrilled"]),
        new("self-drilling", "Self-drilling", "A pin whose tip cuts its own hole. Quick, but it heats the bone more than a pin in a drilled hole.", ["self-drilling"]),
        new("kit", "Kit", "All that must be laid out to build a frame: pins, rods, clamps and tools by size.", []),
        new("stage", "Stage", "A later state of the same frame, after clamps have been loosened or parts taken off.", ["stage", "stages"]),
    ];

    public static GlossaryTerm[] Limb { get; } =
    [
        new("level", "Level", "Height on the bone, in millimetres from the knee's joint line toward the foot.", ["level"]),
        new("azimuth", "Azimuth", "Direction round the bone: 0° is straight anterior, +90° medial, on either leg.", ["azimuth", "direction"]),
        new("proximal-distal", "Proximal and distal", "Proximal is toward the knee, distal toward the foot.", ["proximal edge", "distal edge"]),
        new("ap", "AP", "Anterior–posterior, front to back. AP bending is bending in that plane; the AP view is the X-ray from the front.", ["AP view"]),
        new("ml", "ML", "Medial–lateral, from the inner to the outer side. ML bending is bending in that plane.", []),
        new("corridor", "Corridor", "A sector round the bone, at one level, where a pin can enter without meeting vessels, nerves or much muscle.", ["corridor", "corridors"]),
        new("hazard", "Hazard", "A vessel, nerve, tendon or joint that a pin on that way could hit.", ["hazard", "hazards", "at risk"]),
        new("soft-tissue", "Soft-tissue cover", "Skin, fat and muscle between the bone and the outside. It grows with swelling, and the rod must stay clear of it.", ["soft tissue", "rod to skin", "bone to skin"]),
        new("fracture-pattern", "Pattern of the fracture", "Transverse: straight across the bone. Oblique and spiral: on a slope. Comminuted: in several pieces, so that the ends do not bear.", []),
        new("comminuted", "Comminuted", "In several pieces, so that the bone ends do not bear on each other until the gap has closed by far.", ["comminuted"]),
        new("gap", "Gap", "The distance between the bone ends as the frame holds them.", ["gap"]),
        new("fracture-tilt", "Tilt of the fracture", "How far the plane of the fracture is turned from square across the bone. On a tilted plane the ends tend to slide past each other under load.", []),
        new("contact", "Contact of the bone ends", "Once the gap has closed the bone ends bear on each other, and the bone takes its share of the load.", ["ends can bear on each other", "ends in contact", "friction of bone ends"]),
        new("purpose", "Temporary and definitive", "A temporary frame holds the limb until the final operation. A definitive one stays until the fracture has healed.", ["temporary", "definitive", "purpose"]),
        new("conversion", "Conversion", "The change from a temporary frame to a nail, a plate or another lasting fixation.", ["conversion"]),
        new("damage-control", "Damage control", "Short, provisional operations on a patient too ill for long ones; a quick frame is a part of it.", ["damage control", "damage-control"]),
        new("compartment", "Compartment syndrome", "Pressure in a closed muscle compartment that shuts off its blood. It is an emergency.", ["compartments", "compartment syndrome"]),
        new("pressure-gap", "Pressure gap", "Diastolic blood pressure less the pressure in the compartment. The smaller it is, the less blood gets in.", ["pressure gap"]),
        new("fasciotomy", "Fasciotomy", "Opening the fascia of the muscle compartments to relieve their pressure.", ["fasciotomy"]),
        new("debridement", "Debridement", "Cutting away dead and dirty tissue from a wound.", ["debridement"]),
        new("non-union", "Non-union", "A fracture that has stopped healing.", ["non-union"]),
        new("pin-site", "Pin site", "Skin and bone round a pin. Calm: dry, not red, the pin firm.", ["pin site", "pin sites"]),
        new("planned-incision", "Planned incision", "Skin that a later operation will need. Pins keep away from it, since every pin carries germs.", ["later surgery", "incision for"]),
        new("varus", "Varus and valgus", "Angulation seen from the front. Varus: the foot points inward; valgus: outward.", ["varus", "valgus", "angulation on the AP view"]),
        new("procurvatum", "Procurvatum and recurvatum", "Angulation seen from the side. Procurvatum: the fracture points forward; recurvatum: backward.", ["procurvatum", "recurvatum", "angulation on the lateral view"]),
        new("malrotation", "Rotation of the fragment", "How far the distal fragment is turned about the bone's axis. Plain X-rays do not show it.", ["rotation of the distal fragment"]),
        new("shift", "Shift", "How far the distal end lies to the side of the proximal one.", ["shift of the distal end"]),
    ];
}
