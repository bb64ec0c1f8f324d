using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Stability.Variants;
using Halfpin.Storage.Cases;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Uncertainty;
using Halfpin.Studies.Varying;
using Xunit;

namespace Halfpin.Studies.Tests;

/// <summary>Studies of a case with two fractures.</summary>
public class FractureStudyTests
{
    private static readonly ProgramStamp _stamp = new("halfpin", "test");
    private static readonly Case _segmental = new CaseReader(CaseValidity.Rules).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", "04-segmental-fracture.json"))).Case!;

    [Fact]
    public void Outputs_ofOneFracture_haveNoNumber() => Assert.Equal(
        ["axialNPerMm", "apBendingNmPerDeg", "mlBendingNmPerDeg", "torsionNmPerDeg", "axialMm", "shearMm", "tiltDeg", "worstUtilisation", "firstLimitKg"],
        StudyOutput.Of(_segmental with { Fractures = [_segmental.Fractures[0]] }).Select(o => o.Name));

    [Theory]
    [InlineData("one-rod")]
    [InlineData("two-rods")]
    public void Nominal_ofEachFracture_isThatOfTheAssessment(string frame)
    {
        FrameAssessment told = new Assessor(_segmental).Assess(frame, _stamp, "").Frames[0];
        ImmutableArray<UncertainResult> results = Uncertainty(frame, null).Report(_stamp).Results;
        double? Nominal(string name) => results.Single(r => r.Name == name).Nominal;

        Assert.Equal(2, told.Fractures.Length);
        for (int i = 0; i < 2; i++)
        {
            FourStiffnesses four = told.Fractures[i].AtFracture;
            FractureMotion motion = told.Fractures[i].Motion!;
            Assert.Equal(
                [four.AxialNPerMm, four.ApBendingNmPerDeg, four.MlBendingNmPerDeg, four.TorsionNmPerDeg, Math.Abs(motion.AxialMm), motion.ShearMm, motion.TiltDeg],
                new[] { "axialNPerMm", "apBendingNmPerDeg", "mlBendingNmPerDeg", "torsionNmPerDeg", "axialMm", "shearMm", "tiltDeg" }.Select(q => Nominal($"{q}@{i + 1}")!.Value));
        }

        Assert.Equal(told.FirstLimit!.LoadKg, Nominal("firstLimitKg"));
    }

    [Fact]
    public void VariedRow_atTheCasesOwnValue_tellsEachFractureAsTheAssessmentDoes()
    {
        FrameAssessment told = new Assessor(_segmental).Assess("one-rod", _stamp, "").Frames[0];
        VariationRow row = Vary("/parts/pins/2/levelMm=166..170:2").Rows[0];

        Assert.Equal(told.Fractures.Select(f => (f.LevelMm, f.AtFracture, f.Motion)), row.Fractures.Select(f => (f.LevelMm, f.Stiffness, f.Motion)));
        Assert.Equal(row.Stiffness, row.Fractures[0].Stiffness);
    }

    [Fact]
    public void VariedRow_marksEachQuantityAtTheFractureThatFaresWorstInIt()
    {
        foreach (VariationRow row in Vary("/parts/pins/2/levelMm=160..171:4").Rows)
        {
            VariedFracture first = row.Fractures[0], second = row.Fractures[1];
            Assert.Equal(first.Stiffness.AxialNPerMm < second.Stiffness.AxialNPerMm, first.WorstIn.Contains("axialNPerMm"));
            Assert.Equal(Math.Abs(first.Motion!.AxialMm) > Math.Abs(second.Motion!.AxialMm), first.WorstIn.Contains("axialMm"));
            Assert.Equal(first.Motion.ShearMm < second.Motion.ShearMm, second.WorstIn.Contains("shearMm"));
            Assert.Equal(VariedQuantity.All.Length, first.WorstIn.Length + second.WorstIn.Length);
        }
    }

    [Fact]
    public void VariedRow_overAFracturesLevel_carriesTheLevelOfTheRow() =>
        Assert.Equal([138, 211.5], Vary("/fractures/1/levelMm=211.5..216.5:2").Rows[0].Fractures.Select(f => f.LevelMm));

    [Fact]
    public void VariedRows_ofOneFracture_haveNoList()
    {
        Case value = new CaseReader(CaseValidity.Rules).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", "01-oblique-fracture.json"))).Case!;
        (ImmutableArray<VariedRange> ranges, _) = VariedRange.Read(value, "near-far", ["standoffMm=47..53:2"]);

        Assert.All(new VariationAssessor(value).Assess("near-far", ranges, 1, _stamp, "", (_, _) => { }, TestContext.Current.CancellationToken).Rows, r => Assert.Empty(r.Fractures));
    }

