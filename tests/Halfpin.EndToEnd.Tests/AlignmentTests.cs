using System.Text.Json.Nodes;
using System.Xml.Linq;
using Xunit;

namespace Halfpin.EndToEnd.Tests;

public class AlignmentTests
{
    private static readonly string _case = Run.Example("01-oblique-fracture.json");

    // Worked example of PMC4799231, figure 5; exact values DERIVED.
    [Fact]
    public void Align_workedExample_asJson_hasTheKeysOfTheContract()
    {
        Run run = Run.Halfpin("align", "--ap", "19", "--lat", "14", "--json");
        JsonNode json = JsonNode.Parse(run.Out)!;

        Assert.Equal(0, run.ExitCode);
        Assert.Equal("halfpin-alignment", (string)json["format"]!);
        Assert.Equal(23.03, (double)json["trueAngleDeg"]!, 0.005);
        Assert.Equal(-54.1, (double)json["planeAzimuthDeg"]!, 0.05);
        Assert.Equal(23.60, (double)json["smallAngleRule"]!["angleDeg"]!, 0.005);
        Assert.Equal(36.4, (double)json["smallAngleRule"]!["planeDeg"]!, 0.05);
        Assert.NotEmpty(json["limits"]!.AsArray());
        Assert.NotEmpty(json["corrections"]!.AsArray());
        Assert.Contains("not a medical device", (string)json["safetyNote"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void Align_aFrame_saysWhichClampsAndCarriesTheSafetyNote()
    {
        Run run = Run.Halfpin("align", _case, "--frame", "near-far", "--ap", "-4.7", "--lat", "6.3", "--rotation", "11");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Loosen c3, c4 together", run.Out, StringComparison.Ordinal);
        Assert.Contains("All pins stand in one plane", run.Out, StringComparison.Ordinal);
        Assert.Contains("not a medical device", run.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("(two-plane)", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Align_everyFrame_asJson_hasAnEntryForEach() =>
        Assert.Equal(7, JsonNode.Parse(Run.Halfpin("align", _case, "--ap", "8.1", "--lat", "-3.9", "--json").Out)!["corrections"]!.AsArray().Count);

    [Fact]
    public void Align_badNumbers_ends2AndNamesEveryFault()
    {
        Run run = Run.Halfpin("align", _case, "--ap", "71", "--lat", "NaN", "--ap-shift", "3", "--length", "-400", "--side", "right", "--frame", "none", "--fracture", "4");

        Assert.Equal(2, run.ExitCode);
        Assert.All(new[] { "--ap ", "--lat ", "--lat-shift ", "--length ", "--side ", "--frame ", "--fracture " }, option => Assert.Contains(option, run.Error, StringComparison.Ordinal));
        Assert.Empty(run.Out);
    }

    [Fact]
    public void Align_badNumbers_asJson_areAnEnvelope()
    {
        Run run = Run.Halfpin("align", "--ap", "71", "--lat", "-88", "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.Equal(2, JsonNode.Parse(run.Out)!["faults"]!.AsArray().Count);
    }

    [Fact]
    public void Align_withoutAngles_ends2AndAsksForBoth()
    {
        Run run = Run.Halfpin("align");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("--ap", run.Error, StringComparison.Ordinal);
        Assert.Contains("--lat", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Align_anInvalidCase_ends3() => Assert.Equal(3, Run.Halfpin(["align", "-", "--ap", "3", "--lat", "4"], "{}").ExitCode);

    [Fact]
    public void Align_withSvg_drawsBothViewsAndThePlaneForBothSchemes()
    {
        string folder = Directory.CreateTempSubdirectory("halfpin-test").FullName, file = Path.Combine(folder, "a.svg");
        Run run = Run.Halfpin("align", "--ap", "7.3", "--lat", "-9.1", "--side", "left", "--svg", file);
        XElement svg = XDocument.Load(file).Root!;
        Directory.Delete(folder, true);

        Assert.Equal(0, run.ExitCode);
        Assert.Equal("svg", svg.Name.LocalName);
        Assert.All(new[] { "From the front", "From the medial side", "In the plane of deformity", "7.3° varus", "9.1° recurvatum", "prefers-color-scheme:dark", "not a medical" }, w => Assert.Contains(w, svg.Value, StringComparison.Ordinal));
    }

    [Fact]
    public void Indication_ofTheExample_saysThatItDecidesNothingAndWhatContradicts()
    {
        Run run = Run.Halfpin("indication", _case);
        string words = string.Join(' ', run.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("does not decide", run.Out.Split('\n')[1], StringComparison.Ordinal);
        Assert.Contains("day 17", words, StringComparison.Ordinal);
        Assert.Contains("open-fracture grade: IIIA", words, StringComparison.Ordinal);
        Assert.Contains("not a medical device", words, StringComparison.Ordinal);
    }

    [Fact]
    public void Indication_ofACaseWithout_listsWhatIsMissing()
    {
        JsonNode json = JsonNode.Parse(Run.Halfpin("indication", Run.Example("02-bench-comparators.json"), "--json").Out)!;

        Assert.Equal("halfpin-indication", (string)json["format"]!);
        Assert.Contains(json["missing"]!.AsArray(), m => (string)m!["pointer"]! == "/indication/vascular");
        Assert.NotEmpty(json["reminders"]!.AsArray());
    }

    [Fact]
    public void Indication_withBadMembers_ends3AndNamesEveryFault()
    {
        string text = File.ReadAllText(_case).Replace("\"IIIA\"", "\"IV\"", StringComparison.Ordinal).Replace("\"boneLossMm\": 0", "\"boneLossMm\": -7", StringComparison.Ordinal).Replace("\"levelMm\": 205", "\"levelMm\": 399", StringComparison.Ordinal);
        Run run = Run.Halfpin(["indication", "-"], text);

        Assert.Equal(3, run.ExitCode);
        Assert.All(new[] { "/indication/openGrade", "/indication/boneLossMm", "/fractures/0/levelMm" }, p => Assert.Contains(p, run.Error, StringComparison.Ordinal));
    }

    [Fact]
    public void Indication_whoseWindowEndsBeforeItBegins_ends3()
    {
        Run run = Run.Halfpin(["indication", "-"], File.ReadAllText(_case).Replace("\"fromDay\": 6", "\"fromDay\": 21", StringComparison.Ordinal));

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("/indication/conversion/toDay", run.Error, StringComparison.Ordinal);
    }
}
