using System.Collections.Immutable;

namespace Halfpin.Domain.Drawings;

/// <summary>A point in limb axes of a right limb: x anterior, y medial, z proximal; z = −level.</summary>
public readonly record struct LimbPoint(double XMm, double YMm, double ZMm);

/// <summary>Where the parts of a frame lie, for figures.</summary>
public sealed record FrameDrawing(
    string FrameId, ImmutableArray<DrawnPin> Pins, ImmutableArray<DrawnRod> Rods, ImmutableArray<DrawnClamp> Clamps);

/// <summary>A pin from its tip to its outer end.</summary>
public sealed record DrawnPin(string Id, LimbPoint Tip, LimbPoint Entry, LimbPoint OuterEnd, double DiameterMm, double AzimuthDeg, double LevelMm);

/// <summary>A rod from end to end, with its distance from the bone along each of its pins.</summary>
public sealed record DrawnRod(string Id, LimbPoint From, LimbPoint To, double DiameterMm, bool IsLink);

/// <summary>A clamp between two points.</summary>
public sealed record DrawnClamp(string Id, LimbPoint OnMember, LimbPoint OnRod, bool IsLoose);

/// <summary>The bone for figures: outlines by level, evenly spaced in azimuth from 0° on.</summary>
public sealed record BoneDrawing(
    double LengthMm, double ProximalFaceMm, double DistalFaceMm, ImmutableArray<BoneOutline> Outlines, BoneOutline AtFracture);

/// <summary>Outline and canal at a level.</summary>
public sealed record BoneOutline(double LevelMm, ImmutableArray<double> OuterMm, ImmutableArray<double> CanalMm);