    // Counted again from the evaluations themselves: in each sample the least over the fractures of one frame against the least of the other.
    [Fact]
    public void Ranking_goesByTheFractureWhereEachFrameIsLeastStiff()
    {
        Case twins = Twins();
        UncertaintyStudy study = Uncertainty("one-rod", "shifted", twins);
        VariantResult[] rows = new BatchRunner(study.Study, 2).Run(new(study.Study, 0, (int)study.Rows.Count));
        (double stiffer, int n, int differing) = (0, 0, 0);
        for (long point = 0; point < study.Study.BasePoints; point++)
        {
            long at = study.Rows.Frames + (point * study.Rows.PerPoint);
            for (int role = 0; role < 2; role++)
            {
                double[] own = Axial(rows[at + role]), other = Axial(rows[at + study.Rows.PerPoint - 2 + role]);
                stiffer += own.Min() > other.Min() ? 1 : 0;
                differing += (own.Min() > other.Min()) != (own[0] > other[0]) ? 1 : 0;
                n++;
            }
        }

        StifferProbability told = study.Report(_stamp).Ranking!.Stiffer.Single(s => s.Output == "axialNPerMm");
        Assert.Equal((n, stiffer / n), (told.Pairs, told.Probability));
        Assert.True(differing > 0, "the first fracture alone would give the same");
    }

    [Fact]
    public void SharedBands_followEachFractureAndRankByTheLeastStiff()
    {
        SharedStudy study = new(_segmental, ["one-rod", "two-rods"], 40, 3, 2);
        while (!study.IsFinished)
        {
            study.Next();
        }

        SharedReport report = study.Report();
        Assert.Equal(16, report.Frames[0].Results.Length);
        Assert.All(report.Frames[0].Results.Where(r => r.Name.StartsWith("axialNPerMm", StringComparison.Ordinal)), r => Assert.InRange(r.Nominal!.Value, r.P5!.Value, r.P95!.Value));
        Assert.Equal(["axialNPerMm", "apBendingNmPerDeg", "mlBendingNmPerDeg", "torsionNmPerDeg"], report.Pairs[0].Stiffer.Select(s => s.Output));
        Assert.Equal(1, report.Pairs.Single(p => p.Frame == "two-rods").Stiffer[0].Probability);
    }

    [Fact]
    public void Report_saysWhichFractureAndHowFramesAreRanked()
    {
        UncertaintyReport report = Uncertainty("one-rod", "two-rods").Report(_stamp);

        Assert.Contains(report.Findings, f => f.Label == "Axial stiffness at fracture 2");
        Assert.Contains(report.Findings, f => f.Label == "Stiffer than two-rods" && f.Text.EndsWith("each frame at the fracture where it is least stiff.", StringComparison.Ordinal));
        Assert.Contains(report.Assumptions, a => a.Contains("ranked in each stiffness by the fracture where each is least stiff", StringComparison.Ordinal));
    }

    [Fact]
    public void Ranking_againstAFrameThatHoldsNothing_hasNoShareAndSaysWhy()
    {
        UncertaintyReport report = Uncertainty("one-rod", "four-pins").Report(_stamp);
        RankingReport ranking = report.Ranking!;
        string reason = new Assessor(_segmental).Assess("four-pins", _stamp, "").Frames[0].Diagnosis!.Message;

        Assert.All(ranking.Stiffer, s => Assert.Equal(new(s.Output, null, null, null, 0), s));
        Assert.Equal((FrameStatus.Mechanism, ranking.Failed, reason), (ranking.Reasons.Single().Status, ranking.Reasons.Single().Count, ranking.Reasons.Single().Example));
        Assert.StartsWith($"four-pins holds nothing: {reason}", ranking.Lost, StringComparison.Ordinal);
        Assert.Contains(report.Findings, f => f == new Finding("Stiffer than four-pins", ranking.Lost!, Verdict.Caution));
        Assert.Contains(ranking.Lost, report.Warnings);
    }

    [Fact]
    public void Ranking_ofAFrameThatHoldsNothing_saysThatOfThisFrame()
    {
        UncertaintyReport report = Uncertainty("four-pins", "one-rod").Report(_stamp);

        Assert.All(report.Ranking!.Stiffer, s => Assert.Null(s.Probability));
        Assert.StartsWith("four-pins holds nothing: ", report.Ranking.Lost, StringComparison.Ordinal);
    }

