using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Workbench.Skin;

/// <summary>The skin of a leg rolled out: levels down the limb, azimuths round it from −180° to 180°, anterior in the middle.</summary>
/// <param name="LengthMm">Length of the bone, the height of the map.</param>
/// <param name="Sectors">Grades of corridors by stretches of level; empty for a bench tube.</param>
/// <param name="Areas">Wounds and incisions; one that passes behind the leg stands as two patches.</param>
/// <param name="Fractures">The edges of the fractures' gaps on the bone under the skin.</param>
/// <param name="Pins">Where pins pass the skin.</param>
public sealed record SkinMap(double LengthMm, ImmutableArray<SkinSector> Sectors, ImmutableArray<SkinPatch> Areas, ImmutableArray<SkinFracture> Fractures, ImmutableArray<SkinPin> Pins);

/// <summary>A patch of one grade.</summary>
public sealed record SkinSector(CorridorGrade Grade, double FromLevelMm, double ToLevelMm, double FromDeg, double ToDeg);

/// <summary>A patch of a wound or incision.</summary>
/// <param name="Pointer">Where its area stands in the case file.</param>
/// <param name="Name">Its name, such as "wound 1".</param>
/// <param name="IsIncision">True for a planned incision.</param>
/// <param name="FromLevelMm">Proximal edge.</param>
/// <param name="ToLevelMm">Distal edge.</param>
/// <param name="FromDeg">First edge round the limb.</param>
/// <param name="ToDeg">Second edge, above the first.</param>
/// <param name="Edges">Which of its edges are the area's own: behind the leg a patch ends where the drawing does.</param>
/// <param name="Words">The area in words.</param>
public sealed record SkinPatch(string Pointer, string Name, bool IsIncision, double FromLevelMm, double ToLevelMm, double FromDeg, double ToDeg, AreaEdges Edges, string Words);

/// <summary>A fracture's gap: its proximal and distal edge by azimuth.</summary>
public sealed record SkinFracture(ImmutableArray<SkinEdge> Edges);

/// <summary>The edges of a gap at an azimuth.</summary>
public sealed record SkinEdge(double AzimuthDeg, double ProximalMm, double DistalMm);

/// <summary>A pin where it passes the skin.</summary>
/// <param name="Frame">Id of its frame.</param>
/// <param name="Pin">Its id.</param>
/// <param name="LevelMm">Level at the skin.</param>
/// <param name="AzimuthDeg">Azimuth at the skin.</param>
/// <param name="Grade">Grade of its corridor; null for a bench tube.</param>
public sealed record SkinPin(string Frame, string Pin, double LevelMm, double AzimuthDeg, CorridorGrade? Grade);
