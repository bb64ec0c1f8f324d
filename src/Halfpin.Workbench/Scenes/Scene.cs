using System.Collections.Immutable;

namespace Halfpin.Workbench.Scenes;

// What the drawing on the screen shows, in the shapes its program reads (ClientApp/src/viewer/scene.ts): limb axes, mm, degrees.

/// <summary>A surface round the limb's axis: radii by level and azimuth, evenly from anterior.</summary>
public sealed record SceneSurface(ImmutableArray<double> LevelsMm, ImmutableArray<ImmutableArray<double>> RadiiMm);

/// <summary>A fracture.</summary>
public sealed record SceneFracture(double LevelMm, double GapMm, double TiltDeg, double TiltAzimuthDeg);

/// <summary>An area of skin: a wound or a planned incision.</summary>
public sealed record SceneArea(double FromLevelMm, double ToLevelMm, double FromAzimuthDeg, double ToAzimuthDeg, string Kind);

/// <summary>The limb, which changes with the case but not with a frame.</summary>
public sealed record SceneLimb(string Side, double LengthMm, SceneSurface Bone, SceneSurface Canal, SceneSurface Skin, ImmutableArray<SceneFracture> Fractures, ImmutableArray<SceneArea> Areas);

/// <summary>Directions of a fitness at a level.</summary>
public sealed record SceneSector(double FromDeg, double ToDeg, string Zone, string Words);

/// <summary>A vessel, nerve or bone at a level.</summary>
public sealed record SceneStructure(string Name, double AzimuthDeg, double RadiusMm, string Kind);

/// <summary>A cross-section.</summary>
public sealed record SceneCut(double LevelMm, ImmutableArray<SceneSector> Sectors, ImmutableArray<SceneStructure> Structures);

/// <summary>A part of a frame as it is drawn.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Points">A pin: tip, entry into the bone, outer end; a rod: its ends; a clamp: on the rod, on the pin.</param>
/// <param name="DiameterMm">Its diameter; 0 for a clamp.</param>
/// <param name="Kind">pin, rod, link or clamp.</param>
/// <param name="IsCarbon">True for a rod of carbon.</param>
/// <param name="IsLoose">True for a loose clamp.</param>
/// <param name="Verdict">pass, caution or fail.</param>
public sealed record ScenePart(string Id, ImmutableArray<double[]> Points, double DiameterMm, string Kind, bool IsCarbon, bool IsLoose, string Verdict);

/// <summary>A handle as the drawing uses it.</summary>
public sealed record SceneHandle(string Part, string Motion, string Pointer, double Value, double Factor, double Min, double Max, double Step, string Label, string Unit);

/// <summary>A frame.</summary>
public sealed record SceneFrame(string Id, ImmutableArray<ScenePart> Parts, ImmutableArray<SceneHandle> Handles);

/// <summary>Movement under the chosen load.</summary>
public sealed record SceneBent(ImmutableArray<SceneBentLine> Lines, ImmutableArray<SceneBentFragment> Fragments, double Scale);

/// <summary>Movement along a part.</summary>
public sealed record SceneBentLine(string Part, double DiameterMm, ImmutableArray<double[]> Points, ImmutableArray<double[]> MovedMm);

/// <summary>Movement along a fragment of bone.</summary>
public sealed record SceneBentFragment(ImmutableArray<double> LevelsMm, ImmutableArray<double[]> MovedMm, ImmutableArray<double[]> TurnedRad);
