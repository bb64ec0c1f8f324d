using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Xunit;

namespace Halfpin.Stability.Tests;

/// <summary>What any answer must agree with, on the bench comparators.</summary>
public class BenchComparatorTests
{
    private static readonly Case _case = Bench.Example("02-bench-comparators.json");
    private static readonly Dictionary<string, FrameAssessment> _frames = new Assessor(_case).Assess(null, new("halfpin", "test"), "").Frames.ToDictionary(f => f.Id);

    // Common practice and READ trends; see the frames' own sources.
    [Fact]
    public void NearFar_againstFarFar_isStifferInAxialLoading() => Assert.True(Of("near-far").AxialNPerMm > Of("far-far").AxialNPerMm);

    [Fact]
    public void NearFar_againstFarFar_isStifferInApBending() => Assert.True(Of("near-far").ApBendingNmPerDeg > Of("far-far").ApBendingNmPerDeg);

    [Fact]
    public void RodAt30Mm_against70Mm_isStifferInEveryDirection()
    {
        Assert.True(Of("near-far-close").AxialNPerMm > Of("near-far").AxialNPerMm);
        Assert.True(Of("near-far-close").ApBendingNmPerDeg > Of("near-far").ApBendingNmPerDeg);
        Assert.True(Of("near-far-close").MlBendingNmPerDeg > Of("near-far").MlBendingNmPerDeg);
        Assert.True(Of("near-far-close").TorsionNmPerDeg > Of("near-far").TorsionNmPerDeg);
    }

    [Fact]
    public void ThreePinsASide_againstTwo_isStifferInEveryDirection()
    {
        Assert.True(Of("three-pins").AxialNPerMm > Of("near-far").AxialNPerMm);
        Assert.True(Of("three-pins").ApBendingNmPerDeg > Of("near-far").ApBendingNmPerDeg);
        Assert.True(Of("three-pins").MlBendingNmPerDeg > Of("near-far").MlBendingNmPerDeg);
        Assert.True(Of("three-pins").TorsionNmPerDeg > Of("near-far").TorsionNmPerDeg);
    }

    [Fact]
    public void TwoPlane_inItsWeakestDirection_isStifferThanEveryOtherFrameInIts()
    {
        double others = _frames.Values.Where(f => f.Id != "two-plane").Max(f => f.BendingRose!.WeakNmPerDeg);

        Assert.True(_frames["two-plane"].BendingRose!.WeakNmPerDeg > others);
    }

    [Fact]
    public void SecondRodInThePlane_hardlyHelpsAcrossThePins()
    {
        // The double rod's inner rod stands at 30 mm like that of near-far-close; its weak direction gains nothing on it.
        Assert.True(_frames["double-rod"].BendingRose!.WeakNmPerDeg < 1.2 * _frames["near-far-close"].BendingRose!.WeakNmPerDeg);
    }

    [Fact]
    public void Dynamised_axially_isFreeByIntention()
    {
        FrameAssessment f = _frames["double-rod-dynamised"];

        Assert.Equal(["axial"], f.Freedoms);
        Assert.Equal(0, f.Stiffness!.AtFracture.AxialNPerMm);
        Assert.Equal(0, f.Stiffness.AtLoad.Guided.AxialNPerMm);
    }

    // DERIVED example of the mechanics notes: about 0.8 across the pins; in the plane of the rods and in torsion about 0.7 and
    // 0.3 with spring clamps.
    [Fact]
    public void Dynamised_acrossThePins_keepsMostOfItsBending() => Assert.InRange(Kept(s => s.MlBendingNmPerDeg), 0.75, 1);

    [Fact]
    public void Dynamised_inThePlaneOfTheRods_losesBending() => Assert.InRange(Kept(s => s.ApBendingNmPerDeg), 0.5, 0.9);

    [Fact]
    public void Dynamised_inTorsion_losesMost() => Assert.InRange(Kept(s => s.TorsionNmPerDeg), 0.2, 0.6);

    [Fact]
    public void Dynamised_underAxialLoad_showsNoMotion()
    {
        FrameAssessment f = _frames["double-rod-dynamised"];

        Assert.Equal(FrameStatus.OutOfRange, f.Status);
        Assert.Null(f.Motion);
        Assert.Empty(f.Utilisation);
    }

    [Theory]
    [InlineData("far-far", 4, 1, 4)]
    [InlineData("near-far", 4, 1, 4)]
    [InlineData("three-pins", 6, 1, 6)]
    [InlineData("near-far-close", 4, 1, 4)]
    [InlineData("two-plane", 8, 4, 12)]
    [InlineData("double-rod", 4, 2, 8)]
    [InlineData("double-rod-dynamised", 4, 2, 8)]
    public void Kit_ofEachConstruct_hasItsCounts(string id, int pins, int rods, int clamps) => Assert.Equal(new Kit(pins, rods, clamps), _frames[id].Kit);

    [Fact]
    public void SymmetricFrame_underCentralLoad_showsNoShearButClosesTheFarCortexMore()
    {
        FractureMotion m = _frames["near-far"].Motion!;

        Assert.Equal(0, m.ShearMm, 1e-6);
        Assert.True(m.ClosingFarMm > m.ClosingNearMm);
        Assert.True(m.AxialMm < 0);
    }

    [Fact]
    public void DemoCase_holdsAllSevenFrames_noneAMechanism()
    {
        Assessment demo = new Assessor(Bench.Example("01-oblique-fracture.json")).Assess(null, new("halfpin", "test"), "");

        Assert.Equal(7, demo.Frames.Length);
        Assert.DoesNotContain(demo.Frames, f => f.Status is FrameStatus.Mechanism or FrameStatus.Invalid);
    }

    private static FourStiffnesses Of(string id) => _frames[id].Stiffness!.AtFracture;

    private static double Kept(Func<FourStiffnesses, double> of) => of(Of("double-rod-dynamised")) / of(Of("double-rod"));
}
