using System.Collections.Immutable;
using Halfpin.Domain.Cases;

namespace Halfpin.Domain.Frames;

/// <summary>Lays out the parts of a construct about the fractures.</summary>
/// <remarks>
/// Pins are numbered from proximal, the first plane before the second; rods r1 (inner, or first plane) and r2; links l1…;
/// pin clamps c1… in the order of rods and then pins; link clamps x1….
/// </remarks>
public static class ConstructBuilder
{
    /// <summary>How far a rod runs on beyond its outermost clamp. Common practice, no source.</summary>
    public const double RodOverhangMm = 15;

    /// <summary>
    /// The parts of a construct about all fractures of a case: proximal pins at their distances from the edge of the first, distal ones
    /// from that of the last. Fragments between get no pins; <see cref="SegmentalBuilder"/> sets some.
    /// </summary>
    public static Parts Build(Construct construct, ImmutableArray<Fracture> fractures) =>
        Build(construct, fractures[0].LevelMm - (fractures[0].GapMm / 2), fractures[^1].LevelMm + (fractures[^1].GapMm / 2));

    /// <summary>The parts of a construct.</summary>
    /// <param name="construct">The construct.</param>
    /// <param name="proximalFaceMm">Level of the first fracture's proximal face on the axis.</param>
    /// <param name="distalFaceMm">Level of the last one's distal face.</param>
    public static Parts Build(Construct construct, double proximalFaceMm, double distalFaceMm) => construct switch
    {
        SingleRod single => BuildSingle(single, proximalFaceMm, distalFaceMm),
        DoubleRod twin => BuildDouble(twin, proximalFaceMm, distalFaceMm),
        TwoPlane v => BuildTwoPlane(v, proximalFaceMm, distalFaceMm),
        _ => throw new ArgumentException($"No layout for {construct.GetType().Name}.", nameof(construct)),
    };

    /// <summary>Distances of a fragment's pins from the fracture edge, nearest first.</summary>
    public static ImmutableArray<double> PinDistancesMm(Construct construct)
    {
        double first = construct.Placement == PinPlacement.FarFar ? construct.FarMm / 2 : construct.NearMm ?? double.NaN;
        int n = construct.PinsPerFragment;
        return [.. Enumerable.Range(0, n).Select(i => first + ((construct.FarMm - first) * i / (n - 1)))];
    }

    private static Parts BuildSingle(SingleRod c, double proximalFaceMm, double distalFaceMm)
    {
        ImmutableArray<Pin> pins = Pins(c, c.AzimuthDeg, 0, 1, proximalFaceMm, distalFaceMm);
        return new() { Pins = pins, Rods = [Along("r1", c, pins, c.StandoffMm)], Clamps = ClampsOf("r1", pins, 1) };
    }

    private static Parts BuildDouble(DoubleRod c, double proximalFaceMm, double distalFaceMm)
    {
        ImmutableArray<Pin> pins = Pins(c, c.AzimuthDeg, 0, 1, proximalFaceMm, distalFaceMm);
        ImmutableArray<Clamp> clamps = [.. ClampsOf("r1", pins, 1), .. ClampsOf("r2", pins, pins.Length + 1)];
        Parts locked = new()
        {
            Pins = pins,
            Rods = [Along("r1", c, pins, c.StandoffMm), Along("r2", c, pins, c.StandoffMm + c.RodSpacingMm)],
            Clamps = clamps,
        };
        return c.Dynamised ? StageBuilder.Apply(locked, StageBuilder.DynamisedDoubleRod("", locked)) : locked;
    }

