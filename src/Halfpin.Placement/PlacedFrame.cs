using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.SoftTissue;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Placement;

/// <summary>The parts of a valid frame in the limb of its case.</summary>
public sealed class PlacedFrame
{
    private PlacedFrame(Case value, Parts parts, BoneShape bone, SkinShape? skin, Func<Pin, PinSite> site)
    {
        Case = value;
        Parts = parts;
        Bone = bone;
        Skin = skin;
        Sites = [.. parts.Pins.Select(site)];
        Pins = [.. Sites.Select(s => s.Placed)];
        Rods = [.. parts.Rods.Select(r => PlacedRod.Place(bone, r))];
        Clamps = [.. parts.Clamps.Select(Place)];
    }

    public Case Case { get; }

    public Parts Parts { get; }

    public BoneShape Bone { get; }

    /// <summary>Skin round the bone; null on a synthetic bone, which has none.</summary>
    public SkinShape? Skin { get; }

    /// <summary>The pins, in the order of the parts.</summary>
    public ImmutableArray<PlacedPin> Pins { get; }

    /// <summary>What rules read of each pin, in the order of the parts.</summary>
    internal ImmutableArray<PinSite> Sites { get; }

    /// <summary>The rods, in the order of the parts.</summary>
    public ImmutableArray<PlacedRod> Rods { get; }

    /// <summary>The clamps, in the order of the parts, those that are off too.</summary>
    public ImmutableArray<PlacedClamp> Clamps { get; }

    /// <summary>Places the parts of a valid frame.</summary>
    public static PlacedFrame Of(Case value, Parts parts, BoneShape bone)
    {
        SkinShape? skin = SkinOf(value.Limb, bone);
        return Of(value, parts, bone, skin, p => new(bone, skin, p));
    }

    /// <summary>The same from pins that may be known already.</summary>
    internal static PlacedFrame Of(Case value, Parts parts, BoneShape bone, SkinShape? skin, Func<Pin, PinSite> site) => new(value, parts, bone, skin, site);

    /// <summary>Skin round a limb's bone; null on a synthetic bone.</summary>
    internal static SkinShape? SkinOf(Limb limb, BoneShape bone) => limb.BoneModel is AnatomicalBone ? new(bone, limb.SoftTissue) : null;

    /// <summary>Number of a pin; −1 for none of the name.</summary>
    public int PinIndex(string? id) => IndexOf(Parts.Pins, p => p.Id == id);

    /// <summary>Number of a rod; −1 for none of the name.</summary>
    public int RodIndex(string? id) => IndexOf(Parts.Rods, r => r.Id == id);

    /// <summary>Which fragment a pin is in, numbered from proximal.</summary>
    public int FragmentOf(int pin) => Case.Fractures.Count(f => Parts.Pins[pin].LevelMm > f.LevelMm);

    /// <summary>A fragment's name, without article.</summary>
    public string FragmentWords(int fragment) => fragment == 0 ? "proximal fragment"
        : fragment == Case.Fractures.Length ? "distal fragment"
        : Case.Fractures.Length == 2 ? "middle fragment"
        : $"fragment {fragment + 1}";

    /// <summary>The clamps that are on, by number.</summary>
    public IEnumerable<int> ClampsOn() => Enumerable.Range(0, Clamps.Length).Where(c => Parts.Clamps[c].State != ClampState.Off);

    /// <summary>True for a rod that holds no pin: a cross-link.</summary>
    public bool IsLink(int rod) => !ClampsOn().Any(c => Parts.Clamps[c].Pin is not null && Parts.Clamps[c].Rod == Parts.Rods[rod].Id);

    /// <summary>Distance along a pin to where it leaves the skin; to the bone's surface on a synthetic bone.</summary>
    public double SkinMm(int pin) => Sites[pin].SkinMm;

    private PlacedClamp Place(Clamp clamp)
    {
        PlacedRod rod = Rods[RodIndex(clamp.Rod)];
        int pin = PinIndex(clamp.Pin);
        return pin >= 0
            ? PlacedClamp.Between(Pins[pin].CrossingMm, Pins[pin].Outward, rod.FromMm, rod.Along)
            : PlacedClamp.Between(Rods[RodIndex(clamp.OtherRod)].FromMm, Rods[RodIndex(clamp.OtherRod)].Along, rod.FromMm, rod.Along);
    }

    private static int IndexOf<T>(ImmutableArray<T> items, Func<T, bool> match)
    {
        for (int i = 0; i < items.Length; i++)
        {
            if (match(items[i]))
            {
                return i;
            }
        }

        return -1;
    }
}
