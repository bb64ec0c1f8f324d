using System.Collections.Immutable;

namespace Halfpin.Domain.Drawings;

/// <summary>How the parts of a frame move under the chosen load, for figures; true size, in limb axes.</summary>
/// <param name="Lines">Pins and rods.</param>
/// <param name="Fragments">The bone's fragments, from proximal.</param>
/// <param name="LargestMm">The largest movement of any point given.</param>
public sealed record BentDrawing(ImmutableArray<BentLine> Lines, ImmutableArray<BentFragment> Fragments, double LargestMm);

/// <summary>Points along a part's axis and how each moves.</summary>
public sealed record BentLine(string Part, double DiameterMm, ImmutableArray<MovedPoint> Points);

/// <summary>Points on the bone's axis from proximal and how each moves.</summary>
public sealed record BentFragment(ImmutableArray<MovedPoint> Points);

/// <summary>A point, its movement (mm) and the small rotation there (rad, about limb axes).</summary>
public sealed record MovedPoint(LimbPoint At, LimbPoint ByMm, LimbPoint TurnedRad);
