using System.Xml.Linq;
using Xunit;

namespace Halfpin.Architecture.Tests;

public class ArrowTests
{
    private static readonly Dictionary<string, string[]> _allowed = Table();

    public static TheoryData<string> Projects => [.. Directory.EnumerateDirectories(Path.Combine(Repository.Root, "src")).Select(d => Path.GetFileName(d)["Halfpin.".Length..]).Order()];

    [Theory]
    [MemberData(nameof(Projects))]
    public void Project_references_areThoseOfTheArchitecturePage(string project)
    {
        string file = Path.Combine(Repository.Root, "src", $"Halfpin.{project}", $"Halfpin.{project}.csproj");
        string[] references = [.. XDocument.Load(file).Descendants("ProjectReference")
            .Select(r => Path.GetFileNameWithoutExtension(r.Attribute("Include")!.Value)["Halfpin.".Length..]).Order()];

        Assert.Equal(_allowed[project].Order(), references);
    }

    [Theory]
    [InlineData("Mechanics")]
    [InlineData("Domain")]
    [InlineData("Anatomy")]
    [InlineData("Placement")]
    [InlineData("Stability")]
    [InlineData("Planning")]
    [InlineData("Studies")]
    [InlineData("Search")]
    [InlineData("Reports")]
    public void Core_usesNoPackage(string project)
    {
        string file = Path.Combine(Repository.Root, "src", $"Halfpin.{project}", $"Halfpin.{project}.csproj");

        Assert.Empty(XDocument.Load(file).Descendants("PackageReference"));
    }

    [Fact]
    public void Reports_neverReachTheSolver() =>
        Assert.DoesNotContain(Repository.Assembly("Reports").GetReferencedAssemblies(), a => a.Name is "Halfpin.Mechanics" or "Halfpin.Stability");

    [Fact]
    public void Mechanics_namesNothingOfTheJob()
    {
        string[] words = ["Bone", "Pin", "Rod", "Clamp", "Fracture", "Limb", "Wound"];
        string[] names = [.. Repository.Assembly("Mechanics").GetExportedTypes().SelectMany(t => t.GetMembers().Select(m => m.Name).Append(t.Name)).Distinct()];

        Assert.DoesNotContain(names, n => words.Any(w => n.Contains(w, StringComparison.Ordinal)));
    }

    [Fact]
    public void Domain_knowsNoMatrix() =>
        Assert.DoesNotContain(Repository.Sources("src/Halfpin.Domain"), f => File.ReadAllText(f).Contains("double[,]", StringComparison.Ordinal));

    private static Dictionary<string, string[]> Table() => File.ReadLines(Path.Combine(Repository.Root, "ARCHITECTURE.md"))
        .SkipWhile(l => l != "## Arrows").SkipWhile(l => !l.StartsWith("|---", StringComparison.Ordinal)).Skip(1).TakeWhile(l => l.StartsWith('|'))
        .Select(l => l.Trim('|').Split('|').Select(c => c.Trim()).ToArray())
        .ToDictionary(c => c[0], c => c[1] == "–" ? [] : c[1].Split(", "));
}
