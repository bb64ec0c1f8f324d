using System.Text.Json;
using System.Text.Json.Nodes;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Stability.Dynamisation;
using Halfpin.Stability.Healing;
using Halfpin.Stability.Overload;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Json;
using Halfpin.Storage.Schemas;
using Json.Schema;
using Xunit;

namespace Halfpin.Storage.Tests;

public class SchemaTests
{
    public static TheoryData<string> Names => [.. SchemaExporter.Names];

    [Theory]
    [MemberData(nameof(Names))]
    public void Schema_committed_isWhatTheTypesSay(string name) => Assert.Equal(Committed($"{name}.schema.json"), Text(SchemaExporter.Of(name)));

    [Fact]
    public void DynamisationReport_ofAnExample_meetsItsSchema() =>
        Assert.True(Meets(SchemaExporter.Of("dynamise"), new DynamisationAssessor(Example("01-oblique-fracture.json")).Assess("double-rod", new("halfpin", "test"), "")));

    // 313 N and 613 N: a path to its end and one that ends early.
    [Theory]
    [InlineData("01-oblique-fracture.json", 313)]
    [InlineData("01-oblique-fracture.json", 613)]
    [InlineData("04-segmental-fracture.json", 313)]
    public void OverloadReport_ofAnExample_meetsItsSchema(string example, double toN)
    {
        Case value = Example(example);

        Assert.True(Meets(SchemaExporter.Of("overload"), new OverloadAssessor(value).Assess(value.Frames[1], toN, new("halfpin", "test"), "")));
    }

    [Theory]
    [InlineData("01-oblique-fracture.json")]
    [InlineData("02-bench-comparators.json")]
    [InlineData("04-segmental-fracture.json")]
    public void Assessment_ofAnExample_meetsItsSchema(string example)
    {
        CaseReading reading = new CaseReader([]).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", example)));
        Assessment assessment = new Assessor(reading.Case!).Assess(null, new("halfpin", "test"), reading.Sha256);

        Assert.True(Meets(SchemaExporter.Of("assessment"), assessment));
    }

    [Fact]
    public void Assessment_ofACaseWithNotes_carriesThem()
    {
        CaseReading reading = new CaseReader([]).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", "01-oblique-fracture.json")));
        JsonNode json = JsonNode.Parse(ReportWriter.ToJson(new Assessor(reading.Case!).Assess("near-far", new("halfpin", "test"), reading.Sha256)))!;

        Assert.StartsWith("Invented for demonstration.", (string)Assert.Single(json["caseNotes"]!.AsArray())!, StringComparison.Ordinal);
    }

    // The two interfaces everything else stands on: these keys are the contract.
    [Fact]
    public void Assessment_keys_areThoseOfTheContract()
    {
        CaseReading reading = new CaseReader([]).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", "02-bench-comparators.json")));
        JsonNode json = JsonNode.Parse(ReportWriter.ToJson(new Assessor(reading.Case!).Assess("near-far", new("halfpin", "test"), reading.Sha256)))!;
        JsonNode frame = json["frames"]![0]!;
        string[] contract =
        [
            "id", "name", "status", "diagnosis", "freedoms", "stiffness", "siteStiffness", "bendingRose", "motion", "utilisation", "checks", "kit",
        ];

        Assert.Equal("halfpin-assessment", (string)json["format"]!);
        Assert.Equal(1, (int)json["formatVersion"]!);
        Assert.All(contract, key => Assert.True(frame.AsObject().ContainsKey(key), key));
        Assert.Equal(["axialNPerMm", "apBendingNmPerDeg", "mlBendingNmPerDeg", "torsionNmPerDeg"], frame["stiffness"]!["atFracture"]!.AsObject().Select(m => m.Key));
        Assert.Equal(["ball", "potted", "guided"], frame["stiffness"]!["atLoad"]!.AsObject().Select(m => m.Key));
        Assert.Equal(["x", "y", "z", "rx", "ry", "rz"], frame["siteStiffness"]!["order"]!.AsArray().Select(o => (string)o!));
        Assert.Equal(6, frame["siteStiffness"]!["nMmRad"]!.AsArray().Count);
        Assert.All(
            new[] { "loadN", "axialMm", "shearMm", "tiltDeg", "twistDeg", "closingNearMm", "closingFarMm", "strainPercent", "endsTouch" },
            key => Assert.True(frame["motion"]!.AsObject().ContainsKey(key), key));
        Assert.Equal(["part", "check", "place", "value"], frame["utilisation"]![0]!.AsObject().Select(m => m.Key));
        Assert.All(new[] { "id", "verdict", "message", "source", "tag" }, key => Assert.True(frame["checks"]![0]!.AsObject().ContainsKey(key), key));
        Assert.Equal(["pins", "rods", "clamps"], frame["kit"]!.AsObject().Select(m => m.Key));
        Assert.Equal("ok", (string)frame["status"]!);
    }

    [Fact]
    public void Healing_keys_areThoseOfTheContract()
    {
        CaseReading reading = new CaseReader([]).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", "01-oblique-fracture.json")));
        JsonNode json = JsonNode.Parse(ReportWriter.ToJson(new HealingAssessor(reading.Case!).Assess("near-far", new("halfpin", "test"), reading.Sha256)))!;
        JsonNode week = json["weeks"]![0]!;

        Assert.NotEmpty(json["assumptions"]!.AsArray());
        Assert.All(new[] { "week", "callusModulusMPa", "motion", "frameLoadShare", "callusBendingNmPerDeg" }, key => Assert.NotNull(week[key]));
        Assert.Equal(["ap", "ml"], week["callusBendingNmPerDeg"]!.AsObject().Select(m => m.Key));
        Assert.Equal("halfpin-healing", (string)json["format"]!);
    }

    private static Case Example(string name) => new CaseReader([]).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", name))).Case!;

    // The id is registered globally; a copy without it keeps this test apart from others.
    private static bool Meets<T>(JsonObject schema, T report)
    {
        schema.Remove("$id");
        using JsonDocument json = JsonDocument.Parse(ReportWriter.ToJson(report));
        return JsonSchema.FromText(schema.ToJsonString()).Evaluate(json.RootElement).IsValid;
    }

    private static string Committed(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "schemas", name)).TrimEnd();

    private static string Text(JsonObject schema) => schema.ToJsonString(HalfpinJson.Options);
}
