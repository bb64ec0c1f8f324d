using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Xunit;

namespace Halfpin.Stability.Tests.Comparison;

public class ComparisonTests
{
    private static readonly Assessment _bench = new Assessor(Bench.Example("02-bench-comparators.json")).Assess(null, new("halfpin", "test"), "");

    [Fact]
    public void Sentences_nameTheStiffestInEachDirection() =>
        Assert.All(new[] { "axial", "AP bending", "ML bending", "torsion" }, d => Assert.Contains(_bench.Comparison, s => s.StartsWith($"Stiffest in {d}", StringComparison.Ordinal)));

    [Fact]
    public void Sentences_countTheParts() => Assert.Contains(_bench.Comparison, s => s.StartsWith("Fewest parts, 9: Single rod, far-far, 70 mm (4 pins, 1 rod, 4 clamps), ", StringComparison.Ordinal));

    [Fact]
    public void Sentences_sayWhatIsWithheldAndWhy() => Assert.Contains(_bench.Comparison, s => s.Contains("withheld", StringComparison.Ordinal) && s.Contains("nothing stops it", StringComparison.Ordinal));

    [Fact]
    public void Findings_ofSeveralFrames_leadWithTheWeakestDirection() => Assert.Equal("Firmest in its weakest direction", _bench.Findings[1].Label);

    [Fact]
    public void Band_enclosesTheMiddle() => Assert.All(_bench.Frames.Where(f => f.Freedoms.IsEmpty), f =>
    {
        Assert.InRange(f.Stiffness!.AtFracture.AxialNPerMm, f.Band!.Low.AxialNPerMm, f.Band.High.AxialNPerMm);
        Assert.InRange(f.Stiffness.AtFracture.TorsionNmPerDeg, f.Band.Low.TorsionNmPerDeg, f.Band.High.TorsionNmPerDeg);
    });

    [Fact]
    public void Band_whenTheCaseSetsBothInputs_isAbsent()
    {
        Case measured = Bench.CaseOf(Bench.NearFar) with { Model = new() { Clamp = new Domain.Modelling.SpringClamp { RotationalNmPerRad = 317, SlipMomentNm = 7.1 }, PinFixity = new Domain.Modelling.FixedAtSurface() } };

        Assert.Null(Bench.Assess(measured).Band);
    }

    [Fact]
    public void EveryCheck_namesItsSourceAndTag() => Assert.All(_bench.Frames.SelectMany(f => f.Checks), c =>
    {
        Assert.NotEmpty(c.Source);
        Assert.Contains(c.Tag, new[] { "READ", "MEMORY", "DERIVED", "ASSUMED", "GIVEN" });
    });

    [Fact]
    public void EveryCheckThatDoesNotPass_namesACure() =>
        Assert.All(_bench.Frames.SelectMany(f => f.Checks).Where(c => c.Verdict != Verdict.Pass), c => Assert.NotEmpty(c.Cure));

    [Fact]
    public void Assumptions_coverEveryMaterialUsed() => Assert.Contains(_bench.Assumptions, a => a.Name == "Material carbon");

    [Fact]
    public void FarFar_withANearDistance_isWarnedAbout()
    {
        Case value = Bench.CaseOf(Bench.NearFar with { Placement = PinPlacement.FarFar });

        Assert.Contains(new Assessor(value).Assess(null, new("halfpin", "test"), "").Warnings, w => w.Contains("nearMm is not used", StringComparison.Ordinal));
    }
}
