using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Placement;

namespace Halfpin.Planning.Building;

/// <summary>A clamp that is there, and where it sits.</summary>
/// <param name="Part">The clamp.</param>
/// <param name="At">Its place in space.</param>
/// <param name="HalfBodyMm">Half its length along what it holds: the case's own, or the allowance.</param>
internal sealed record LaidClamp(Clamp Part, PlacedClamp At, double HalfBodyMm);

/// <summary>The parts of a frame in space, as far as building them needs. Clamps that are off are left out.</summary>
internal sealed class FrameLayout
{
    private static readonly string[] _ordinals = ["first", "second", "third", "fourth", "fifth"];

    private readonly ImmutableArray<Fracture> _fractures;
    private readonly ImmutableDictionary<string, PlacedPin> _pins;
    private readonly ImmutableDictionary<string, PlacedRod> _rods;

    /// <summary>Lays out valid parts.</summary>
    public FrameLayout(Case value, Parts parts, double halfClampMm)
    {
        BoneShape bone = BoneShape.For(value.Limb);
        BoneLengthMm = bone.LengthMm;
        _fractures = value.Fractures;
        Parts = parts;
        _pins = parts.Pins.ToImmutableDictionary(p => p.Id, p => PlacedPin.Place(bone, p));
        _rods = parts.Rods.ToImmutableDictionary(r => r.Id, r => PlacedRod.Place(bone, r));
        Clamps = [.. parts.Clamps.Where(c => c.State != ClampState.Off).Select(c => new LaidClamp(c, Place(c), c.BodyLengthMm > 0 ? c.BodyLengthMm / 2 : halfClampMm))];
    }

    public Parts Parts { get; }

    public double BoneLengthMm { get; }

    public ImmutableArray<LaidClamp> Clamps { get; }

    public PlacedPin Placed(Pin pin) => _pins[pin.Id];

    public PlacedRod Placed(Rod rod) => _rods[rod.Id];

    public Pin Pin(string id) => Parts.Pins.First(p => p.Id == id);

    public Rod Rod(string id) => Parts.Rods.First(r => r.Id == id);

    /// <summary>The clamps that hold a pin, innermost first.</summary>
    public ImmutableArray<LaidClamp> OnPin(string pin) => [.. Clamps.Where(c => c.Part.Pin == pin).OrderBy(c => c.At.AlongMemberMm)];

    /// <summary>The clamps between a rod and pins, along the rod.</summary>
    public ImmutableArray<LaidClamp> PinClampsOn(string rod) => [.. Clamps.Where(c => c.Part.Rod == rod && c.Part.Pin is not null).OrderBy(c => c.At.AlongRodMm)];

    /// <summary>The clamps between a rod and other rods.</summary>
    public ImmutableArray<LaidClamp> RodClampsOn(string rod) => [.. Clamps.Where(c => c.Part.OtherRod is not null && (c.Part.Rod == rod || c.Part.OtherRod == rod))];

    /// <summary>Bone surface to the axis of a clamp's rod, along the clamp's pin.</summary>
    public double StandoffMm(LaidClamp clamp) => clamp.At.AlongMemberMm - _pins[clamp.Part.Pin!].SurfaceMm;

    /// <summary>What a rod has to span, from its first end: its given points with their overhang and every clamp with its body.</summary>
    public (double FromMm, double ToMm) Extent(Rod rod)
    {
        PlacedRod placed = _rods[rod.Id];
        double from = -placed.OverhangMm, to = placed.SpanMm + placed.OverhangMm;
        foreach (LaidClamp c in Clamps.Where(c => c.Part.Rod == rod.Id || c.Part.OtherRod == rod.Id))
        {
            double along = c.Part.Rod == rod.Id ? c.At.AlongRodMm : c.At.AlongMemberMm;
            from = Math.Min(from, along - c.HalfBodyMm);
            to = Math.Max(to, along + c.HalfBodyMm);
        }

        return (from, to);
    }

    /// <summary>Which fragment a pin is in, numbered from proximal.</summary>
    public int FragmentOf(Pin pin) => _fractures.Count(f => pin.LevelMm > f.LevelMm);

    public int Fragments => _fractures.Length + 1;

    /// <summary>A fragment's name, without article.</summary>
    public string FragmentWords(int fragment) => fragment == 0 ? "proximal fragment"
        : fragment == Fragments - 1 ? "distal fragment"
        : Fragments == 3 ? "middle fragment"
        : $"{_ordinals[fragment]} fragment";

    /// <summary>Distance of a pin from the nearest fracture edge, along the bone's axis.</summary>
    public double ToFractureEdgeMm(Pin pin) => _fractures.Min(f => Math.Abs(pin.LevelMm - f.LevelMm) - (f.GapMm / 2));

    private PlacedClamp Place(Clamp c)
    {
        PlacedRod rod = _rods[c.Rod];
        return c.Pin is string pin
            ? PlacedClamp.Between(_pins[pin].CrossingMm, _pins[pin].Outward, rod.FromMm, rod.Along)
            : PlacedClamp.Between(_rods[c.OtherRod!].FromMm, _rods[c.OtherRod!].Along, rod.FromMm, rod.Along);
    }
}
