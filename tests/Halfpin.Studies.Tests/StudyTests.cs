using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Cases;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Uncertainty;
using Halfpin.Studies.Varying;
using Xunit;

namespace Halfpin.Studies.Tests;

public class StudyTests
{
    private static readonly ProgramStamp _stamp = new("halfpin", "test");

    [Fact]
    public void Uncertainty_onOneAndOnTwoThreads_givesTheSameReport() => Assert.Equal(Text(Uncertainty(1)), Text(Uncertainty(2)));

    [Fact]
    public void Uncertainty_withAnotherSeed_givesAnotherReportNearTheFirst()
    {
        UncertaintyReport one = Uncertainty(2), other = Uncertainty(2, seed: 8);

        Assert.NotEqual(Text(one), Text(other));
        Assert.InRange(Axial(other).Median!.Value / Axial(one).Median!.Value, 0.95, 1.05);
    }

    // What a stopped study has kept, taken in again, leads to the same report as one run.
    [Fact]
    public void Uncertainty_stoppedAndGoneOnWith_givesTheSameReport()
    {
        UncertaintyStudy whole = New(2), first = New(1), second = New(2);
        Run(whole);
        byte[] kept = first.Next();
        second.Take(kept);
        Run(second);

        Assert.Equal(Text(whole.Report(_stamp)), Text(second.Report(_stamp)));
    }

    [Fact]
    public void Bands_holdTheCaseAsItIs() => Assert.All(
        Uncertainty(2).Results.Where(r => r.Name is "axialNPerMm" or "apBendingNmPerDeg" or "mlBendingNmPerDeg"), r => Assert.InRange(r.Nominal!.Value, r.P5!.Value, r.P95!.Value));

    [Fact]
    public void Probabilities_ofACheck_addUpToOne() => Assert.All(Uncertainty(2).PassProbability, p => Assert.Equal(1, p.Pass + p.Caution + p.Fail, 1e-9));

    // Farther from the bone, softer: mechanics of a guided pin, stiffness falls with the cube of its free length.
    [Fact]
    public void Vary_standoff_softensTheFrameAndMarksWhereAVerdictChanges()
    {
        Case value = Demo();
        (System.Collections.Immutable.ImmutableArray<VariedRange> ranges, _) = VariedRange.Read(value, "near-far", ["standoffMm=38..71:7"]);
        VariationReport report = new VariationAssessor(value).Assess("near-far", ranges, 2, _stamp, "", (_, _) => { }, TestContext.Current.CancellationToken);
        double[] axial = [.. report.Rows.Select(r => r.Stiffness!.AxialNPerMm)];

        Assert.Equal(axial.OrderDescending(), axial);
        Assert.Contains(report.Changes, c => c.Check == "skin-room");
    }

    [Fact]
    public void Vary_rowsAtTheCasesOwnValue_equalItsAssessment()
    {
        Case value = Demo();
        (System.Collections.Immutable.ImmutableArray<VariedRange> ranges, _) = VariedRange.Read(value, "near-far", ["standoffMm=52..60:2"]);
        VariationRow row = new VariationAssessor(value).Assess("near-far", ranges, 2, _stamp, "", (_, _) => { }, TestContext.Current.CancellationToken).Rows[0];

        Assert.Equal(new Assessor(value).Assess("near-far", _stamp, "").Frames[0].Stiffness!.AtFracture, row.Stiffness);
    }

    [Theory]
    [InlineData("standoffMm=60..40")]
    [InlineData("standofMm=40..60")]
    [InlineData("standoffMm=40..60:0")]
    [InlineData("/limb/noSuch=1..2")]
    public void Vary_badRange_isToldAsAFault(string over) => Assert.NotEmpty(VariedRange.Read(Demo(), "near-far", [over]).Faults);

    private static string Text(UncertaintyReport report) => ReportWriter.ToJson(report);

    private static UncertainResult Axial(UncertaintyReport report) => report.Results.Single(r => r.Name == "axialNPerMm");

    private static UncertaintyReport Uncertainty(int threads, ulong seed = 7)
    {
        UncertaintyStudy study = New(threads, seed);
        Run(study);
        return study.Report(_stamp);
    }

    private static UncertaintyStudy New(int threads, ulong seed = 7)
    {
        Study plan = UncertaintyStudy.Plan(Demo(), "", "near-far", null, 1500, seed)!;
        return new(plan, 1500, null, threads);
    }

    private static void Run(UncertaintyStudy study)
    {
        while (!study.IsFinished)
        {
            study.Next();
        }
    }

    private static Case Demo()
    {
        CaseReading reading = new CaseReader(CaseValidity.Rules).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", "01-oblique-fracture.json")));
        Assert.Empty(reading.Faults);
        return reading.Case!;
    }
}
