using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Placement;

namespace Halfpin.Stability.Idealisation;

/// <summary>Which parts a clamp joins, by number, and how.</summary>
/// <param name="Pin">Its pin, −1 for a rod-to-rod clamp.</param>
/// <param name="OtherRod">The other rod, −1 for a pin clamp.</param>
/// <param name="Rod">The rod along which it slides when loose.</param>
/// <param name="State">Whether it grips.</param>
/// <param name="IsSpring">False for a tight rigid clamp, which joins its members without a spring between.</param>
internal readonly record struct ClampData(int Pin, int OtherRod, int Rod, ClampState State, bool IsSpring);

/// <summary>
/// The numbers of one variant of a frame, placed in space: filled again for each variant without allocation as long as the
/// counts of parts stay.
/// </summary>
internal sealed class FrameData(BoneShape bone, ImmutableArray<Fracture> fractures, ModelOptions model)
{
    private static readonly string[] _ordinals = ["first", "second", "third", "fourth", "fifth"];

    private PlacedPin[] _placedPins = [];
    private bool[] _fixedAtSurface = [];
    private PlacedRod[] _placedRods = [];
    private ClampData[] _clamps = [];
    private PlacedClamp[] _placedClamps = [];

    public BoneShape Bone { get; } = bone;

    public ModelOptions Model { get; } = model;

    /// <summary>The fractures, from proximal.</summary>
    public ImmutableArray<Fracture> Fractures { get; } = fractures;

    /// <summary>Number of fragments, one more than fractures.</summary>
    public int Fragments => Fractures.Length + 1;

    public ImmutableArray<Pin> Pins { get; private set; } = [];

    public ImmutableArray<Rod> Rods { get; private set; } = [];

    public ImmutableArray<Clamp> ClampParts { get; private set; } = [];

    public ReadOnlySpan<PlacedPin> PlacedPins => _placedPins;

    public ReadOnlySpan<bool> FixedAtSurface => _fixedAtSurface;

    public ReadOnlySpan<PlacedRod> PlacedRods => _placedRods;

    public ReadOnlySpan<ClampData> Clamps => _clamps;

    public ReadOnlySpan<PlacedClamp> PlacedClamps => _placedClamps;

    /// <summary>Level of a station of the bone's axis.</summary>
    public double LevelMm(BoneStation station) => station.Kind switch
    {
        StationKind.ProximalEnd => 0,
        StationKind.ProximalFace => Fractures[station.Fragment].LevelMm - (Fractures[station.Fragment].GapMm / 2),
        StationKind.DistalFace => Fractures[station.Fragment - 1].LevelMm + (Fractures[station.Fragment - 1].GapMm / 2),
        StationKind.DistalEnd => Bone.LengthMm,
        _ => Pins[station.Pin].LevelMm,
    };

    /// <summary>
    /// Which fragment a pin is in, numbered from proximal. A valid pin crosses no fracture plane, so where it crosses the bone's axis
    /// tells.
    /// </summary>
    public int FragmentOf(int pin)
    {
        int fragment = 0;
        foreach (Fracture f in Fractures)
        {
            fragment += Pins[pin].LevelMm > f.LevelMm ? 1 : 0;
        }

        return fragment;
    }

    /// <summary>A fragment's name, without article.</summary>
    public string FragmentWords(int fragment) => fragment == 0 ? "proximal fragment"
        : fragment == Fragments - 1 ? "distal fragment"
        : Fragments == 3 ? "middle fragment"
        : $"{_ordinals[fragment]} fragment";

    /// <summary>How a pin is held in the bone.</summary>
    public PinFixity FixityOf(int pin) => Pins[pin].Fixity ?? Model.PinFixity;

    /// <summary>How a clamp yields.</summary>
    public ClampModel ModelOf(int clamp) => ClampParts[clamp].Model ?? Model.Clamp;

    /// <summary>Takes over the parts of a variant. They must be valid: ids known, pins in the bone.</summary>
    public void Set(Parts parts)
    {
        Pins = parts.Pins;
        Rods = parts.Rods;
        ClampParts = parts.Clamps;
        Fit(ref _placedPins, Pins.Length);
        Fit(ref _fixedAtSurface, Pins.Length);
        Fit(ref _placedRods, Rods.Length);
        Fit(ref _clamps, ClampParts.Length);
        Fit(ref _placedClamps, ClampParts.Length);
        for (int p = 0; p < Pins.Length; p++)
        {
            _placedPins[p] = PlacedPin.Place(Bone, Pins[p]);
            _fixedAtSurface[p] = FixityOf(p) is FixedAtSurface;
        }

        for (int r = 0; r < Rods.Length; r++)
        {
            _placedRods[r] = PlacedRod.Place(Bone, Rods[r]);
        }

        for (int c = 0; c < ClampParts.Length; c++)
        {
            PlaceClamp(parts, c);
        }
    }

    private void PlaceClamp(Parts parts, int c)
    {
        Clamp clamp = ClampParts[c];
        int pin = parts.PinIndex(clamp.Pin), rod = parts.RodIndex(clamp.Rod), other = parts.RodIndex(clamp.OtherRod);
        _clamps[c] = new(pin, other, rod, clamp.State, clamp.State == ClampState.Loose || ModelOf(c) is not RigidClamp);
        PlacedRod r = _placedRods[rod];
        _placedClamps[c] = pin >= 0
            ? PlacedClamp.Between(_placedPins[pin].CrossingMm, _placedPins[pin].Outward, r.FromMm, r.Along)
            : PlacedClamp.Between(_placedRods[other].FromMm, _placedRods[other].Along, r.FromMm, r.Along);
    }

    private static void Fit<T>(ref T[] array, int length)
    {
        if (array.Length != length)
        {
            array = new T[length];
        }
    }
}
