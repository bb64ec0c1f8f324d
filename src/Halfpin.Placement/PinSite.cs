using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.SoftTissue;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Placement.Corridors;

namespace Halfpin.Placement;

/// <summary>One pin in a limb and what rules of placement read of it, each found when first asked for. One thread at a time.</summary>
internal sealed class PinSite(BoneShape bone, SkinShape? skin, Pin pin)
{
    private const double SkinStepMm = 0.5;
    private const double FarthestSkinMm = 200;

    private double? _skinMm;
    private (CorridorGrade Grade, double LevelMm)? _entry;
    private ImmutableArray<NearStructure> _wayIn;
    private ImmutableArray<string> _behind;

    /// <summary>The pin in space.</summary>
    public PlacedPin Placed { get; } = PlacedPin.Place(bone, pin);

    /// <summary>Distance along the pin to where it leaves the skin; to the bone's surface on a synthetic bone.</summary>
    public double SkinMm => _skinMm ??= ToSkinMm();

    /// <summary>The worst grade where it enters, and at which level.</summary>
    public (CorridorGrade Grade, double LevelMm) Entry => _entry ??= PinPassage.WorstEntry(bone, pin, Placed);

    /// <summary>Structures on its way from skin to bone, nearest first.</summary>
    public ImmutableArray<NearStructure> WayIn => _wayIn.IsDefault ? _wayIn = PinPassage.Near(bone, pin, Placed, Placed.SurfaceMm, SkinMm, PinPassage.WayInMm) : _wayIn;

    /// <summary>Structures behind its far surface.</summary>
    public ImmutableArray<string> Behind => _behind.IsDefault ? _behind = PinPassage.Behind(bone, Placed) : _behind;

    private double ToSkinMm()
    {
        double at = Placed.SurfaceMm;
        while (skin is not null && Inside(skin, Placed.At(at)) && at < Placed.SurfaceMm + FarthestSkinMm)
        {
            at += SkinStepMm;
        }

        return at;
    }

    private static bool Inside(SkinShape skin, Vec3 p) => double.Hypot(p.X, p.Y) < skin.RadiusMm(-p.Z, Math.Atan2(p.Y, p.X) * 180 / Math.PI);
}
