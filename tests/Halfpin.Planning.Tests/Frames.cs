using CsCheck;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Planning.Tests;

/// <summary>Valid frames at random: constructs, some by their parts with tilted pins, and partial frames tied by a rod.</summary>
internal static class Frames
{
    private static readonly Gen<Construct> _construct =
        Gen.Select(Gen.Int[0, 2], Gen.Int[2, 4], Gen.Double[22, 40], Gen.Double[85, 110], Gen.Double[20, 80], Gen.Double[38, 90], Gen.OneOf(Gen.Const(PinPlacement.NearFar), Gen.Const(PinPlacement.FarFar), Gen.Const(PinPlacement.Even)))
            .Select((kind, pins, near, far, azimuth, standoff, placement) => kind switch
            {
                0 => (Construct)new SingleRod { Placement = placement, PinsPerFragment = pins, NearMm = near, FarMm = far, AzimuthDeg = azimuth, StandoffMm = standoff, Pin = Cases.Pin, Rod = Cases.Rod },
                1 => new DoubleRod { Placement = placement, PinsPerFragment = pins, NearMm = near, FarMm = far, AzimuthDeg = azimuth, StandoffMm = standoff, RodSpacingMm = 28 + (far / 10), Pin = Cases.Pin, Rod = Cases.Rod },
                _ => new TwoPlane { Placement = PinPlacement.NearFar, PinsPerFragment = 2, NearMm = near, FarMm = far, AzimuthDeg = azimuth - 30, SecondAzimuthDeg = azimuth + 40, StandoffMm = standoff, CrossLinks = pins - 2, Pin = Cases.Pin, Rod = Cases.Rod },
            });

    private static readonly Gen<Case> _byConstruct = Gen.Select(_construct, Gen.Bool, Gen.Double[-8, 8], (construct, tilted, tilt) =>
    {
        Case value = Cases.Example.With(construct);
        Parts parts = value.PartsOf();
        return tilted ? value.With(parts with { Pins = [.. parts.Pins.Select((p, i) => i % 3 == 1 ? p with { TiltDeg = tilt } : p)] }) : value;
    });

    // A rod on the pins of each fragment, and a third rod that ties the two.
    private static readonly Gen<Case> _partial = Gen.Select(Gen.Int[2, 3], Gen.Double[22, 40], Gen.Double[90, 110], Gen.Double[42, 80], (pins, near, far, standoff) => Cases.Example.With(Partial(pins, near, far, standoff)));

    /// <summary>Any valid frame.</summary>
    public static Gen<Case> Any { get; } = Gen.OneOf(_byConstruct, _byConstruct, _partial).Where(Cases.IsValid);

    /// <summary>A modular frame of two partial frames.</summary>
    public static Parts Partial(int pins, double nearMm, double farMm, double standoffMm)
    {
        Parts single = Cases.Example.With(new SingleRod { Placement = PinPlacement.Even, PinsPerFragment = pins, NearMm = nearMm, FarMm = farMm, AzimuthDeg = 50, StandoffMm = standoffMm, Pin = Cases.Pin, Rod = Cases.Rod }).PartsOf();
        Rod On(string id, Pin a, Pin b, double extraMm) => new()
        {
            Id = id,
            DiameterMm = 11,
            Material = "carbon",
            From = new() { LevelMm = a.LevelMm, AzimuthDeg = 50, StandoffMm = standoffMm + extraMm },
            To = new() { LevelMm = b.LevelMm, AzimuthDeg = 50, StandoffMm = standoffMm + extraMm },
            OverhangMm = 25,
        };
        Rod upper = On("ra", single.Pins[0], single.Pins[pins - 1], 0), lower = On("rb", single.Pins[pins], single.Pins[^1], 0);
        Rod Stub(string id, double levelMm) => new()
        {
            Id = id,
            DiameterMm = 11,
            Material = "carbon",
            From = new() { LevelMm = levelMm, AzimuthDeg = 35, StandoffMm = standoffMm + 14 },
            To = new() { LevelMm = levelMm, AzimuthDeg = 90, StandoffMm = standoffMm + 14 },
            OverhangMm = 20,
        };
        double high = (single.Pins[0].LevelMm + single.Pins[1].LevelMm) / 2, low = (single.Pins[^1].LevelMm + single.Pins[^2].LevelMm) / 2;
        Rod tie = new()
        {
            Id = "tie",
            DiameterMm = 11,
            Material = "carbon",
            From = new() { LevelMm = high, AzimuthDeg = 85, StandoffMm = standoffMm + 26 },
            To = new() { LevelMm = low, AzimuthDeg = 85, StandoffMm = standoffMm + 26 },
            OverhangMm = 20,
        };
        return new()
        {
            Pins = single.Pins,
            Rods = [upper, lower, Stub("sa", high), Stub("sb", low), tie],
            Clamps =
            [
                .. single.Pins.Select((p, i) => new Clamp { Id = $"c{i + 1}", Pin = p.Id, Rod = i < pins ? "ra" : "rb" }),
                new() { Id = "x1", Rod = "ra", OtherRod = "sa" }, new() { Id = "x2", Rod = "rb", OtherRod = "sb" },
                new() { Id = "x3", Rod = "tie", OtherRod = "sa" }, new() { Id = "x4", Rod = "tie", OtherRod = "sb" },
            ],
        };
    }
}
