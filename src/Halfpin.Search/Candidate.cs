using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;

namespace Halfpin.Search;

/// <summary>What a family of candidates shares: the choices that change which parts there are.</summary>
/// <param name="Kind">Kind of construct.</param>
/// <param name="PinsPerFragment">Pins a fragment and plane.</param>
/// <param name="Placement">Near-far or far-far.</param>
/// <param name="Pin">The pins.</param>
/// <param name="Rod">The rods.</param>
/// <param name="Second">Spacing of a double rod, mm; angle to the second plane of a V, degrees.</param>
/// <param name="CrossLinks">Cross-links of a V.</param>
/// <param name="Middle">Pins between fractures; null with one fracture.</param>
internal sealed record Family(FamilyKind Kind, int PinsPerFragment, PinPlacement Placement, PinSpec Pin, RodSpec Rod, double Second, int CrossLinks, MiddlePins? Middle = null)
{
    /// <summary>The construct at a place.</summary>
    /// <param name="nearMm">Nearest pins; not used by far-far.</param>
    /// <param name="farMm">Farthest pins.</param>
    /// <param name="azimuthDeg">Azimuth of the first plane.</param>
    /// <param name="standoffMm">Standoff of the inner rod.</param>
    public Construct At(double nearMm, double farMm, double azimuthDeg, double standoffMm)
    {
        double? near = Placement == PinPlacement.FarFar ? null : nearMm;
        return Kind switch
        {
            FamilyKind.DoubleRod => new DoubleRod { Placement = Placement, PinsPerFragment = PinsPerFragment, NearMm = near, FarMm = farMm, AzimuthDeg = azimuthDeg, StandoffMm = standoffMm, Pin = Pin, Rod = Rod, RodSpacingMm = Second },
            FamilyKind.TwoPlane => new TwoPlane { Placement = Placement, PinsPerFragment = PinsPerFragment, NearMm = near, FarMm = farMm, AzimuthDeg = azimuthDeg, StandoffMm = standoffMm, Pin = Pin, Rod = Rod, SecondAzimuthDeg = Turned(azimuthDeg + Second), CrossLinks = CrossLinks },
            _ => new SingleRod { Placement = Placement, PinsPerFragment = PinsPerFragment, NearMm = near, FarMm = farMm, AzimuthDeg = azimuthDeg, StandoffMm = standoffMm, Pin = Pin, Rod = Rod },
        };
    }

    private static double Turned(double deg) => Math.IEEERemainder(deg, 360);
}

/// <summary>Kind of construct.</summary>
internal enum FamilyKind
{
    SingleRod,
    DoubleRod,
    TwoPlane,
}

/// <summary>All candidates of a search, in a fixed order: families (with several fractures also places of the pins between), then azimuths, far, near and standoff.</summary>
internal sealed class CandidateSet
{
    // ASSUMED: thread core of pins that come from no stock, as a share of the shank; 84 % is a published core of 4.2 mm on 5 mm.
    private const double CoreShare = 0.84;

    // Whole chord and the usual 2–5 mm more. MEMORY.
    private const double ThreadMm = 30;

    public CandidateSet(Case value, Stock? stock)
    {
        SearchSpace space = Space = value.Search;
        PinSpec[] pins = stock is null
            ? [.. space.PinDiameterMm.Select(d => new PinSpec { DiameterMm = d, Material = "steel", CoreDiameterMm = CoreShare * d, ThreadLengthMm = ThreadMm })]
            : [.. stock.Items.OfType<StockPin>().Where(p => p.Quantity > 0).Select(p => new PinSpec { DiameterMm = p.DiameterMm, Material = p.Material, CoreDiameterMm = p.CoreDiameterMm, ThreadLengthMm = p.ThreadLengthMm }).Distinct()];
        RodSpec[] rods = stock is null
            ? [.. space.Rods]
            : [.. stock.Items.OfType<StockRod>().Where(r => r.Quantity > 0).Select(r => new RodSpec { DiameterMm = r.DiameterMm, InnerDiameterMm = r.InnerDiameterMm, Material = r.Material }).Distinct()];
        Middles = value.Fractures.Length == 1
            ? []
            : [.. from each in space.MiddlePins from proximal in space.MiddleEdgeMm from distal in space.MiddleEdgeMm select new MiddlePins((int)each, proximal, distal)];
        MiddlePins?[] middles = Middles.IsEmpty ? [null] : [.. Middles];
        (HasPins, HasRods) = (pins.Length > 0, rods.Length > 0);
        Families =
        [
            .. from kind in Enum.GetValues<FamilyKind>()
               from count in space.PinsPerFragment
               from placement in new[] { PinPlacement.NearFar, PinPlacement.FarFar }
               from pin in pins
               from rod in rods
               from second in kind switch { FamilyKind.DoubleRod => space.RodSpacingMm, FamilyKind.TwoPlane => space.PlaneAngleDeg, _ => [0.0] }
               from links in kind == FamilyKind.TwoPlane ? space.CrossLinks : [0.0]
               from middle in middles
               select new Family(kind, (int)count, placement, pin, rod, second, (int)links, middle),
        ];
    }

    public SearchSpace Space { get; }

    public ImmutableArray<Family> Families { get; }

    /// <summary>Where pins between fractures may stand; empty with one fracture.</summary>
    public ImmutableArray<MiddlePins> Middles { get; }

    /// <summary>True when there are pins to choose from; a stock may have none.</summary>
    public bool HasPins { get; }

    /// <summary>True when there are rods to choose from; a stock may have none.</summary>
    public bool HasRods { get; }

    /// <summary>Number of candidates.</summary>
    public long Count => Families.Sum(f => (long)NearOf(f).Length * Space.FarMm.Length * Space.AzimuthDeg.Length * Space.StandoffMm.Length);

    /// <summary>Near distances of a family; one that counts for nothing where it has none.</summary>
    public ImmutableArray<double> NearOf(Family family) => family.Placement == PinPlacement.FarFar ? [double.NaN] : Space.NearMm;
}
