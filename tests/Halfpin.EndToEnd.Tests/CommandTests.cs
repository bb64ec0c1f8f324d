using System.Text.Json.Nodes;
using Xunit;

namespace Halfpin.EndToEnd.Tests;

public sealed class CommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("halfpin-test").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Demo_writesAReportAndACaseAndComparesSevenFrames()
    {
        Run run = Run.Halfpin(["demo"], folder: _folder);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Two-plane V, two", run.Out, StringComparison.Ordinal);
        Assert.Contains("not a medical device", run.Out, StringComparison.Ordinal);
        Assert.Contains("halfpin assess", run.Error, StringComparison.Ordinal);
        Assert.Equal(["demo-case.json", "report.html"], Directory.GetFiles(_folder).Select(f => Path.GetFileName(f)!).Order());
    }

    [Fact]
    public void Demo_caseItWrites_canBeAssessed()
    {
        Run.Halfpin(["demo"], folder: _folder);

        Assert.Equal(0, Run.Halfpin(["check", "demo-case.json"], folder: _folder).ExitCode);
    }

    [Theory]
    [InlineData("01-oblique-fracture.json")]
    [InlineData("02-bench-comparators.json")]
    [InlineData("03-published-pin-count.json")]
    public void Example_compared_ends0AndSaysTheSafetyNote(string example)
    {
        Run run = Run.Halfpin("compare", Run.Example(example));

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Planning and teaching aid, not a medical device", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void SegmentalExample_compared_ends4ForTheFrameThatLeavesTheMiddleFree()
    {
        Run run = Run.Halfpin("compare", Run.Example("04-segmental-fracture.json"));

        Assert.Equal(4, run.ExitCode);
        Assert.Contains("The middle fragment moves freely: there is no pin in it.", run.Out, StringComparison.Ordinal);
        Assert.Contains("Planning and teaching aid, not a medical device", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Overload_ofASegmentalFracture_hasAPathForEachAndNamesThem()
    {
        Run run = Run.Halfpin("overload", Run.Example("04-segmental-fracture.json"), "--frame", "two-rods", "--to", "300", "--json");
        JsonNode json = JsonNode.Parse(run.Out)!;
        string text = Run.Halfpin("overload", Run.Example("04-segmental-fracture.json"), "--frame", "two-rods", "--to", "300").Out;

        Assert.Equal(2, json["fractures"]!.AsArray().Count);
        Assert.Equal(json["path"]!.AsArray().Count, json["fractures"]![1]!["path"]!.AsArray().Count);
        Assert.Contains("Fracture 2", text, StringComparison.Ordinal);
        Assert.Contains("Planning and teaching aid, not a medical device", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Dynamise_ofASegmentalFracture_printsARowForEachFracture()
    {
        Run run = Run.Halfpin("dynamise", Run.Example("04-segmental-fracture.json"), "--frame", "one-rod");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("As mounted, fracture 2", run.Out, StringComparison.Ordinal);
        Assert.Contains("None of the 63 sets of its pin clamps frees the axis alone.", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Dynamise_withATravel_saysHowFarEachProposalCloses()
    {
        Run run = Run.Halfpin("dynamise", Run.Example("01-oblique-fracture.json"), "--frame", "double-rod", "--free-mm", "2", "--json");
        JsonNode report = JsonNode.Parse(run.Out)!;

        Assert.Equal(2, (double)report["wantedFreeMm"]!);
        Assert.NotEmpty(report["proposals"]!.AsArray());
        Assert.All(report["proposals"]!.AsArray(), p => Assert.True((double)p!["closingMm"]! >= 2));
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-1")]
    [InlineData("NaN")]
    [InlineData("51")]
    [InlineData("much")]
    public void Dynamise_withATravelOutOfRange_ends2(string mm) =>
        Assert.Equal(2, Run.Halfpin("dynamise", Run.Example("01-oblique-fracture.json"), "--free-mm", mm).ExitCode);

    [Fact]
    public void Assess_ofASegmentalFracture_printsARowForEachFracture()
    {
        string text = Run.Halfpin("assess", Run.Example("04-segmental-fracture.json"), "--frame", "two-rods").Out;

        Assert.Contains("fracture 1, chosen load", text, StringComparison.Ordinal);
        Assert.Contains("fracture 2, overload", text, StringComparison.Ordinal);
        Assert.Contains("Fracture 2: Bone ends do not touch", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Assess_asJson_printsNothingButOneDocument()
    {
        Run run = Run.Halfpin("assess", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--json");
        JsonNode json = JsonNode.Parse(run.Out)!;

        Assert.Equal(0, run.ExitCode);
        Assert.Equal("near-far", (string)json["frames"]!.AsArray().Single()!["id"]!);
        Assert.Empty(run.Error);
    }

    [Fact]
    public void Assess_withAStep_namesTheWorstPhases()
    {
        string[] args = ["assess", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--gait", Run.Example("05-gait-invented.csv")];
        Run screen = Run.Halfpin(args);
        JsonNode gait = JsonNode.Parse(Run.Halfpin([.. args, "--json"]).Out)!["frames"]![0]!["gait"]!;

        Assert.Equal(0, screen.ExitCode);
        Assert.Contains($"Worst phase of the step: axial motion at {(string)gait["worstAxial"]!["phase"]!}", screen.Out, StringComparison.Ordinal);
        Assert.Equal(5, gait["phases"]!.AsArray().Count);
    }

    [Fact]
    public void Assess_withAFaultyStep_ends3AndNamesRowAndColumn()
    {
        string file = Path.Combine(_folder, "step.csv");
        File.WriteAllText(file, "phase,fxN,fyN,fzN,mxNm,myNm,mzNm\nstance,0,0,lots,0,0,0\n");
        Run run = Run.Halfpin("assess", Run.Example("01-oblique-fracture.json"), "--gait", file);

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("Row 2, column fzN", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Assess_fromStandardInput_equalsTheFile()
    {
        string path = Run.Example("02-bench-comparators.json");

        Assert.Equal(Run.Halfpin("assess", path, "--json").Out, Run.Halfpin(["assess", "-", "--json"], File.ReadAllText(path)).Out);
    }

    [Fact]
    public void Compare_withReport_writesItWhole()
    {
        string report = Path.Combine(_folder, "mine.html");
        Run run = Run.Halfpin("compare", Run.Example("02-bench-comparators.json"), "--report", report);

        Assert.Equal(0, run.ExitCode);
        Assert.EndsWith("</html>\n", File.ReadAllText(report).ReplaceLineEndings("\n"), StringComparison.Ordinal);
    }

    [Fact]
    public void NoColor_orAPipe_printsNoEscapeCodes() =>
        Assert.DoesNotContain('\u001b', Run.Halfpin("compare", Run.Example("02-bench-comparators.json"), "--no-color").Out);

    [Fact]
    public void Dynamise_asJson_hasTheKeysOfTheContract()
    {
        Run run = Run.Halfpin("dynamise", Run.Example("01-oblique-fracture.json"), "--frame", "double-rod", "--json");
        JsonNode stage = JsonNode.Parse(run.Out)!["stages"]!.AsArray()[1]!;

        Assert.Equal(0, run.ExitCode);
        Assert.All(new[] { "id", "name", "status", "freedoms", "stiffness", "kept", "motion", "warnings" }, key => Assert.True(stage.AsObject().ContainsKey(key)));
        Assert.All(new[] { "ap", "ml", "torsion" }, key => Assert.NotNull(stage["kept"]![key]));
    }

    [Fact]
    public void Dynamise_forPeople_statesTheGateAndTheSafetyNote()
    {
        Run run = Run.Halfpin("dynamise", Run.Example("01-oblique-fracture.json"));

        Assert.Contains("Before any stage:", run.Out, StringComparison.Ordinal);
        Assert.Contains("not a medical device", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Overload_asJson_hasTheKeysOfTheContract()
    {
        Run run = Run.Halfpin("overload", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--to", "413", "--json");
        JsonObject report = JsonNode.Parse(run.Out)!.AsObject();

        Assert.Equal(0, run.ExitCode);
        Assert.All(new[] { "complete", "setMm", "safetyNote" }, key => Assert.True(report.ContainsKey(key)));
        Assert.All(new[] { "loadN", "kind", "part", "message" }, key => Assert.True(report["events"]![0]!.AsObject().ContainsKey(key)));
        Assert.All(new[] { "loadN", "axialMm", "shearMm", "tiltDeg", "twistDeg", "frameShare" }, key => Assert.True(report["path"]![1]!.AsObject().ContainsKey(key)));
        Assert.Contains((string)report["events"]![0]!["kind"]!, new[] { "contact", "slip", "yield", "bearing" });
    }

    [Fact]
    public void Overload_forPeople_tellsEventsAndTheSafetyNote_andPlots()
    {
        string plot = Path.Combine(_folder, "path.svg");
        Run run = Run.Halfpin("overload", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--to", "413", "--svg", plot);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("The bone ends touch at", run.Out, StringComparison.Ordinal);
        Assert.Contains("not a medical device", run.Out, StringComparison.Ordinal);
        Assert.Equal("svg", System.Xml.Linq.XDocument.Load(plot).Root!.Name.LocalName);
    }

    // A part of this frame turns 5° before 613 N.
    [Fact]
    public void Overload_whosePathEndsEarly_ends4AndStillPrintsWhatItHas()
    {
        string[] args = ["overload", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--to", "613"];
        Run screen = Run.Halfpin(args), json = Run.Halfpin([.. args, "--json"]);
        JsonNode report = JsonNode.Parse(json.Out)!;

        Assert.Equal((4, 4), (screen.ExitCode, json.ExitCode));
        Assert.Contains("Incomplete. At", screen.Out, StringComparison.Ordinal);
        Assert.Contains("The bone ends touch at", screen.Out, StringComparison.Ordinal);
        Assert.False((bool)report["complete"]!);
        Assert.Null(report["setMm"]);
        Assert.True(report["path"]!.AsArray().Count > 2);
    }

    [Fact]
    public void Overload_ofAnUnknownFrame_ends2AndNamesTheFramesThereAre()
    {
        Run run = Run.Halfpin("overload", Run.Example("01-oblique-fracture.json"), "--frame", "nearfar", "--to", "613");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("near-far", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-7")]
    [InlineData("NaN")]
    [InlineData("31000")]
    public void Overload_toALoadOutOfRange_ends2(string load) =>
        Assert.Equal(2, Run.Halfpin("overload", Run.Example("01-oblique-fracture.json"), "--frame", "near-far", "--to", load).ExitCode);

    [Fact]
    public void Constructs_asJson_listsSevenWithTheirKits()
    {
        JsonArray constructs = JsonNode.Parse(Run.Halfpin("constructs", "--json").Out)!["constructs"]!.AsArray();

        Assert.Equal(7, constructs.Count);
        Assert.Equal(12, (int)constructs[4]!["kit"]!["clamps"]!);
    }

    [Theory]
    [InlineData("case")]
    [InlineData("assessment")]
    [InlineData("healing")]
    [InlineData("align")]
    [InlineData("indication")]
    [InlineData("dynamise")]
    [InlineData("overload")]
    public void Schema_printed_isASchema(string which) =>
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", (string)JsonNode.Parse(Run.Halfpin("schema", which).Out)!["$schema"]!);

    [Fact]
    public void Healing_asTables_saysTheThresholdsFailuresTheSafetyNoteAndWhatIsAssumed()
    {
        Run run = Run.Halfpin("healing", Run.Example("01-oblique-fracture.json"), "--frame", "near-far");
        string words = string.Join(' ', run.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("4 of 76 patients", words, StringComparison.Ordinal);
        Assert.Contains("not a medical device", words, StringComparison.Ordinal);
        Assert.Contains("[ASSUMED]", words, StringComparison.Ordinal);
    }

    [Fact]
    public void Healing_asJson_hasTheWeeksOfEveryFrame()
    {
        JsonNode json = JsonNode.Parse(Run.Halfpin("healing", Run.Example("01-oblique-fracture.json"), "--json").Out)!;

        Assert.Equal(7, json["frames"]!.AsArray().Count);
        Assert.Equal(35, json["weeks"]!.AsArray().Count);
        Assert.Contains("not a medical device", (string)json["safetyNote"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_one_ends0()
    {
        Run run = Run.Halfpin("verify", "--case", "logan-5-8");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Logan", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Completion_ofAVerb_isOffered() => Assert.Contains("compare", Run.Halfpin("[suggest:2]", "co").Out, StringComparison.Ordinal);

    [Theory]
    [InlineData("bash")]
    [InlineData("zsh")]
    [InlineData("fish")]
    [InlineData("powershell")]
    public void Completion_script_isPrinted(string shell) => Assert.Contains("halfpin", Run.Halfpin("completion", shell).Out, StringComparison.Ordinal);

    [Theory]
    [InlineData("demo")]
    [InlineData("check")]
    [InlineData("assess")]
    [InlineData("compare")]
    [InlineData("healing")]
    [InlineData("align")]
    [InlineData("indication")]
    [InlineData("constructs")]
    [InlineData("schema")]
    [InlineData("verify")]
    public void Help_ofAVerb_opensWithTwoExamples(string verb)
    {
        string[] lines = Run.Halfpin(verb, "--help").Out.Split('\n');

        Assert.Equal("Examples:", lines[0]);
        Assert.StartsWith($"  halfpin {verb}", lines[1], StringComparison.Ordinal);
        Assert.StartsWith($"  halfpin {verb}", lines[2], StringComparison.Ordinal);
    }
}