    // Pins of the other frame stand so near that the slips of the hand make them meet in some samples.
    [Fact]
    public void Ranking_withSomePairsLost_saysHowManyOfHowManyHaveBoth()
    {
        Domain.Frames.Frame one = _segmental.Frames.First(f => f.Id == "one-rod");
        Case value = _segmental with
        {
            Frames = [.. _segmental.Frames, one with { Id = "near", Parts = one.Parts! with { Pins = [.. one.Parts.Pins.Select(p => p.Id == "p3" ? p with { LevelMm = 181.5 } : p)] } }],
        };
        UncertaintyReport report = Uncertainty("one-rod", "near", value).Report(_stamp);
        StifferProbability axial = report.Ranking!.Stiffer[0];

        Assert.InRange(axial.Pairs, 1, report.Samples.Independent - 1);
        Assert.NotNull(axial.Probability);
        Assert.StartsWith(FormattableString.Invariant($"Both frames hold in {axial.Pairs} of {report.Samples.Independent} samples; shares are of these. near "), report.Ranking.Lost, StringComparison.Ordinal);
        Assert.Equal(Verdict.Caution, report.Findings.Single(f => f.Label == "Stiffer than near").Verdict);
    }

    [Fact]
    public void Assumptions_ofSeveralFractures_sayWhichLoadsStiffnessIsAgainst()
    {
        Assert.Contains(Uncertainty("one-rod", null).Report(_stamp).Assumptions, a => a.Contains("loads of its own is not in it", StringComparison.Ordinal) && a.Contains("siteStiffness", StringComparison.Ordinal));
        Assert.DoesNotContain(Uncertainty("one-rod", null, _segmental with { Fractures = [_segmental.Fractures[0]] }).Report(_stamp).Assumptions, a => a.Contains("siteStiffness", StringComparison.Ordinal));
    }

    // At 139.5 mm the pin runs through a fracture: what changes across it must not be lost.
    [Fact]
    public void Vary_acrossRowsThatCannotBeAssessed_tellsWhatChangesFromTheLastRowWithVerdicts()
    {
        VariationReport report = Vary("/parts/pins/2/levelMm=130..225:11");
        VariationRow before = report.Rows[0], after = report.Rows[2];
        string[] differing = [.. before.Verdicts.Keys.Union(after.Verdicts.Keys).Where(c => before.Verdicts.GetValueOrDefault(c, (Verdict)(-1)) != after.Verdicts.GetValueOrDefault(c, (Verdict)(-1))).Order()];

        Assert.Empty(report.Rows[1].Verdicts);
        Assert.NotEmpty(differing);
        Assert.Equal(differing, after.Changed);
        Assert.All(report.Changes.Where(c => c.Row == 2), c => Assert.Equal((130, 149, 1), (c.After, c.By, c.Unassessed)));
        Assert.All(report.Changes.Where(c => c.Row == 5), c => Assert.Equal((168, 0), (c.After, c.Unassessed)));
    }

    // The second line of values begins with nothing before it, though the first ends with verdicts.
    [Fact]
    public void Vary_overTwoNumbers_comparesWithinALineOnly()
    {
        (ImmutableArray<VariedRange> ranges, _) = VariedRange.Read(_segmental, "one-rod", ["/parts/pins/1/levelMm=95..118:2", "/parts/pins/2/levelMm=139.5..196.5:7"]);
        VariationReport report = new VariationAssessor(_segmental).Assess("one-rod", ranges, 2, _stamp, "", (_, _) => { }, TestContext.Current.CancellationToken);

        Assert.Empty(report.Rows[7].Verdicts);
        Assert.NotEmpty(report.Rows[8].Verdicts);
        Assert.Empty(report.Rows[8].Changed);
    }

    private static double[] Axial(VariantResult result) => [.. result.Fractures.Select(f => f.Stiffness.AxialNPerMm)];

    // The same frame with its middle pins moved distally: stiffer at one fracture, softer at the other.
    private static Case Twins()
    {
        Domain.Frames.Frame one = _segmental.Frames.First(f => f.Id == "one-rod");
        return _segmental with
        {
            Frames = [.. _segmental.Frames, one with { Id = "shifted", Parts = one.Parts! with { Pins = [.. one.Parts.Pins.Select(p => p.Id == "p3" ? p with { LevelMm = 161 } : p)] } }],
        };
    }

    private static UncertaintyStudy Uncertainty(string frame, string? against, Case? value = null)
    {
        UncertaintyStudy study = new(UncertaintyStudy.Plan(value ?? _segmental, "", frame, against, 700, 5)!, 700, null, 2);
        while (!study.IsFinished)
        {
            study.Next();
        }

        return study;
    }

    private static VariationReport Vary(string over)
    {
        (ImmutableArray<VariedRange> ranges, _) = VariedRange.Read(_segmental, "one-rod", [over]);
        return new VariationAssessor(_segmental).Assess("one-rod", ranges, 2, _stamp, "", (_, _) => { }, TestContext.Current.CancellationToken);
    }
}
