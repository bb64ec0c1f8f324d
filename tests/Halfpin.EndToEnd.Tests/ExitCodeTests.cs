using System.Text.Json.Nodes;
using Xunit;

namespace Halfpin.EndToEnd.Tests;

public class ExitCodeTests
{
    private static readonly string _bench = File.ReadAllText(Run.Example("02-bench-comparators.json"));

    [Theory]
    [InlineData("frobnicate")]
    [InlineData("assess")]
    [InlineData("schema", "nonsense")]
    [InlineData("demo", "--nonsense")]
    [InlineData("verify", "--case", "no-such-case")]
    public void WrongUse_ends2(params string[] args)
    {
        Run run = Run.Halfpin(args);

        Assert.Equal(2, run.ExitCode);
        Assert.NotEmpty(run.Error);
    }

    [Fact]
    public void MisspeltVerb_isGuessed() => Assert.Contains("Did you mean \"assess\"?", Run.Halfpin("asess", "case.json").Error, StringComparison.Ordinal);

    [Fact]
    public void UnknownFrame_ends2AndNamesTheFramesThereAre()
    {
        Run run = Run.Halfpin("assess", Run.Example("02-bench-comparators.json"), "--frame", "nearfar");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("near-far-close", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("check")]
    [InlineData("assess")]
    [InlineData("compare")]
    [InlineData("healing")]
    public void InvalidCase_ends3AndNamesEveryFault(string verb)
    {
        Run run = Run.Halfpin([verb, "-"], _bench.Replace("\"lengthMm\": 360", "\"lengthMm\": -1", StringComparison.Ordinal).Replace("\"gapMm\": 20", "\"gapMn\": 20", StringComparison.Ordinal));

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("/limb/lengthMm", run.Error, StringComparison.Ordinal);
        Assert.Contains("/fractures/0/gapMn", run.Error, StringComparison.Ordinal);
        Assert.Contains("Did you mean \"gapMm\"?", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Out);
    }

    [Fact]
    public void InvalidCase_asJson_isAnEnvelopeOnStandardOutput()
    {
        Run run = Run.Halfpin(["check", "-", "--json"], "{}");

        Assert.Equal(3, run.ExitCode);
        Assert.Equal("halfpin-faults", (string)JsonNode.Parse(run.Out)!["format"]!);
    }

    [Fact]
    public void InvalidCase_leavesNoReport()
    {
        string folder = Directory.CreateTempSubdirectory("halfpin-test").FullName;
        Run run = Run.Halfpin(["compare", "-", "--report", Path.Combine(folder, "r.html")], "{}");

        Assert.Equal(3, run.ExitCode);
        Assert.Empty(Directory.GetFiles(folder));
        Directory.Delete(folder);
    }

    [Fact]
    public void Mechanism_ends4AndStillPrintsTheOtherFrames()
    {
        JsonNode value = JsonNode.Parse(_bench)!;
        value["frames"]!.AsArray().Add(JsonNode.Parse("""
            { "id": "loose", "parts": {
                "pins": [ { "id": "p1", "levelMm": 90, "azimuthDeg": 0, "diameterMm": 5, "material": "steel" }, { "id": "p2", "levelMm": 270, "azimuthDeg": 0, "diameterMm": 5, "material": "steel" } ],
                "rods": [ { "id": "r1", "diameterMm": 11, "material": "carbon", "from": { "levelMm": 60, "azimuthDeg": 0, "standoffMm": 50 }, "to": { "levelMm": 300, "azimuthDeg": 0, "standoffMm": 50 } } ],
                "clamps": [ { "id": "c1", "pin": "p1", "rod": "r1" }, { "id": "c2", "pin": "p2", "rod": "r1", "state": "loose" } ] } }
            """));
        Run run = Run.Halfpin(["assess", "-", "--json"], value.ToJsonString());
        JsonArray frames = JsonNode.Parse(run.Out)!["frames"]!.AsArray();

        Assert.Equal(4, run.ExitCode);
        Assert.Equal("mechanism", (string)frames[7]!["status"]!);
        Assert.Null(frames[7]!["stiffness"]);
        Assert.Contains("turns about rod r1", (string)frames[7]!["diagnosis"]!["message"]!, StringComparison.Ordinal);
        Assert.Equal("ok", (string)frames[0]!["status"]!);
    }

    [Fact]
    public void OverloadOfAMechanism_ends4AndShowsNoPath()
    {
        JsonNode value = JsonNode.Parse(_bench)!;
        value["frames"]!.AsArray().Add(JsonNode.Parse("""
            { "id": "loose", "parts": {
                "pins": [ { "id": "p1", "levelMm": 90, "azimuthDeg": 0, "diameterMm": 5, "material": "steel" }, { "id": "p2", "levelMm": 270, "azimuthDeg": 0, "diameterMm": 5, "material": "steel" } ],
                "rods": [ { "id": "r1", "diameterMm": 11, "material": "carbon", "from": { "levelMm": 60, "azimuthDeg": 0, "standoffMm": 50 }, "to": { "levelMm": 300, "azimuthDeg": 0, "standoffMm": 50 } } ],
                "clamps": [ { "id": "c1", "pin": "p1", "rod": "r1" }, { "id": "c2", "pin": "p2", "rod": "r1", "state": "loose" } ] } }
            """));
        Run run = Run.Halfpin(["overload", "-", "--frame", "loose", "--to", "310", "--json"], value.ToJsonString());
        JsonNode report = JsonNode.Parse(run.Out)!;

        Assert.Equal(4, run.ExitCode);
        Assert.Empty(report["path"]!.AsArray());
        Assert.Contains("turns about rod r1", (string)report["ended"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void HealingOverNoGap_ends4AndSaysWhy()
    {
        Run run = Run.Halfpin(["healing", "-"], _bench.Replace("\"gapMm\": 20", "\"gapMm\": 0", StringComparison.Ordinal));

        Assert.Equal(4, run.ExitCode);
        Assert.Contains("no gap for callus", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void MissingFile_ends5AndNamesIt()
    {
        Run run = Run.Halfpin("assess", "no-such-file.json");

        Assert.Equal(5, run.ExitCode);
        Assert.Contains("no-such-file.json", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void ReportIntoNoFolder_ends5()
    {
        Run run = Run.Halfpin("compare", Run.Example("02-bench-comparators.json"), "--report", Path.Combine("no-such-folder", "r.html"));

        Assert.Equal(5, run.ExitCode);
    }

    [Fact]
    public void TenMegabytesOfNoise_ends3AtOnce()
    {
        Run run = Run.Halfpin(["check", "-"], new string('x', 10_000_000));

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("[tooLarge]", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void NewerFormat_ends3Politely()
    {
        Run run = Run.Halfpin(["check", "-"], _bench.Replace("\"formatVersion\": 1", "\"formatVersion\": 9", StringComparison.Ordinal));

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("Update Halfpin", run.Error, StringComparison.Ordinal);
    }
}
