using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>A movement of the distal fragment that brings it into line, the proximal one held, and how a frame lets it.</summary>
public sealed record AlignmentCorrection
{
    /// <summary>Id of the frame; null for the movement by itself.</summary>
    public string? Frame { get; init; }

    /// <summary>Name of the frame.</summary>
    public string? Name { get; init; }

    /// <summary>Level of the fracture's middle; null without a case.</summary>
    public double? FractureLevelMm { get; init; }

    /// <summary>
    /// Azimuth of the axis of the angular correction, through the fracture's centre and square to the plane of deformity; by the right
    /// hand about it, the foot end goes toward the apex. Null when there is nothing to turn.
    /// </summary>
    public double? AxisAzimuthDeg { get; init; }

    /// <summary>Turn about that axis.</summary>
    public required double AngleDeg { get; init; }

    /// <summary>The whole turn about one axis, rotation about the bone included.</summary>
    public required double WholeTurnDeg { get; init; }

    /// <summary>The movement in words, the proximal fragment held.</summary>
    public required ImmutableArray<string> Words { get; init; }

    /// <summary>What this frame cannot let happen whichever clamps are loosened.</summary>
    public ImmutableArray<string> CannotCorrect { get; init; } = [];

    /// <summary>Which clamps to loosen together, the way that its clamps follow best first.</summary>
    public ImmutableArray<ReductionWay> Ways { get; init; } = [];
}

/// <summary>One set of clamps that, loosened together, divides the frame at a fracture.</summary>
public sealed record ReductionWay
{
    /// <summary>Stable word: distalPinClamps, proximalPinClamps or rodClamps.</summary>
    public required string Id { get; init; }

    /// <summary>Ids of the clamps to loosen together.</summary>
    public required ImmutableArray<string> Loosen { get; init; }

    /// <summary>Pass when clamps can follow, caution when pins must give a little, fail when they cannot.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>What it asks for, in a sentence.</summary>
    public required string Message { get; init; }

    /// <summary>Largest misfit of a clamp: see <see cref="ClampTravel.MisfitMm"/>; null when members of a clamp come to run parallel.</summary>
    public required double? MisfitMm { get; init; }

    /// <summary>How far each clamp travels.</summary>
    public required ImmutableArray<ClampTravel> Clamps { get; init; }

    /// <summary>What the fracture does if the turn is made about a clamp.</summary>
    public required ImmutableArray<PivotTravel> Pivots { get; init; }
}

/// <summary>How far a loosened clamp travels between its two members from deformed to aligned.</summary>
/// <param name="Clamp">Its id.</param>
/// <param name="SlideAlongRodMm">Along the rod, toward its second point positive.</param>
/// <param name="SlideAlongMemberMm">Along the pin, outwards positive, or along the other rod, toward its second point.</param>
/// <param name="TurnAboutRodDeg">Of the pin (or other rod) about the rod, by the right hand about the rod's direction.</param>
/// <param name="TurnAboutMemberDeg">Of the rod about the pin (or other rod), by the right hand about its direction.</param>
/// <param name="HingeDeg">Change of the angle between the two members.</param>
/// <param name="MisfitMm">Change of the distance between the two axes, which no clamp can follow.</param>
/// <param name="Warning">Where the clamp would leave its rod or meet the bone; else null.</param>
public sealed record ClampTravel(
    string Clamp, double SlideAlongRodMm, double SlideAlongMemberMm, double TurnAboutRodDeg, double TurnAboutMemberDeg, double HingeDeg, double MisfitMm, string? Warning);

/// <summary>What the distal fracture end does when the whole turn is made about a clamp and not about the fracture's centre.</summary>
/// <param name="Clamp">The clamp turned about.</param>
/// <param name="Centre">Travel of the end's centre.</param>
/// <param name="NearCortex">Travel of its cortex toward the clamp.</param>
/// <param name="FarCortex">Travel of the opposite cortex.</param>
/// <param name="LeftOver">Where the centre then stands from its aligned place: what must still be shifted.</param>
public sealed record PivotTravel(string Clamp, PointTravel Centre, PointTravel NearCortex, PointTravel FarCortex, PointTravel LeftOver);

/// <summary>A movement of a point.</summary>
/// <param name="AcrossMm">Across the proximal axis.</param>
/// <param name="AzimuthDeg">In which direction; null when it does not move across.</param>
/// <param name="OpeningMm">Along the axis: away from the proximal fragment positive.</param>
public sealed record PointTravel(double AcrossMm, double? AzimuthDeg, double OpeningMm);
