namespace Halfpin.Reports.Words;

/// <summary>Terms of mechanics, healing and studies.</summary>
internal static class MechanicsTerms
{
    public static GlossaryTerm[] Mechanics { get; } =
    [
        new("stiffness", "Stiffness", "How much load it takes to move the bone ends by one unit. A stiff frame moves little; that says nothing about when it breaks.", ["stiffness at the fracture", "stiffnesses at the fracture", "stiffness"]),
        new("axial-stiffness", "Axial stiffness", "Stiffness in compression along the bone: newtons for each millimetre that the gap closes.", ["axial stiffness"]),
        new("ap-bending", "AP bending stiffness", "Newton metres for each degree that the bone ends bend against each other from front to back.", ["AP bending", "AP bending stiffness"]),
        new("ml-bending", "ML bending stiffness", "Newton metres for each degree that the bone ends bend against each other from side to side.", ["ML bending", "ML bending stiffness"]),
        new("torsion", "Torsional stiffness", "Newton metres for each degree that the bone ends turn against each other about the bone's axis.", ["torsion", "torsional stiffness"]),
        new("weak-direction", "Weakest direction of bending", "A frame bends more easily in some planes than in others, most easily square to its pins. This is the plane in which it is softest.", ["weakest direction", "weakest bending", "least bending stiffness"]),
        new("bending-rose", "Bending rose", "Bending stiffness drawn for every direction round the leg: the farther the curve from the middle, the stiffer.", ["bending by direction", "bending rose"]),
        new("interfragmentary-motion", "Interfragmentary motion", "How far the bone ends move against each other at the fracture. A little along the axis wakes callus; much of it, or shear, disturbs it.", ["interfragmentary motion", "movement at the fracture"]),
        new("axial-motion", "Axial motion", "How far the gap closes or opens along the bone.", ["axial motion", "axial freedom"]),
        new("shear", "Shear", "How far the bone ends slide past each other across the bone.", ["shear"]),
        new("tilt", "Tilt", "By how many degrees the bone ends bend against each other.", ["tilt"]),
        new("twist", "Twist", "By how many degrees the bone ends turn against each other about the bone's axis.", ["twist"]),
        new("strain", "Strain of the gap", "Movement of the gap divided by its width, in per cent. The tissue in the gap feels this, so a narrow gap is strained more by the same movement.", ["strain of the gap", "strain"]),
        new("window", "Wanted range", "The range of stiffness that gives the movement wanted at the load looked at. It is worked out from that movement; no range of stiffness is published.", []),
        new("band", "Band", "From the softest to the stiffest that a number may be, since parts, bone and placement are never quite as entered.", []),
        new("mechanism", "Mechanism", "A frame with a part free to move without any force, so that it holds nothing. No number is given for it.", ["mechanism"]),
        new("withheld", "Withheld", "A number that is not shown, because the model does not hold there. The reason stands beside it.", ["withheld"]),
        new("first-limit", "First limit", "The axial load at which the first part of the model reaches its limit, or the bone ends touch. It is no load to allow.", ["first limit"]),
        new("used", "Used part of its limit", "How much of what a part can bear is taken up at the load looked at: 100 % is the limit.", ["most used part of its limit", "most use of any limit", "utilisation", "nearest to a limit", "nearest limit"]),
        new("fatigue", "Fatigue", "Breaking by many small loads, each far too small to break the part at once.", ["fatigue"]),
        new("fatigue-utilisation", "Fatigue utilisation", "How much of a pin's life the counted steps use up: 100 % is the number of steps at which it is expected to break.", ["fatigue utilisation", "most use of a pin's life"]),
        new("yield", "Yield", "Bending that stays. Below the yield stress a part springs back, above it it does not.", ["yield stress"]),
        new("slip-moment", "Slip moment", "The turning moment at which a clamp no longer holds by friction.", ["slip moment", "clamp slips at"]),
        new("bearing", "Bearing of bone", "Pressure of a pin on the bone round it. Too much crushes the bone, and the pin loosens.", ["bone bearing"]),
        new("pull-out", "Pull-out margin", "How many times over the thread could bear the force that draws the pin out of the bone.", ["pull-out margin", "pull-out"]),
        new("overload", "Overload", "More load than was meant: a stumble, or more weight than was asked for.", ["overload"]),
        new("overshoot", "Overshoot", "By how much patients are known to exceed the load they were told. The overload case adds it.", ["overshoot"]),
        new("permanent-set", "Permanent set", "What does not spring back when the load comes off: the frame stays out of shape.", ["permanent set"]),
        new("modulus", "Young's modulus", "Stiffness of a material itself, in MPa, whatever its shape. Callus gains it as it turns into bone.", ["Young's modulus", "modulus"]),
        new("poisson", "Poisson's ratio", "How much a material narrows when it is stretched, as a share of the stretch.", ["Poisson's ratio"]),
        new("foundation", "Foundation of the pin", "How stiffly bone seats the pin in it: the force on each millimetre of pin that pushes it one millimetre into the bone.", ["foundation of the pin", "pins in bone", "seat of the pins"]),
        new("beam-theory", "Beam theory", "How rods and pins are taken to bend. Timoshenko counts that they also give in shear; Euler–Bernoulli does not.", ["beam theory"]),
        new("torsion-load", "Torsion as a load", "A moment that turns the leg about its axis, as when turning over the planted foot.", []),
        new("bending-load", "Bending as a load", "A moment that bends the leg, front to back (AP) or side to side (ML), beside the load along the bone.", []),
        new("load-line", "Load line", "The line along which body weight acts. Off the bone's axis it bends the leg as well as pressing on it.", ["load line"]),
    ];

