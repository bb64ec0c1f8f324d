using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Xunit;

namespace Halfpin.Search.Tests;

/// <summary>Cases for tests.</summary>
internal static class Bench
{
    /// <summary>A small space about the example's frames: 2 · 3 · 3 · 4 places of near-far and 3 · 3 · 4 of far-far, for each family.</summary>
    public static readonly SearchSpace Small = new()
    {
        NearMm = [28, 41],
        FarMm = [71, 88, 103],
        AzimuthDeg = [27, 46, 71],
        StandoffMm = [44, 50, 57, 66],
        PinsPerFragment = [2, 3],
        RodSpacingMm = [31],
        PlaneAngleDeg = [47],
        PinDiameterMm = [5],
        Rods = [new() { DiameterMm = 11, Material = "carbon" }],
    };

    public static Case Demo(SearchSpace? space = null) => Example("01-oblique-fracture.json") is Case demo
        ? demo with { Search = space ?? Small, Frames = [.. demo.Frames.Where(f => f.Id is not ("two-plane" or "double-rod-dynamised"))] }
        : throw new InvalidOperationException("No example.");

    /// <summary>A small space for two fractures with a gap of 72.5 mm of bone between them.</summary>
    public static Case Segmental() => Example("04-segmental-fracture.json") with
    {
        Search = new SearchSpace
        {
            NearMm = [28, 41],
            FarMm = [71, 88],
            AzimuthDeg = [27, 50],
            StandoffMm = [47, 52, 57],
            PinsPerFragment = [2, 3],
            MiddlePins = [2, 3],
            MiddleEdgeMm = [20, 23, 51],
            RodSpacingMm = [31],
            PlaneAngleDeg = [47],
            PinDiameterMm = [5],
            Rods = [new() { DiameterMm = 11, Material = "carbon" }],
        },
    };

    /// <summary>A report without the time that it took.</summary>
    public static string Text(Domain.Assessments.SuggestReport report) => Storage.Assessments.ReportWriter.ToJson(report with { Searched = report.Searched with { Seconds = 0 } });

    public static Case Example(string name)
    {
        CaseReading reading = new CaseReader(CaseValidity.Rules).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", name)));
        Assert.Empty(reading.Faults);
        return reading.Case!;
    }

    public static Domain.Assessments.SuggestReport Suggest(Case value, int threads = 2, Stock? stock = null) =>
        new Suggester(value, stock).Suggest(new("halfpin", "test"), "", threads, stop: TestContext.Current.CancellationToken);

    /// <summary>Every candidate of a set by plain loops, in the search's order.</summary>
    public static IEnumerable<Construct> All(CandidateSet set) =>
        from family in set.Families
        from azimuth in set.Space.AzimuthDeg
        from far in set.Space.FarMm
        from near in set.NearOf(family)
        from standoff in set.Space.StandoffMm
        select family.At(near, far, azimuth, standoff);

    /// <summary>Every candidate of the small segmental space, one pin and one rod to choose from, in the search's order.</summary>
    public static IEnumerable<Layout> AllSegmental(SearchSpace space)
    {
        foreach (int kind in new[] { 0, 1, 2 })
        {
            foreach (double pins in space.PinsPerFragment)
            {
                foreach (bool farFar in new[] { false, true })
                {
                    foreach (double between in space.MiddlePins)
                    {
                        foreach (double above in space.MiddleEdgeMm)
                        {
                            foreach (double below in space.MiddleEdgeMm)
                            {
                                foreach (Construct c in Places(space, kind, (int)pins, farFar))
                                {
                                    yield return new(c, new((int)between, above, below));
                                }
                            }
                        }
                    }
                }
            }
        }
    }

    private static IEnumerable<Construct> Places(SearchSpace space, int kind, int pins, bool farFar)
    {
        PinSpec pin = new() { DiameterMm = space.PinDiameterMm[0], Material = "steel", CoreDiameterMm = 0.84 * space.PinDiameterMm[0], ThreadLengthMm = 30 };
        PinPlacement placement = farFar ? PinPlacement.FarFar : PinPlacement.NearFar;
        foreach (double azimuth in space.AzimuthDeg)
        {
            foreach (double far in space.FarMm)
            {
                foreach (double near in farFar ? [0.0] : space.NearMm)
                {
                    foreach (double standoff in space.StandoffMm)
                    {
                        double? nearMm = farFar ? null : near;
                        yield return kind switch
                        {
                            0 => new SingleRod { Placement = placement, PinsPerFragment = pins, NearMm = nearMm, FarMm = far, AzimuthDeg = azimuth, StandoffMm = standoff, Pin = pin, Rod = space.Rods[0] },
                            1 => new DoubleRod { Placement = placement, PinsPerFragment = pins, NearMm = nearMm, FarMm = far, AzimuthDeg = azimuth, StandoffMm = standoff, Pin = pin, Rod = space.Rods[0], RodSpacingMm = space.RodSpacingMm[0] },
                            _ => new TwoPlane { Placement = placement, PinsPerFragment = pins, NearMm = nearMm, FarMm = far, AzimuthDeg = azimuth, StandoffMm = standoff, Pin = pin, Rod = space.Rods[0], SecondAzimuthDeg = azimuth + space.PlaneAngleDeg[0], CrossLinks = 2 },
                        };
                    }
                }
            }
        }
    }
}
