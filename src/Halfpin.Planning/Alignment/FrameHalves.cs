using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Placement;

namespace Halfpin.Planning.Alignment;

/// <summary>A frame's parts in space, told apart by the side of a fracture that their bone lies on.</summary>
internal sealed class FrameHalves
{
    private readonly Dictionary<string, Pin> _pins;
    private readonly Dictionary<string, PlacedRod> _rods;
    private readonly Dictionary<string, PlacedPin> _placedPins;

    public FrameHalves(BoneShape bone, Fracture fracture, Parts parts)
    {
        _pins = parts.Pins.ToDictionary(p => p.Id);
        _placedPins = parts.Pins.ToDictionary(p => p.Id, p => PlacedPin.Place(bone, p));
        _rods = parts.Rods.ToDictionary(r => r.Id, r => PlacedRod.Place(bone, r));
        Clamps = [.. parts.Clamps.Where(c => c.State != ClampState.Off)];
        CentreMm = new(0, 0, -fracture.LevelMm);
        DistalPins = [.. parts.Pins.Where(p => FracturePlane.DistalMm(fracture, _placedPins[p.Id].CrossingMm) > 0).Select(p => p.Id)];
        ProximalPins = [.. parts.Pins.Select(p => p.Id).Except(DistalPins)];
    }

    /// <summary>Middle of the fracture on the bone's axis.</summary>
    public Vec3 CentreMm { get; }

    /// <summary>The clamps that are there.</summary>
    public ImmutableArray<Clamp> Clamps { get; }

    public ImmutableHashSet<string> DistalPins { get; }

    public ImmutableHashSet<string> ProximalPins { get; }

    /// <summary>The pins in their order.</summary>
    public IEnumerable<Pin> Pins => _pins.Values;

    /// <summary>The axis of a clamp's pin or other rod: a point of it and its direction.</summary>
    public (Vec3 PointMm, Vec3 Along) Member(Clamp clamp) => clamp.Pin is string pin
        ? (_placedPins[pin].CrossingMm, _placedPins[pin].Outward)
        : (_rods[clamp.OtherRod!].FromMm, _rods[clamp.OtherRod!].Along);

    public PlacedRod Rod(string id) => _rods[id];

    public PlacedPin Pin(string id) => _placedPins[id];

    /// <summary>The rods that move with the distal fragment when clamps between rods are loosened; null when a rod holds pins of both sides.</summary>
    public ImmutableHashSet<string>? RodsOfTheDistalSide()
    {
        string[] distal = [.. RodsOf(DistalPins)];
        return distal.Intersect(RodsOf(ProximalPins)).Any() ? null : [.. distal];
    }

    /// <summary>The clamps between a rod of a set and one outside it.</summary>
    public IEnumerable<Clamp> RodClampsAcross(ImmutableHashSet<string> rods) =>
        Clamps.Where(c => c.OtherRod is string other && rods.Contains(c.Rod) != rods.Contains(other));

    /// <summary>The clamps that hold pins of a set.</summary>
    public IEnumerable<Clamp> ClampsOf(ImmutableHashSet<string> pins) => Clamps.Where(c => c.Pin is string pin && pins.Contains(pin));

    /// <summary>The azimuth, within ±90°, of the plane through the bone's axis that holds all pins; null when they stand in several.</summary>
    public double? CommonPlaneAzimuthDeg(double toleranceDeg)
    {
        double first = Math.IEEERemainder(_pins.Values.First().AzimuthDeg, 180);
        return _pins.Values.All(p => Math.Abs(Math.IEEERemainder(p.AzimuthDeg - first, 180)) <= toleranceDeg) ? first : null;
    }

    private IEnumerable<string> RodsOf(ImmutableHashSet<string> pins) => ClampsOf(pins).Select(c => c.Rod).Distinct();
}