    public static GlossaryTerm[] Healing { get; } =
    [
        new("callus", "Callus", "The new tissue that bridges the fracture, soft at first and then bone. It takes over load from the frame.", ["callus"]),
        new("dynamisation", "Dynamisation", "Letting the frame give along the bone on purpose, so that the fracture takes more load, while bending and torsion are kept.", ["dynamisation", "dynamised"]),
        new("gate", "Before any stage", "What must have been seen before a frame is loosened: bone ends in contact, no bone missing, callus, calm pin sites.", []),
        new("kept", "Kept", "Stiffness of the stage as a share of the frame as mounted.", ["kept AP", "kept ML", "kept torsion"]),
        new("share", "Frame carries", "The part of the axial load that goes through the frame. The rest goes through callus or touching bone ends.", ["frame carries"]),
        new("weight-bearing", "Weight-bearing", "How much of the body's weight goes on the leg: none, toe-touch, partial or full.", ["weight-bearing"]),
        new("collar", "Collar of callus", "Callus round the outside of the bone. A wider collar is much stiffer in bending.", ["collar of callus"]),
    ];

    public static GlossaryTerm[] Studies { get; } =
    [
        new("candidate", "Candidate", "One frame of all those that the search could build from sizes, places and layouts.", ["candidates"]),
        new("pareto-set", "Pareto set", "The frames of which none is better than another in everything: to gain in one thing you must give up another.", ["Pareto set", "none of these beats another in everything"]),
        new("smallest-change", "Smallest change", "The least that must be altered in a frame of the case so that it meets all that is required.", ["smallest change"]),
        new("relative-cost", "Relative cost", "Points for pins, rods and clamps, for comparing only. It is no price.", ["relative cost"]),
        new("margin", "Least margin", "How far the closest requirement is from being missed, in per cent of it.", ["least margin"]),
        new("soft-end", "Soft end", "The case in which clamps, pin seats and bone are all as soft as may be.", ["at the soft end"]),
        new("sample", "Sample", "One trial with all uncertain inputs drawn at once, as they might be on the day.", ["samples"]),
        new("seed", "Seed", "The number from which the draws start. The same seed gives the same figures.", ["seed"]),
        new("median", "Median", "The middle result: half of the samples lie below it and half above.", ["median", "medians"]),
        new("middle-band", "5–95 % band", "Nine in ten samples lie in it: one in twenty is below, one in twenty above.", ["5–95 % band", "middle nine tenths"]),
        new("stiffer-chance", "How likely stiffer", "In how many of the samples one frame is stiffer than the other when both are drawn with the same parts, bone and slips of the hand.", ["how likely it is stiffer"]),
        new("sobol-index", "Sobol’ index", "The share of a result's spread that comes from one input: alone, and with its exchanges with the others.", ["Sobol’ index", "Sobol’ indices", "which input matters most"]),
        new("exchanges", "With exchanges", "The share of a spread in which an input has a part at all, whether alone or together with others.", ["with exchanges"]),
        new("interval", "95 % interval", "Where the figure itself may lie, since only so many samples were drawn. More samples make it narrower.", ["95 % interval"]),
        new("nominal", "In the case", "The value as it was entered, without any spread.", ["in the case"]),
        new("tag", "READ, MEMORY, DERIVED, ASSUMED …", "How well a number is founded. READ: seen in the source named. MEASURED: measured here. DERIVED: worked out. ESTIMATE: judged. MEMORY: known but not seen. ASSUMED: our choice. GIVEN: set by the case or the stock.", []),
        new("caution", "Caution", "A check that neither passes nor fails: it can be right, but someone should have thought about it.", ["cautions", "caution"]),
    ];
}
