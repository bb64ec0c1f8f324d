using System.Diagnostics;
using System.Text.Json.Nodes;
using Xunit;

namespace Halfpin.EndToEnd.Tests;

public sealed class StudyTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("halfpin-test").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    // Killed without warning as soon as it has kept something, and gone on with: the same file to the byte.
    [Fact]
    public void Uncertainty_killedAndResumed_leavesTheSameFile()
    {
        Assert.Equal(0, Run.Halfpin([.. Study("whole.csv")], folder: _folder).ExitCode);
        using (Process process = Run.Start(Study("killed.csv"), _folder))
        {
            string part = Path.Combine(_folder, "killed.csv.part");
            for (int i = 0; i < 600 && !process.HasExited && !(File.Exists(part) && new FileInfo(part).Length > 100_000); i++)
            {
                Thread.Sleep(50);
            }

            process.Kill();
            process.WaitForExit();
        }

        Assert.False(File.Exists(Path.Combine(_folder, "killed.csv")));
        Run resumed = Run.Halfpin([.. Study("killed.csv"), "--resume", "--threads", "1"], folder: _folder);

        Assert.Equal(0, resumed.ExitCode);
        Assert.Equal(File.ReadAllBytes(Path.Combine(_folder, "whole.csv")), File.ReadAllBytes(Path.Combine(_folder, "killed.csv")));
    }

    [Fact]
    public void Uncertainty_resumedWithNothingKept_saysThatItBeginsAnew()
    {
        Run run = Run.Halfpin(["uncertainty", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--samples", "400", "--out", "rows.csv", "--resume"], folder: _folder);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Nothing is kept in rows.csv.part: the study begins anew.", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Uncertainty_asJson_hasResultsProbabilitiesAndIndices()
    {
        JsonNode report = JsonNode.Parse(Run.Halfpin("uncertainty", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--samples", "400", "--seed", "5", "--json").Out)!;

        Assert.Contains(report["results"]!.AsArray(), r => (string)r!["name"]! == "axialNPerMm" && (double)r["p5"]! < (double)r["p95"]!);
        Assert.NotEmpty(report["passProbability"]!.AsArray());
        Assert.NotEmpty(report["indices"]!.AsArray());
        Assert.Equal(5, (int)report["seed"]!);
    }

    [Fact]
    public void Uncertainty_withTooFewSamples_ends2AndSaysHowManyAreNeeded()
    {
        Run run = Run.Halfpin("uncertainty", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--samples", "3");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("must be at least", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Vary_asTables_marksWhereAVerdictChangesAndSaysTheSafetyNote()
    {
        Run run = Run.Halfpin(["vary", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--over", "standoffMm=40..70:4", "--csv", "rows.csv", "--svg", "plot.svg"], folder: _folder);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("skin-room: fail to caution", run.Out, StringComparison.Ordinal);
        Assert.Contains("not a medical device", run.Out, StringComparison.Ordinal);
        Assert.Equal(5, File.ReadAllLines(Path.Combine(_folder, "rows.csv")).Length);
        Assert.StartsWith("<svg", File.ReadAllText(Path.Combine(_folder, "plot.svg")), StringComparison.Ordinal);
    }

    [Fact]
    public void Vary_ofTwoFractures_tellsBothOnTheScreenAndInTheFile()
    {
        Run run = Run.Halfpin(["vary", Run.Example("04-segmental-fracture.json"), "--frame", "one-rod", "--over", "/parts/pins/2/levelMm=160..170:2", "--csv", "rows.csv", "--svg", "plot.svg"], folder: _folder);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Fracture", run.Out, StringComparison.Ordinal);
        Assert.Contains("* marks the one that fares worst", run.Out, StringComparison.Ordinal);
        Assert.Contains(",axialNPerMm@1,", File.ReadLines(Path.Combine(_folder, "rows.csv")).First(), StringComparison.Ordinal);
        Assert.Contains(",axialNPerMm@2,", File.ReadLines(Path.Combine(_folder, "rows.csv")).First(), StringComparison.Ordinal);
        Assert.Contains("Fracture 2: axial stiffness, N/mm", File.ReadAllText(Path.Combine(_folder, "plot.svg")), StringComparison.Ordinal);
    }

    [Fact]
    public void Uncertainty_ofTwoFractures_tellsBothOnTheScreenAndInTheFile()
    {
        Run run = Run.Halfpin(["uncertainty", Run.Example("04-segmental-fracture.json"), "--frame", "one-rod", "--against", "two-rods", "--samples", "400", "--out", "rows.csv", "--no-color"], folder: _folder);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Fracture 2: axial stiffness, N/mm", run.Out, StringComparison.Ordinal);
        Assert.Contains("each frame at the fracture where it is least", run.Out, StringComparison.Ordinal);
        Assert.Contains(",boneWallShare,", File.ReadLines(Path.Combine(_folder, "rows.csv")).First(), StringComparison.Ordinal);
        Assert.Contains(",torsionNmPerDeg@2,", File.ReadLines(Path.Combine(_folder, "rows.csv")).First(), StringComparison.Ordinal);
    }

    [Fact]
    public void Uncertainty_onTheScreen_hasWordsForEveryResultAndNoLoadToAllow()
    {
        string told = Run.Halfpin("uncertainty", Run.Example("04-segmental-fracture.json"), "--frame", "one-rod", "--samples", "400", "--no-color").Out;

        Assert.Contains("Most used part of its limit, fatigue apart, %", told, StringComparison.Ordinal);
        Assert.Contains("Model's first limit; no load to allow, kg", told, StringComparison.Ordinal);
        Assert.DoesNotContain("worstUtilisation", told, StringComparison.Ordinal);
        Assert.DoesNotContain("firstLimitKg", told, StringComparison.Ordinal);
        Assert.Matches(@"fatigue apart, % +│ +1[0-9]\.[0-9] ", told);
    }

    [Fact]
    public void Uncertainty_againstAFrameThatHoldsNothing_tellsNoShareButWhy()
    {
        string told = Run.Halfpin("uncertainty", Run.Example("04-segmental-fracture.json"), "--frame", "one-rod", "--against", "four-pins", "--samples", "400", "--no-color").Out;

        Assert.Contains("Stiffer than four-pins: four-pins holds nothing: ", told, StringComparison.Ordinal);
        Assert.Contains("Stiffer than four-pins, Torsion: no sample has both.", told, StringComparison.Ordinal);
        Assert.DoesNotContain("axially 0 %", told, StringComparison.Ordinal);
    }

    [Fact]
    public void Vary_acrossRowsThatCannotBeAssessed_saysSoAboveTheTableAndInIt()
    {
        string told = Run.Halfpin("vary", Run.Example("04-segmental-fracture.json"), "--frame", "one-rod", "--over", "/parts/pins/2/levelMm=130..225:11", "--no-color").Out;

        Assert.Contains("somewhere between parts, pins 3, level 130 and 149 mm (rows between could not be assessed).", told, StringComparison.Ordinal);
        Assert.Matches(@"149 │.*somewhere", told.Replace("\n", " ", StringComparison.Ordinal));
    }

    private static string[] Study(string file) => ["uncertainty", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--samples", "6000", "--seed", "3", "--out", file];
}
