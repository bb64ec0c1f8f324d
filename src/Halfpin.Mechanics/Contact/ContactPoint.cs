using Halfpin.Mechanics.Geometry;

namespace Halfpin.Mechanics.Contact;

/// <summary>A point of a site at which the two faces can come to bear on each other.</summary>
/// <param name="OffsetMm">From the site point, rigidly joined to both faces.</param>
/// <param name="Normal">Unit vector from the lower face to the upper one.</param>
/// <param name="GapMm">Distance of the faces along the normal before any motion; not negative.</param>
/// <param name="StiffnessNPerMm">Normal stiffness once they touch, more than 0.</param>
/// <param name="Site">Which site it belongs to.</param>
public readonly record struct ContactPoint(Vec3 OffsetMm, Vec3 Normal, double GapMm, double StiffnessNPerMm, int Site = 0);

/// <summary>How the equilibrium of the sites came out.</summary>
public enum ContactStatus
{
    /// <summary>Found.</summary>
    Solved,

    /// <summary>The load drives the bodies along a free slide and nothing comes to bear.</summary>
    Unrestrained,

    /// <summary>The iteration did not end: nothing is to be shown.</summary>
    NotConverged,
}
