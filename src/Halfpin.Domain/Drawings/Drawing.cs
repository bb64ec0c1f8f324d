using System.Collections.Immutable;
using Halfpin.Domain.Frames;

namespace Halfpin.Domain.Drawings;

/// <summary>A point in limb axes of a right limb: x anterior, y medial, z proximal; z = −level.</summary>
public readonly record struct LimbPoint(double XMm, double YMm, double ZMm);

/// <summary>Where the parts of a frame lie, for figures.</summary>
public sealed record FrameDrawing(
    string FrameId, ImmutableArray<DrawnPin> Pins, ImmutableArray<DrawnRod> Rods, ImmutableArray<DrawnClamp> Clamps);

/// <summary>A pin from its tip over its entry into the bone to its outer end.</summary>
public sealed record DrawnPin(Pin Part, LimbPoint Tip, LimbPoint Entry, LimbPoint OuterEnd);

/// <summary>A rod from end to end; a cross-link ties rods that each bridge the fracture and holds no pin.</summary>
public sealed record DrawnRod(Rod Part, LimbPoint From, LimbPoint To, bool IsCrossLink);

/// <summary>A clamp between the nearest points of its two members. Clamps that are off are not drawn.</summary>
public sealed record DrawnClamp(Clamp Part, LimbPoint OnMember, LimbPoint OnRod);

/// <summary>The bone for figures: outlines by level, evenly spaced in azimuth from 0° on.</summary>
/// <param name="LengthMm">Length of the bone.</param>
/// <param name="Outlines">Outlines from proximal.</param>
/// <param name="Fractures">Its fractures, from proximal.</param>
public sealed record BoneDrawing(double LengthMm, ImmutableArray<BoneOutline> Outlines, ImmutableArray<DrawnFracture> Fractures)
{
    /// <summary>Level of the first fracture's proximal face on the axis.</summary>
    public double ProximalFaceMm => Fractures[0].ProximalFaceMm;

    /// <summary>Level of the last fracture's distal face on the axis.</summary>
    public double DistalFaceMm => Fractures[^1].DistalFaceMm;

    /// <summary>The bone at the first fracture.</summary>
    public BoneOutline AtFracture => Fractures[0].Outline;
}

/// <summary>A fracture: levels of its faces on the axis, and the bone midway.</summary>
public sealed record DrawnFracture(double ProximalFaceMm, double DistalFaceMm, BoneOutline Outline);

/// <summary>Outline and canal at a level.</summary>
public sealed record BoneOutline(double LevelMm, ImmutableArray<double> OuterMm, ImmutableArray<double> CanalMm);
