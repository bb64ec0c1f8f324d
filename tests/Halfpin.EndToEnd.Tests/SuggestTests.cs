using System.Diagnostics;
using System.Text.Json.Nodes;
using Halfpin.Storage.Tables;
using Xunit;

namespace Halfpin.EndToEnd.Tests;

public sealed class SuggestTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("halfpin-test").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Suggest_asJson_givesAFrameThatACaseCanHold()
    {
        JsonObject value = SmallCase();
        string file = Path.Combine(_folder, "case.json");
        File.WriteAllText(file, value.ToJsonString());
        JsonNode report = JsonNode.Parse(Run.Halfpin("suggest", file, "--json").Out)!;
        value["frames"] = new JsonArray(report["simplest"]!["frame"]!.DeepClone());
        File.WriteAllText(file, value.ToJsonString());

        Assert.Equal(0, Run.Halfpin("assess", file).ExitCode);
    }

    [Fact]
    public void Suggest_asTables_saysTheAnswerFirstAndTheSafetyNote()
    {
        string file = Path.Combine(_folder, "case.json");
        File.WriteAllText(file, SmallCase().ToJsonString());
        Run run = Run.Halfpin("suggest", file);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Simplest that meets all requirements", run.Out.Split('\n')[1], StringComparison.Ordinal);
        Assert.Contains("not a medical device", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Suggest_forASegmentalFracture_givesAFrameThatPassesCheckInTheCase()
    {
        JsonObject value = SmallSegmental();
        string file = Path.Combine(_folder, "case.json");
        File.WriteAllText(file, value.ToJsonString());
        JsonNode report = JsonNode.Parse(Run.Halfpin("suggest", file, "--json").Out)!;
        value["frames"] = new JsonArray(report["simplest"]!["frame"]!.DeepClone());
        File.WriteAllText(file, value.ToJsonString());
        Run check = Run.Halfpin("check", file, "--json");

        Assert.Equal(0, check.ExitCode);
        Assert.DoesNotContain("fail", JsonNode.Parse(check.Out)!["frames"]![0]!["checks"]!.AsArray().Select(c => (string)c!["verdict"]!));
    }

    [Fact]
    public void Suggest_forASegmentalFracture_saysTheLevelsOfAllPins()
    {
        string file = Path.Combine(_folder, "case.json");
        File.WriteAllText(file, SmallSegmental().ToJsonString());
        string text = Run.Halfpin("suggest", file).Out;

        Assert.Matches("Simplest that meets all requirements: single rod, 6 pins at [0-9]+° at\\s+levels [0-9]+, ", text);
        Assert.Contains("6 pins, 1 rod, 6 clamps;", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Suggest_withChoicesOutOfRange_tellsThemAll()
    {
        JsonObject value = SmallCase();
        value["search"]!["nearMm"] = new JsonArray(30, 1);
        value["search"]!["pinsPerFragment"] = new JsonArray(2.5);
        value["search"]!["middlePins"] = new JsonArray(0);
        value["search"]!["middleEdgeMm"] = new JsonArray(20, 1.5);
        value["requirements"] = new JsonObject { ["leastAxialMm"] = 2, ["mostAxialMm"] = 1 };
        string file = Path.Combine(_folder, "case.json");
        File.WriteAllText(file, value.ToJsonString());
        Run run = Run.Halfpin("suggest", file, "--json");

        Assert.Equal(3, run.ExitCode);
        Assert.Equal(["/requirements/leastAxialMm", "/search/middleEdgeMm/1", "/search/middlePins/0", "/search/nearMm/1", "/search/pinsPerFragment/0"], JsonNode.Parse(run.Out)!["faults"]!.AsArray().Select(e => (string)e!["pointer"]!).Order());
    }

    // Killed without warning as soon as it has kept something, and gone on with: the same answer.
    [Fact]
    public void Suggest_killedAndResumed_givesTheSameAnswer()
    {
        JsonObject value = SmallCase();
        value["search"] = JsonNode.Parse("""{ "nearMm": [25, 30, 40], "farMm": [70, 85, 100], "azimuthDeg": [45, 55, 60, 75], "standoffMm": [45, 50, 55] }""");
        File.WriteAllText(Path.Combine(_folder, "case.json"), value.ToJsonString());
        string whole = Answer(Run.Halfpin(["suggest", "case.json", "--json"], folder: _folder));
        string part = Path.Combine(_folder, "search.part");
        using (Process process = Run.Start(["suggest", "case.json", "--keep", "search.part"], _folder))
        {
            for (int i = 0; i < 1200 && !process.HasExited && !(File.Exists(part) && new FileInfo(part).Length > 3000); i++)
            {
                Thread.Sleep(20);
            }

            Assert.False(process.HasExited, "It was done before it could be killed.");
            process.Kill();
            process.WaitForExit();
        }

        Assert.Equal(whole, Answer(Run.Halfpin(["suggest", "case.json", "--keep", "search.part", "--resume", "--json"], folder: _folder)));
    }

    [Fact]
    public void Suggest_resumedWithNothingKept_saysThatItBeginsAnew()
    {
        File.WriteAllText(Path.Combine(_folder, "case.json"), SmallCase().ToJsonString());
        Run run = Run.Halfpin(["suggest", "case.json", "--keep", "search.part", "--resume"], folder: _folder);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Nothing is kept in search.part: the search begins anew.", run.Error, StringComparison.Ordinal);
    }

    // What was kept of a study is no search, and says what a search is known by only where it is one.
    [Fact]
    public void Suggest_keptInAFileThatIsNone_endsWithAWordAboutASearch()
    {
        File.WriteAllText(Path.Combine(_folder, "case.json"), SmallCase().ToJsonString());
        File.WriteAllText(Path.Combine(_folder, "search.part"), "1,2,3\n");
        Run run = Run.Halfpin(["suggest", "case.json", "--keep", "search.part", "--resume"], folder: _folder);

        Assert.Equal(5, run.ExitCode);
        Assert.Contains("is not what was kept of a search", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Suggest_withPartsOfAStudy_saysWhatMustBeTheSameForASearch()
    {
        File.WriteAllText(Path.Combine(_folder, "case.json"), SmallCase().ToJsonString());
        using (RowJournal.Begin(Path.Combine(_folder, "search.part"), "another"))
        {
        }

        Run run = Run.Halfpin(["suggest", "case.json", "--keep", "search.part", "--resume"], folder: _folder);

        Assert.Equal(5, run.ExitCode);
        Assert.Contains("belongs to another search: case, stock and program must be the same", run.Error, StringComparison.Ordinal);
    }

    // 85 million candidates, stopped as soon as it has told so.
    [Fact]
    public void Suggest_ofManyMillionCandidates_saysHowManyBeforeItStarts()
    {
        JsonObject value = JsonNode.Parse(File.ReadAllText(Run.Example("04-segmental-fracture.json")))!.AsObject();
        value["search"] = JsonNode.Parse("""{ "middlePins": [1, 2, 3, 4], "middleEdgeMm": [20, 25, 30, 35] }""");
        File.WriteAllText(Path.Combine(_folder, "case.json"), value.ToJsonString());
        using Process process = Run.Start(["suggest", "case.json"], _folder);
        string? first = process.StandardError.ReadLine();
        process.Kill();
        process.WaitForExit();

        Assert.Matches("^[0-9]{2},[0-9]{3},[0-9]{3} candidates to try, ", first);
    }

    // The answer, but for the time that it took.
    private static string Answer(Run run)
    {
        Assert.Equal(0, run.ExitCode);
        JsonObject report = JsonNode.Parse(run.Out)!.AsObject();
        report["searched"]!.AsObject().Remove("seconds");
        return report.ToJsonString();
    }

    private static JsonObject SmallSegmental()
    {
        JsonObject value = JsonNode.Parse(File.ReadAllText(Run.Example("04-segmental-fracture.json")))!.AsObject();
        value["search"] = JsonNode.Parse("""{ "nearMm": [30, 40], "farMm": [75, 95], "azimuthDeg": [45, 55], "standoffMm": [49, 55], "pinsPerFragment": [2], "middleEdgeMm": [20, 24] }""");
        return value;
    }

    private static JsonObject SmallCase()
    {
        JsonObject value = JsonNode.Parse(File.ReadAllText(Run.Example("01-oblique-fracture.json")))!.AsObject();
        value["search"] = new JsonObject
        {
            ["nearMm"] = new JsonArray(30, 40),
            ["farMm"] = new JsonArray(80, 100),
            ["azimuthDeg"] = new JsonArray(45, 60),
            ["standoffMm"] = new JsonArray(48, 55),
            ["pinsPerFragment"] = new JsonArray(2),
        };
        return value;
    }
}
