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
}