    private static Parts BuildTwoPlane(TwoPlane c, double proximalFaceMm, double distalFaceMm)
    {
        ImmutableArray<Pin> first = Pins(c, c.AzimuthDeg, 0, 1, proximalFaceMm, distalFaceMm);
        ImmutableArray<Pin> second = Pins(c, c.SecondAzimuthDeg, c.SecondPlaneShiftMm, first.Length + 1, proximalFaceMm, distalFaceMm);
        List<Rod> rods = [Along("r1", c, first, c.StandoffMm), Along("r2", c, second, c.StandoffMm)];
        List<Clamp> clamps = [.. ClampsOf("r1", first, 1), .. ClampsOf("r2", second, first.Length + 1)];
        double[] levels = [.. LinkLevels(c, first, second)];
        for (int i = 0; i < levels.Length; i++)
        {
            string link = $"l{i + 1}";
            rods.Add(new()
            {
                Id = link,
                DiameterMm = c.Rod.DiameterMm,
                InnerDiameterMm = c.Rod.InnerDiameterMm,
                Material = c.Rod.Material,
                From = Point(levels[i], c.AzimuthDeg, c.StandoffMm),
                To = Point(levels[i], c.SecondAzimuthDeg, c.StandoffMm),
                OverhangMm = RodOverhangMm,
            });
            clamps.Add(new() { Id = $"x{(2 * i) + 1}", Rod = "r1", OtherRod = link });
            clamps.Add(new() { Id = $"x{(2 * i) + 2}", Rod = "r2", OtherRod = link });
        }

        return new() { Pins = [.. first, .. second], Rods = [.. rods], Clamps = [.. clamps] };
    }

    // Links stand where the rods have most room: midway in the widest spaces between clamps, a space of the proximal and one
    // of the distal fragment in turn, never across the fracture, where they would hide it.
    private static IEnumerable<double> LinkLevels(TwoPlane c, ImmutableArray<Pin> first, ImmutableArray<Pin> second)
    {
        if (!c.CrossLinkLevelsMm.IsEmpty)
        {
            return c.CrossLinkLevelsMm.Take(c.CrossLinks);
        }

        int half = first.Length / 2;
        double[] proximal = Spaces([.. first.Take(half), .. second.Take(half)]);
        double[] distal = Spaces([.. first.Skip(half), .. second.Skip(half)]);
        return Enumerable.Range(0, c.CrossLinks).Select(i => (i % 2 == 0 ? proximal : distal)[i / 2]).Order();
    }

    private static double[] Spaces(Pin[] pins)
    {
        double[] levels = [.. pins.Select(p => p.LevelMm).Order()];
        return [.. levels.Zip(levels.Skip(1)).OrderByDescending(s => s.Second - s.First).Select(s => (s.First + s.Second) / 2)];
    }

    private static ImmutableArray<Pin> Pins(
        Construct c, double azimuthDeg, double shiftMm, int firstNumber, double proximalFaceMm, double distalFaceMm)
    {
        ImmutableArray<double> d = PinDistancesMm(c);
        IEnumerable<double> levels = [.. d.Reverse().Select(x => proximalFaceMm - x - shiftMm), .. d.Select(x => distalFaceMm + x + shiftMm)];
        return [.. levels.Select((level, i) => new Pin
        {
            Id = $"p{firstNumber + i}",
            LevelMm = level,
            AzimuthDeg = azimuthDeg,
            DiameterMm = c.Pin.DiameterMm,
            Material = c.Pin.Material,
            CoreDiameterMm = c.Pin.CoreDiameterMm,
            ThreadLengthMm = c.Pin.ThreadLengthMm,
        })];
    }

    private static Rod Along(string id, Construct c, ImmutableArray<Pin> pins, double standoffMm) => new()
    {
        Id = id,
        DiameterMm = c.Rod.DiameterMm,
        InnerDiameterMm = c.Rod.InnerDiameterMm,
        Material = c.Rod.Material,
        From = Point(pins[0].LevelMm, pins[0].AzimuthDeg, standoffMm),
        To = Point(pins[^1].LevelMm, pins[^1].AzimuthDeg, standoffMm),
        OverhangMm = RodOverhangMm,
    };

    private static ImmutableArray<Clamp> ClampsOf(string rod, ImmutableArray<Pin> pins, int firstNumber) =>
        [.. pins.Select((p, i) => new Clamp { Id = $"c{firstNumber + i}", Pin = p.Id, Rod = rod })];

    private static RodPoint Point(double levelMm, double azimuthDeg, double standoffMm) =>
        new() { LevelMm = levelMm, AzimuthDeg = azimuthDeg, StandoffMm = standoffMm };
}
