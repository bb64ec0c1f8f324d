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
    private readonly Lazy<ImmutableDictionary<string, double>> _softTissueMm;

    /// <summary>Lays out valid parts.</summary>
    public FrameLayout(Case value, Parts parts, double halfClampMm)
    {
        BoneShape bone = BoneShape.For(value.Limb);
        BoneLengthMm = bone.LengthMm;
        _fractures = value.Fractures;
        Parts = parts;
        Frame = PlacedFrame.Of(value, parts, bone);
        _pins = parts.Pins.Select((p, i) => (p.Id, Frame.Pins[i])).ToImmutableDictionary(p => p.Id, p => p.Item2);
        _rods = parts.Rods.Select((r, i) => (r.Id, Frame.Rods[i])).ToImmutableDictionary(r => r.Id, r => r.Item2);
        _softTissueMm = new(() => parts.Pins.Select((p, i) => (p.Id, Frame.SkinMm(i) - Frame.Pins[i].SurfaceMm)).ToImmutableDictionary(p => p.Id, p => p.Item2));
        Clamps = [.. parts.Clamps.Where(c => c.State != ClampState.Off).Select(c => new LaidClamp(c, Place(c), c.BodyLengthMm > 0 ? c.BodyLengthMm / 2 : halfClampMm))];
    }

    public Parts Parts { get; }

    /// <summary>The same parts as the checks of placing see them.</summary>
    public PlacedFrame Frame { get; }

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

    /// <summary>True for a fragment between two fractures.</summary>
    public bool IsMiddle(int fragment) => fragment > 0 && fragment < Fragments - 1;

    /// <summary>True when pins stand in one plane through the bone's axis, within a tolerance.</summary>
    public bool InOnePlane(IEnumerable<string> pins, double toleranceDeg)
    {
        double[] azimuths = [.. pins.Select(p => Pin(p).AzimuthDeg)];
        return azimuths.All(a => Math.Abs(Math.IEEERemainder(a - azimuths[0], 180)) <= toleranceDeg);
    }

    /// <summary>Bone surface to skin along a pin, swelling left out; null on a synthetic bone, which has no skin.</summary>
    public double? SoftTissueMm(Pin pin) => Frame.Skin is null ? null : _softTissueMm.Value[pin.Id];

    /// <summary>A fragment's name, without article.</summary>
    public string FragmentWords(int fragment) => fragment == 0 ? "proximal fragment"
        : fragment == Fragments - 1 ? "distal fragment"
        : Fragments == 3 ? "middle fragment"
        : $"{_ordinals[fragment]} fragment";

    /// <summary>
    /// Least distance along the bone's axis from a pin in bone to the nearest edge of a fracture, its tilt reckoned with: the length that
    /// the check of pins and fracture tells.
    /// </summary>
    public double ToFractureEdgeMm(Pin pin) => _fractures.Min(f => FracturePlane.ClearanceMm(f, Placed(pin)));

    private PlacedClamp Place(Clamp c)
    {
        PlacedRod rod = _rods[c.Rod];
        return c.Pin is string pin
            ? PlacedClamp.Between(_pins[pin].CrossingMm, _pins[pin].Outward, rod.FromMm, rod.Along)
            : PlacedClamp.Between(_rods[c.OtherRod!].FromMm, _rods[c.OtherRod!].Along, rod.FromMm, rod.Along);
    }
}
