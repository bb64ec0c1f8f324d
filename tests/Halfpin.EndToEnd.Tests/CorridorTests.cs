using System.Text.Json.Nodes;
using Xunit;

namespace Halfpin.EndToEnd.Tests;

public sealed class CorridorTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("halfpin-test").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Corridors_asJson_haveSectorsWithGradeSourceAndTag()
    {
        JsonNode report = JsonNode.Parse(Run.Halfpin("corridors", Run.Example("01-oblique-fracture.json"), "--level", "110", "--json").Out)!;

        Assert.All(report["sectors"]!.AsArray(), s => Assert.Contains((string)s!["grade"]!, new[] { "preferred", "safe", "caution", "avoid" }));
        Assert.All(report["sectors"]!.AsArray(), s => Assert.NotEmpty((string)s!["tag"]!));
    }

    [Fact]
    public void Corridors_withSvg_writeTheCrossSection()
    {
        Run run = Run.Halfpin(["corridors", Run.Example("01-oblique-fracture.json"), "--level", "300", "--frame", "near-far", "--svg", "section.svg"], folder: _folder);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("anterior tibial vessels", File.ReadAllText(Path.Combine(_folder, "section.svg")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("01-oblique-fracture.json", "353", "within the bone, 0 to 352 mm")]
    [InlineData("02-bench-comparators.json", "100", "synthetic tube")]
    public void Corridors_whereThereAreNone_end2AndSayWhy(string example, string level, string words)
    {
        Run run = Run.Halfpin("corridors", Run.Example(example), "--level", level);

        Assert.Equal(2, run.ExitCode);
        Assert.Contains(words, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_ofAFrameThatCannotBeAnalysed_stillJudgesItsPlaces()
    {
        JsonNode report = JsonNode.Parse(Run.Halfpin("check", Run.Example("04-segmental-fracture.json"), "--json").Out)!;
        JsonNode frame = report["frames"]!.AsArray().Single(f => (string)f!["status"]! == "mechanism")!;

        Assert.Contains(frame["checks"]!.AsArray(), c => (string)c!["id"]! == "corridor");
    }

    [Fact]
    public void Check_listsTheWorstFirstWithSources()
    {
        Run run = Run.Halfpin("check", Run.Example("01-oblique-fracture.json"));

        Assert.Equal(0, run.ExitCode);
        Assert.True(run.Out.IndexOf("! caution", StringComparison.Ordinal) < run.Out.IndexOf("✓ pass", StringComparison.Ordinal));
        Assert.Contains("[ESTIMATE]", run.Out, StringComparison.Ordinal);
    }
}
