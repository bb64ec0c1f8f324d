using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.SoftTissue;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Placement;

/// <summary>The parts of a valid frame in the limb of its case.</summary>
public sealed class PlacedFrame
{
    private readonly ClampMembers[] _members;

    private PlacedFrame(Case value, Parts parts, BoneShape bone, SkinShape? skin, Func<Pin, PinSite> site)
    {
        Case = value;
        Parts = parts;
        Bone = bone;
        Skin = skin;
        PinSite[] sites = new PinSite[parts.Pins.Length];
        PlacedPin[] pins = new PlacedPin[sites.Length];
        for (int i = 0; i < pins.Length; i++)
        {
            sites[i] = site(parts.Pins[i]);
            pins[i] = sites[i].Placed;
        }

        PlacedRod[] rods = new PlacedRod[parts.Rods.Length];
        for (int i = 0; i < rods.Length; i++)
        {
            rods[i] = PlacedRod.Place(bone, parts.Rods[i]);
        }

        (Sites, Pins, Rods) = (ImmutableCollectionsMarshal.AsImmutableArray(sites), ImmutableCollectionsMarshal.AsImmutableArray(pins), ImmutableCollectionsMarshal.AsImmutableArray(rods));
        _members = new ClampMembers[parts.Clamps.Length];
        PlacedClamp[] clamps = new PlacedClamp[_members.Length];
        for (int i = 0; i < clamps.Length; i++)
        {
            Clamp clamp = parts.Clamps[i];
            _members[i] = new(PinIndex(clamp.Pin), RodIndex(clamp.Rod), RodIndex(clamp.OtherRod));
            clamps[i] = Place(_members[i]);
        }

        Clamps = ImmutableCollectionsMarshal.AsImmutableArray(clamps);
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
    public int PinIndex(string? id) => Parts.PinIndex(id);

    /// <summary>Number of a rod; −1 for none of the name.</summary>
    public int RodIndex(string? id) => Parts.RodIndex(id);

    /// <summary>Which fragment a pin is in, numbered from proximal.</summary>
    public int FragmentOf(int pin)
    {
        int fragment = 0;
        foreach (Fracture fracture in Case.Fractures)
        {
            fragment += Parts.Pins[pin].LevelMm > fracture.LevelMm ? 1 : 0;
        }

        return fragment;
    }

    /// <summary>A fragment's name, without article.</summary>
    public string FragmentWords(int fragment) => fragment == 0 ? "proximal fragment"
        : fragment == Case.Fractures.Length ? "distal fragment"
        : Case.Fractures.Length == 2 ? "middle fragment"
        : $"fragment {fragment + 1}";

    /// <summary>True for a clamp that is not off.</summary>
    public bool IsOn(int clamp) => Parts.Clamps[clamp].State != ClampState.Off;

    /// <summary>The clamps that are on, by number.</summary>
    public IEnumerable<int> ClampsOn() => Enumerable.Range(0, Clamps.Length).Where(IsOn);

    /// <summary>The members that a clamp joins.</summary>
    internal ClampMembers Members(int clamp) => _members[clamp];

    /// <summary>True for a rod that holds no pin: a cross-link.</summary>
    public bool IsLink(int rod)
    {
        for (int c = 0; c < _members.Length; c++)
        {
            if (IsOn(c) && _members[c].Pin >= 0 && _members[c].Rod == rod)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>True for a pin that a clamp holds.</summary>
    public bool IsHeld(int pin)
    {
        for (int c = 0; c < _members.Length; c++)
        {
            if (IsOn(c) && _members[c].Pin == pin)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Distance along a pin to where it leaves the skin; to the bone's surface on a synthetic bone.</summary>
    public double SkinMm(int pin) => Sites[pin].SkinMm;

    private PlacedClamp Place(ClampMembers joined)
    {
        PlacedRod rod = Rods[joined.Rod];
        return joined.Pin >= 0
            ? PlacedClamp.Between(Pins[joined.Pin].CrossingMm, Pins[joined.Pin].Outward, rod.FromMm, rod.Along)
            : PlacedClamp.Between(Rods[joined.OtherRod].FromMm, Rods[joined.OtherRod].Along, rod.FromMm, rod.Along);
    }
}

/// <summary>What a clamp joins, by number; −1 for none.</summary>
internal readonly record struct ClampMembers(int Pin, int Rod, int OtherRod);
