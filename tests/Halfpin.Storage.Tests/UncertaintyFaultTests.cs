using System.Text;
using System.Text.Json.Nodes;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Xunit;

namespace Halfpin.Storage.Tests;

public class UncertaintyFaultTests
{
    private static readonly string _example = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "examples", "01-oblique-fracture.json"));

    [Theory]
    [InlineData("""{ "input": "slipMomentNm", "distribution": "uniform", "low": 7.3, "high": 7.3 }""", "/uncertainty/0/high")]
    [InlineData("""{ "input": "slipMomentNm", "distribution": "uniform", "low": 9.1, "high": 7.3 }""", "/uncertainty/0/high")]
    [InlineData("""{ "input": "slipMomentNm", "distribution": "uniform", "low": 9.1 }""", "/uncertainty/0/high")]
    [InlineData("""{ "input": "slipMomentNm", "distribution": "uniform", "low": 4.2, "high": 9.1, "mode": 5 }""", "/uncertainty/0/mode")]
    [InlineData("""{ "input": "boneModuliShare", "distribution": "uniform", "low": 0, "high": 1.3 }""", "/uncertainty/0/low")]
    [InlineData("""{ "input": "boneWallShare", "distribution": "uniform", "low": 0.44, "high": 1.3 }""", "/uncertainty/0/low")]
    [InlineData("""{ "input": "boneWallShare", "distribution": "uniform", "low": 0.7, "high": 1.62 }""", "/uncertainty/0/high")]
    [InlineData("""{ "input": "boneWallShare", "distribution": "normal", "mean": 0.9, "standardDeviation": 0.1, "low": 0.6 }""", "/uncertainty/0/high")]
    [InlineData("""{ "input": "slipMomentNm", "distribution": "triangular", "low": 4.2, "mode": 11.7, "high": 9.1 }""", "/uncertainty/0/mode")]
    [InlineData("""{ "input": "slipMomentNm", "distribution": "normal", "mean": 6.6, "standardDeviation": 0 }""", "/uncertainty/0/standardDeviation")]
    [InlineData("""{ "input": "slipMoment", "distribution": "uniform", "low": 4.2, "high": 9.1 }""", "/uncertainty/0/input")]
    [InlineData("""{ "input": "/frames/1/construct/standofMm", "distribution": "uniform", "low": 42, "high": 58 }""", "/uncertainty/0/input")]
    [InlineData("""{ "input": "/frames/99/construct/standoffMm", "distribution": "uniform", "low": 42, "high": 58 }""", "/uncertainty/0/input")]
    [InlineData("""{ "input": "/frames/1/construct/pinsPerFragment", "distribution": "uniform", "low": 2, "high": 4 }""", "/uncertainty/0/input")]
    [InlineData("""{ "input": "/frames/1/construct/standoffMm", "distribution": "uniform", "low": 42, "high": 900 }""", "/uncertainty/0/high")]
    [InlineData("""{ "input": "pinLevelErrorMm:p77", "distribution": "uniform", "low": -2, "high": 2 }""", "/uncertainty/0/input")]
    public void Uncertainty_thatCannotBe_isAFaultWhereItStands(string input, string pointer)
    {
        CaseReading reading = Read(input);

        Assert.Null(reading.Case);
        Assert.Equal(pointer, Assert.Single(reading.Faults).Pointer);
    }

    [Fact]
    public void Uncertainty_withSeveralFaults_tellsAllInOneAnswer() => Assert.Equal(
        ["/uncertainty/0/high", "/uncertainty/1/input", "/uncertainty/2/input"],
        Read("""{ "input": "slipMomentNm", "distribution": "uniform", "low": 9.1, "high": 7.3 }""",
            """{ "input": "/nowhere", "distribution": "uniform", "low": 1, "high": 2 }""",
            """{ "input": "/model/clamp/slipMomentNm", "distribution": "uniform", "low": 4, "high": 7 }""").Faults.Select(f => f.Pointer).Order());

    [Fact]
    public void Uncertainty_ofNamesPointersAndParts_isRead() => Assert.Equal(3, Read(
        """{ "input": "clampRotationalNmPerRad", "distribution": "logUniform", "low": 120, "high": 310 }""",
        """{ "input": "/limb/patientMassKg", "distribution": "normal", "mean": 68, "standardDeviation": 4.5 }""",
        """{ "input": "rodStandoffErrorMm:r1", "distribution": "triangular", "low": -7, "mode": 1, "high": 9 }""").Case!.Uncertainty.Length);

    [Fact]
    public void Uncertainty_ofTheWallOfATube_isAFault()
    {
        JsonNode root = JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "examples", "02-bench-comparators.json")))!;
        root["uncertainty"] = new JsonArray(JsonNode.Parse("""{ "input": "boneWallShare", "distribution": "uniform", "low": 0.8, "high": 1.1 }"""));

        Assert.Equal("/uncertainty/0/input", Assert.Single(new CaseReader(CaseValidity.Rules).Read(Encoding.UTF8.GetBytes(root.ToJsonString())).Faults).Pointer);
    }

    private static CaseReading Read(params string[] inputs)
    {
        JsonNode root = JsonNode.Parse(_example)!;
        root["uncertainty"] = new JsonArray([.. inputs.Select(i => JsonNode.Parse(i))]);
        return new CaseReader(CaseValidity.Rules).Read(Encoding.UTF8.GetBytes(root.ToJsonString()));
    }
}
