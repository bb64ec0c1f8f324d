using System.Globalization;
using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.Corridors;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Placement;
using Halfpin.Placement.Corridors;

namespace Halfpin.Workbench.Skin;

/// <summary>Rolls out the skin of a case's leg.</summary>
public static class SkinMapBuilder
{
    private const int Stretches = 88;
    private const int EdgeStepDeg = 10;

    /// <summary>The map with the pins of some frames.</summary>
    public static SkinMap Of(Case value, IEnumerable<Frame> frames)
    {
        BoneShape bone = BoneShape.For(value.Limb);
        bool anatomical = value.Limb.BoneModel is AnatomicalBone;
        return new(
            value.Limb.LengthMm,
            anatomical ? [.. Sectors(value.Limb.LengthMm)] : [],
            [
                .. value.Wounds.SelectMany((w, i) => Patches(w, $"/wounds/{i}", WoundName(i), isIncision: false)),
                .. value.PlannedIncisions.SelectMany((p, i) => Patches(p, $"/plannedIncisions/{i}", $"{IncisionName(i)}, {p.For.ToString().ToLowerInvariant()}", isIncision: true)),
            ],
            [.. value.Fractures.Select(f => Fracture(f, bone))],
            [.. frames.SelectMany(f => Pins(value, f, bone, anatomical))]);
    }

    // Each stretch has the grades of its middle.
    private static IEnumerable<SkinSector> Sectors(double lengthMm) => Enumerable.Range(0, Stretches).SelectMany(i =>
        TibiaCorridors.SectorsAt(100 * (i + 0.5) / Stretches).Where(s => s.Grade != CorridorGrade.Avoid)
            .Select(s => new SkinSector(s.Grade, lengthMm * i / Stretches, lengthMm * (i + 1) / Stretches, s.FromDeg, s.ToDeg)));

    private static IEnumerable<SkinPatch> Patches(Wound area, string pointer, string name, bool isIncision)
    {
        SkinPatch Patch(double from, double to, AreaEdges edges) => new(pointer, name, isIncision, area.FromLevelMm, area.ToLevelMm, from, to, edges, AreaDrag.Words(area));
        return area.FromAzimuthDeg <= area.ToAzimuthDeg
            ? [Patch(area.FromAzimuthDeg, area.ToAzimuthDeg, AreaEdges.All)]
            : [Patch(area.FromAzimuthDeg, 180, AreaEdges.All & ~AreaEdges.Second), Patch(-180, area.ToAzimuthDeg, AreaEdges.All & ~AreaEdges.First)];
    }

    private static SkinFracture Fracture(Fracture fracture, BoneShape bone) => new(
    [
        .. Enumerable.Range(0, (360 / EdgeStepDeg) + 1).Select(i => (double)((i * EdgeStepDeg) - 180)).Select(a =>
        {
            // DistalMm of a point at level 0 is the plane's level there, with its sign turned.
            double level = -FracturePlane.DistalMm(fracture, bone.OuterRadiusMm(fracture.LevelMm, a) * PlacedPin.Radial(a));
            return new SkinEdge(a, level - (fracture.GapMm / 2), level + (fracture.GapMm / 2));
        }),
    ]);

    private static IEnumerable<SkinPin> Pins(Case value, Frame frame, BoneShape bone, bool anatomical)
    {
        Parts parts = frame.Parts ?? ConstructBuilder.Build(frame.Construct!, value.Fractures);
        PlacedFrame placed = PlacedFrame.Of(value, parts, bone);
        return parts.Pins.Select((p, i) =>
        {
            Vec3 at = placed.Pins[i].At(placed.SkinMm(i));
            return new SkinPin(frame.Id, p.Id, -at.Z, Math.Atan2(at.Y, at.X) * 180 / Math.PI, anatomical ? PinPassage.Entry(bone, p, placed.Pins[i]) : null);
        });
    }

    /// <summary>Name of a wound by its place in the case.</summary>
    internal static string WoundName(int index) => Name("wound", index);

    /// <summary>Name of a planned incision by its place in the case.</summary>
    internal static string IncisionName(int index) => Name("incision", index);

    private static string Name(string kind, int index) => $"{kind} {(index + 1).ToString(CultureInfo.InvariantCulture)}";
}
