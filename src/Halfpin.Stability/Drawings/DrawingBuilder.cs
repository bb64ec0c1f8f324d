using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Placement;

namespace Halfpin.Stability.Drawings;

/// <summary>Places the parts of a case in space for figures.</summary>
public sealed class DrawingBuilder(Case value)
{
    // A pin without a given length is drawn this far beyond its outermost clamp. Common practice, no source.
    private const double TailMm = 15;
    private const int OutlineLevels = 60;
    private const int Azimuths = 72;

    private readonly BoneShape _bone = BoneShape.For(value.Limb);

    /// <summary>The bone with its fractures.</summary>
    public BoneDrawing Bone() => new(
        value.Limb.LengthMm,
        [.. Enumerable.Range(0, OutlineLevels + 1).Select(i => Outline(value.Limb.LengthMm * i / OutlineLevels))],
        [.. value.Fractures.Select(f => new DrawnFracture(f.LevelMm - (f.GapMm / 2), f.LevelMm + (f.GapMm / 2), Outline(f.LevelMm)))]);

    /// <summary>The parts of a frame.</summary>
    public FrameDrawing Frame(string id, Parts parts)
    {
        Dictionary<string, PlacedPin> pins = parts.Pins.ToDictionary(p => p.Id, p => PlacedPin.Place(_bone, p));
        Dictionary<string, PlacedRod> rods = parts.Rods.ToDictionary(r => r.Id, r => PlacedRod.Place(_bone, r));
        (Clamp Clamp, PlacedClamp Placed)[] clamps = [.. parts.Clamps.Where(c => c.State != ClampState.Off).Select(c => (c, Place(c, pins, rods)))];
        HashSet<string> links = CrossLinks(parts, [.. clamps.Select(c => c.Clamp)]);
        return new(
            id,
            [.. parts.Pins.Select(p => Drawn(p, pins[p.Id], clamps))],
            [.. parts.Rods.Select(r => Drawn(r, rods[r.Id], links.Contains(r.Id)))],
            [.. clamps.Select(c => new DrawnClamp(c.Clamp, Point(c.Placed.OnMemberMm), Point(c.Placed.OnRodMm)))]);
    }

    // A rod without pins between rods that do not bridge the fracture themselves is no cross-link: it carries the frame.
    private HashSet<string> CrossLinks(Parts parts, Clamp[] clamps)
    {
        ILookup<string, double> pinLevels = clamps.Where(c => c.Pin is not null).ToLookup(c => c.Rod, c => parts.Pins.First(p => p.Id == c.Pin).LevelMm);
        bool Bridges(string rod) => value.Fractures.All(f => pinLevels[rod].Any(l => l < f.LevelMm) && pinLevels[rod].Any(l => l > f.LevelMm));
        string[] Tied(string rod) => [.. clamps.Where(c => c.OtherRod is not null && (c.Rod == rod || c.OtherRod == rod)).Select(c => c.Rod == rod ? c.OtherRod! : c.Rod).Distinct()];
        return [.. parts.Rods.Select(r => r.Id).Where(r => !pinLevels.Contains(r) && Tied(r) is { Length: > 1 } tied && tied.All(Bridges))];
    }

    private static PlacedClamp Place(Clamp clamp, Dictionary<string, PlacedPin> pins, Dictionary<string, PlacedRod> rods)
    {
        PlacedRod rod = rods[clamp.Rod];
        return clamp.Pin is string pin
            ? PlacedClamp.Between(pins[pin].CrossingMm, pins[pin].Outward, rod.FromMm, rod.Along)
            : PlacedClamp.Between(rods[clamp.OtherRod!].FromMm, rods[clamp.OtherRod!].Along, rod.FromMm, rod.Along);
    }

    private static DrawnPin Drawn(Pin pin, PlacedPin placed, (Clamp Clamp, PlacedClamp Placed)[] clamps)
    {
        double outermost = clamps.Where(c => c.Clamp.Pin == pin.Id).Select(c => c.Placed.AlongMemberMm).DefaultIfEmpty(placed.SurfaceMm + 40).Max();
        double end = pin.LengthMm is double length ? placed.TipMm + length : outermost + TailMm;
        return new(pin, Point(placed.At(placed.TipMm)), Point(placed.At(placed.SurfaceMm)), Point(placed.At(end)));
    }

    private static DrawnRod Drawn(Rod rod, PlacedRod placed, bool isCrossLink) => new(
        rod,
        Point(placed.FromMm - (placed.OverhangMm * placed.Along)),
        Point(placed.ToMm + (placed.OverhangMm * placed.Along)),
        isCrossLink);

    private BoneOutline Outline(double levelMm) => new(levelMm, Radii(a => _bone.OuterRadiusMm(levelMm, a)), Radii(a => _bone.CanalRadiusMm(levelMm, a)));

    private static ImmutableArray<double> Radii(Func<double, double> at) => [.. Enumerable.Range(0, Azimuths).Select(i => at(i * 360.0 / Azimuths))];

    private static LimbPoint Point(Vec3 v) => new(v.X, v.Y, v.Z);
}
