using System.Text.Json;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Stability;
using Halfpin.Stability.Checks;
using Halfpin.Stability.Variants;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Json;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Sampling;
using Halfpin.Studies.Uncertainty;
using Xunit;

namespace Halfpin.Studies.Tests;

public class BatchTests
{
    // A batch is a value: written down, read elsewhere and worked out there, its rows are the same to the bit.
    [Fact]
    public void Batch_throughJson_givesTheSameRows()
    {
        StudyBatch batch = new(UncertaintyStudy.Plan(Read("01-oblique-fracture.json"), "", "two-plane", "near-far", 2000, 11)!, 37, 45);
        StudyBatch shipped = JsonSerializer.Deserialize<StudyBatch>(JsonSerializer.Serialize(batch, HalfpinJson.Options), HalfpinJson.Options)!;

        Assert.Equal(Bytes(batch, 2), Bytes(shipped, 1));
    }

    // Rows do not depend on those before them.
    [Fact]
    public void Batch_cutInTwo_givesTheSameRows()
    {
        Study study = UncertaintyStudy.Plan(Read("01-oblique-fracture.json"), "", "near-far", null, 2000, 11)!;

        Assert.Equal(Bytes(new(study, 20, 60), 1), (byte[])[.. Bytes(new(study, 20, 23), 1), .. Bytes(new(study, 43, 37), 1)]);
    }

    // What an assessor remembers of the frames before is only what does not change: each row equals one of an assessor that has seen nothing.
    [Theory]
    [InlineData("01-oblique-fracture.json", "two-plane", "near-far", 41)]
    [InlineData("01-oblique-fracture.json", "double-rod-dynamised", null, 0)]
    [InlineData("04-segmental-fracture.json", "four-pins", null, 0)]
    public void Row_afterOthers_equalsThatOfAFreshAssessor(string example, string frame, string? against, long from)
    {
        Study study = UncertaintyStudy.Plan(Read(example), "", frame, against, 2000, 13)!;
        byte[] alone = [.. Enumerable.Range(0, 67).SelectMany(i => Bytes(new(study, from + i, 1), 1))];

        Assert.Equal(alone, Bytes(new(study, from, 67), 1));
        Assert.Equal(alone, Bytes(new(study, from, 67), 2));
    }

    [Fact]
    public void Variant_likeTheCase_hasTheResultsOfItsAssessment()
    {
        Case value = Read("01-oblique-fracture.json");
        Assessment assessment = new Assessor(value).Assess(null, new("halfpin", "test"), "");

        Assert.All(value.Frames, frame =>
        {
            FrameAssessment expected = assessment.Frames.Single(f => f.Id == frame.Id);
            VariantResult found = new VariantAssessor().Assess(new(value, new Assessor(value).PartsOf(frame)));
            Assert.Equal(expected.Status, found.Status);
            Assert.Equal(expected.Stiffness!.AtFracture, found.Stiffness);
            Assert.Equal(expected.Motion?.AxialMm, found.Motion?.AxialMm);
            Assert.Equal(expected.FirstLimit?.LoadKg, found.FirstLimitKg);
        });
    }

    // Without bands: with them a verdict may be worse at an end of what is uncertain.
    [Theory]
    [InlineData("01-oblique-fracture.json", 0, 0)]
    [InlineData("01-oblique-fracture.json", 9.7, -31.3)]
    [InlineData("01-oblique-fracture.json", 23.1, 88.2)]
    [InlineData("02-bench-comparators.json", -7.9, 12.1)]
    [InlineData("04-segmental-fracture.json", 4.3, 27.7)]
    public void Verdicts_withoutWords_areThoseOfTheChecks(string example, double alongMm, double turnDeg)
    {
        Case read = Read(example);
        Case value = read with { Model = read.Model with { Clamp = new SpringClamp { RotationalNmPerRad = 217, SlipMomentNm = 7.7 }, PinFixity = new FoundationFixity { ModulusNPerMm2 = 4700 } } };
        Assert.All(value.Frames, frame =>
        {
            Parts parts = new Assessor(value).PartsOf(frame);
            Parts moved = parts with { Pins = [.. parts.Pins.Select(p => p with { LevelMm = p.LevelMm + (p.LevelMm < value.Fractures[0].LevelMm ? -alongMm / 2 : alongMm), AzimuthDeg = Math.IEEERemainder(p.AzimuthDeg + turnDeg, 360) })] };
            VariantResult found = new VariantAssessor().Assess(new(value, moved));
            if (found.Status == FrameStatus.Invalid)
            {
                return;
            }

            Case one = value with { Frames = [new Frame { Id = "moved", Parts = moved }] };
            FrameAssessment told = new Assessor(one).Assess(null, new("halfpin", "test"), "").Frames[0];
            Assert.Equal(
                told.Checks.GroupBy(c => c.Id).Select(g => (g.Key, g.Max(c => c.Verdict))).Order(),
                found.Verdicts.Select(v => (v.Check, v.Verdict)).Order());
        });
    }

    [Theory]
    [InlineData("01-oblique-fracture.json")]
    [InlineData("02-bench-comparators.json")]
    [InlineData("04-segmental-fracture.json")]
    public void Checks_ofExamples_haveAPlaceInTheRowsOfStudies(string example) => Assert.All(
        new Assessor(Read(example)).Assess(null, new("halfpin", "test"), "").Frames.SelectMany(f => f.Checks), c => Assert.Contains(c.Id, CheckNames.All));

    // The mean of Π(1 + (xᵢ − ½)/2) over the cube is 1. Random points miss it by 0.33/√N (DERIVED from its variance, (1 + 1/48)⁵ − 1);
    // scrambled Sobol' points by nearer 1/N: with 64 times the points their root mean square miss falls by far more than 8.
    [Fact]
    public void Sequence_withMorePoints_integratesFasterThanRandomPoints()
    {
        double few = Miss(64), many = Miss(4096);

        Assert.True(many < few / 20, $"{few} to {many}");
        Assert.True(many < 0.2 * 0.33 / Math.Sqrt(4096), $"{many}");
    }

    private static double Miss(int points)
    {
        double squares = 0;
        for (ulong seed = 1; seed <= 20; seed++)
        {
            SobolSequence s = SobolSequence.Scrambled(5, seed);
            double mean = Enumerable.Range(0, points).Average(i => Enumerable.Range(0, 5).Aggregate(1.0, (p, d) => p * (1 + ((s.At(i, d) - 0.5) / 2))));
            squares += (mean - 1) * (mean - 1);
        }

        return Math.Sqrt(squares / 20);
    }

    private static byte[] Bytes(StudyBatch batch, int threads) =>
        new RowFormat(StudyOutput.Of(batch.Study.Case), CheckNames.All).Write(new BatchRunner(batch.Study, threads).Run(batch));

    private static Case Read(string example) => new CaseReader(CaseValidity.Rules).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", example))).Case!;
}
