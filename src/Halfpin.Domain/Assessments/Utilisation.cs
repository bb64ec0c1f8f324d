using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>How near a part is to a limit.</summary>
/// <param name="Part">Id of the part.</param>
/// <param name="Check">Which limit: yield, fatigue, slip about a pin or rod, pivot, slide, bearing.</param>
/// <param name="Place">Where on the part.</param>
/// <param name="Value">Demand divided by limit; 1 is at the limit.</param>
public sealed record UtilisationEntry(string Part, string Check, string Place, double Value);

/// <summary>What reaches its limit first.</summary>
/// <param name="Part">Id of the part; fracture or frame when it is no part's limit.</param>
/// <param name="Check">Which limit; see <see cref="FirstLimits"/> for those that are no part's.</param>
/// <param name="Place">Where.</param>
/// <param name="LoadN">Axial load at which it does.</param>
/// <param name="LoadKg">The same as a reading on a scale.</param>
public sealed record FirstLimit(string Part, string Check, string Place, double LoadN, double LoadKg);

/// <summary>Ends of the first stretch of loading that are no part's limit.</summary>
public static class FirstLimits
{
    /// <summary>The bone ends touch: from there bone shares the load.</summary>
    public const string Touch = "touch";

    /// <summary>Small-displacement results end.</summary>
    public const string Range = "range";

    /// <summary>Loose clamps run and nothing stops them: beyond it the frame carries nothing.</summary>
    public const string Runs = "runs";
}

/// <summary>Internal forces along a part.</summary>
/// <param name="Part">Id of the part; bone fragments are fragment1 and fragment2.</param>
/// <param name="Stations">From the bone outwards for pins, from the first point for rods, from proximal for bone.</param>
public sealed record PartForces(string Part, ImmutableArray<ForceStation> Stations);

/// <summary>Internal forces at a point of a part: from what lies beyond on what lies before.</summary>
/// <param name="Place">Where.</param>
/// <param name="AtMm">Distance along the part.</param>
/// <param name="AxialN">Tension positive.</param>
/// <param name="ShearN">Size of the shear force.</param>
/// <param name="BendingNm">Size of the bending moment.</param>
/// <param name="TorsionNm">Torsion about the part's direction, right-handed.</param>
/// <param name="VonMisesMPa">Largest nominal von Mises stress; null where the model gives none.</param>
public sealed record ForceStation(
    string Place, double AtMm, double AxialN, double ShearN, double BendingNm, double TorsionNm, double? VonMisesMPa);
