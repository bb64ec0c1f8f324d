using System.Collections.Immutable;

namespace Halfpin.Anatomy.Corridors;

/// <summary>Directions at a stretch of the tibia, each range within the next.</summary>
/// <param name="Preferred">Where pins should go.</param>
/// <param name="Safe">Where pins may go.</param>
/// <param name="Caution">Where pins may go with dissection; all else is to be avoided but for the lateral range.</param>
/// <param name="Lateral">A second range of caution, on the lateral side; empty where there is none.</param>
internal readonly record struct CorridorRanges(AzimuthRange Preferred, AzimuthRange Safe, AzimuthRange Caution, AzimuthRange Lateral)
{
    public CorridorRanges And(CorridorRanges other) =>
        new(Preferred.And(other.Preferred), Safe.And(other.Safe), Caution.And(other.Caution), Lateral.And(other.Lateral));

    public CorridorRanges Toward(CorridorRanges other, double share) => new(
        Preferred.Toward(other.Preferred, share), Safe.Toward(other.Safe, share), Caution.Toward(other.Caution, share), Lateral.Toward(other.Lateral, share));
}

/// <summary>A stretch of the tibia with its directions and what is at risk.</summary>
/// <param name="FromPercent">Proximal end, share of the bone's length.</param>
/// <param name="ToPercent">Distal end.</param>
/// <param name="Name">Its name.</param>
/// <param name="Ranges">Directions for pins.</param>
/// <param name="LateralOfSafe">What the range of caution lateral of the safe one meets.</param>
/// <param name="MedialOfSafe">The same on the medial side.</param>
/// <param name="Within">What even the safe and preferred ranges meet under the skin.</param>
/// <param name="LateralRange">What the second, lateral range meets.</param>
/// <param name="Outside">What lies in the rest.</param>
/// <param name="Source">Where the edges come from.</param>
/// <param name="Tag">The weakest of their tags.</param>
internal sealed record CorridorZone(
    double FromPercent, double ToPercent, string Name, CorridorRanges Ranges, ImmutableArray<string> LateralOfSafe, ImmutableArray<string> MedialOfSafe,
    ImmutableArray<string> Within, ImmutableArray<string> LateralRange, ImmutableArray<string> Outside, string Source, string Tag);

/// <summary>
/// The tibia's zones: a synthesis of an arc of 220° proximal to the tuberosity (Wheeless' Textbook, READ), edges measured on six adult
/// bones (MEASURED) and margins that are estimates; a surgeon must check them. Azimuths of the pin's axis.
/// </summary>
internal static class CorridorZones
{
    private const string Atlas = "Arc of 220° (Wheeless' Textbook, READ), edges of bone (six adults, MEASURED), margins ESTIMATE";
    private const string Shaft = "Direction of half-pins (online surgical reference, tibial shaft, READ), edges of bone (six adults, MEASURED), margins ESTIMATE";

    public static ImmutableArray<CorridorZone> All { get; } =
    [
        new(0, 4, "knee joint and capsule", Nothing(45), [], [], [], [], ["knee joint capsule", "tibiofibular joint"],
            "Capsule reaches 4–14 mm below the joint: DeCoster et al., J Orthop Trauma 2004 (PMID 15472565)", "READ"),
        new(4, 10, "proximal metaphysis and tuberosity", Of(new(20, 70), new(10, 90), new(10, 105), new(-90, -45)),
            ["edge of the patellar tendon"], ["medial collateral ligament and pes tendons", "saphenous nerve and great saphenous vein"], [], ["anterior compartment: dissect"],
            ["patellar tendon and tuberosity in front", "fibular head and common peroneal nerve laterally", "popliteal vessels and tibial nerve behind"], Atlas, "ESTIMATE"),
        new(10, 30, "proximal third of the shaft", Of(new(20, 60), new(-10, 85), new(-100, 105), AzimuthRange.None(-70)),
            ["crest: heat and slipping", "tibialis anterior"], ["saphenous nerve and vein at the medial border"], [], [],
            ["anterior tibial vessels and deep peroneal nerve on the membrane", "posterior tibial bundle"], Shaft, "ESTIMATE"),
        new(30, 60, "middle third of the shaft", Of(new(20, 70), new(-10, 85), new(-70, 105), AzimuthRange.None(-70)),
            ["crest: heat and slipping", "tibialis anterior"], ["saphenous nerve and vein at the medial border"], [], [],
            ["anterior tibial vessels and deep peroneal nerve beside the lateral cortex", "peroneal vessels and posterior tibial bundle behind"], Shaft, "ESTIMATE"),
        new(60, 70, "distal third of the shaft, upper part", Of(new(30, 80), new(0, 90), new(-35, 105), AzimuthRange.None(-70)),
            ["crest: heat and slipping"], ["saphenous nerve and vein at the medial border"], [], [],
            ["anterior tibial vessels and deep peroneal nerve moving onto the lateral face", "tendons of tibialis anterior and extensor hallucis", "posterior tibial bundle behind"], Shaft, "ESTIMATE"),
        new(70, 87, "where the anterior tibial vessels cross", Of(new(30, 80), new(10, 90), new(0, 105), AzimuthRange.None(-70)),
            ["tendon of tibialis anterior"], ["saphenous nerve and vein at the medial border"], [], [],
            ["anterior tibial vessels and deep peroneal nerve on the lateral, then the anterior cortex", "posterior tibial bundle behind"],
            "Crossing 105 to 46 mm above the plafond: O'Leary et al., J Orthop Trauma 2024;38:e15 (READ); angles ESTIMATE", "ESTIMATE"),
        new(87, 93, "distal metaphysis", Of(new(45, 80), new(30, 90), new(15, 105), AzimuthRange.None(-70)),
            ["tendon of tibialis anterior"], ["tendon of tibialis posterior"], ["saphenous nerve and great saphenous vein cross here: cut, spread, sleeve"], [],
            ["anterior tibial vessels, deep peroneal nerve and extensor tendons in front", "superficial peroneal nerve anterolaterally", "posterior tibial bundle at 120° to 145°", "fibula"],
            "Mirza et al. 2010, Vives et al. 2001, J Orthop Trauma (READ); angles ESTIMATE", "ESTIMATE"),
        new(93, 96, "above the ankle's capsule", Of(AzimuthRange.None(62), AzimuthRange.None(62), new(45, 80), AzimuthRange.None(-70)),
            ["saphenous nerve and vein; image intensifier"], ["saphenous nerve and vein; image intensifier"], [], [],
            ["ankle recess", "syndesmotic recess"], "Vora et al., JBJS Am 2004;86:988 and MRI series (READ); angles ESTIMATE", "ESTIMATE"),
        new(96, 100, "ankle joint and capsule", Nothing(62), [], [], [], [], ["ankle joint capsule"],
            "Capsule to 12.2 mm above the joint: Vora et al., JBJS Am 2004;86:988", "READ"),
    ];

    private static CorridorRanges Of(AzimuthRange preferred, AzimuthRange safe, AzimuthRange caution, AzimuthRange lateral) => new(preferred, safe, caution, lateral);

    private static CorridorRanges Nothing(double aboutDeg)
    {
        AzimuthRange none = AzimuthRange.None(aboutDeg);
        return new(none, none, none, AzimuthRange.None(-70));
    }
}
