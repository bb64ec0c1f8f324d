using System.Text.RegularExpressions;
using Xunit;

namespace Halfpin.Architecture.Tests;

public partial class DocumentTests
{
    private static readonly string _tests = string.Concat(Repository.Sources("tests").Select(File.ReadAllText));

    [Fact]
    public void Conventions_eachLine_namesATestThatExists()
    {
        string[] lines = [.. File.ReadLines(Path.Combine(Repository.Root, "docs", "conventions.md")).Where(l => l.StartsWith("- ", StringComparison.Ordinal))];
        string[] missing = [.. lines.Where(l =>
        {
            Match m = TestName().Match(l);
            return !m.Success || !_tests.Contains($"class {m.Groups[1].Value}", StringComparison.Ordinal) || !_tests.Contains($" {m.Groups[2].Value}(", StringComparison.Ordinal);
        })];

        Assert.NotEmpty(lines);
        Assert.Empty(missing);
    }

    [Fact]
    public void Links_betweenDocuments_leadSomewhere()
    {
        string[] pages = [.. Directory.GetFiles(Repository.Root, "*.md"), .. Directory.GetFiles(Path.Combine(Repository.Root, "docs"), "*.md", SearchOption.AllDirectories), Path.Combine(Repository.Root, "benchmarks", "README.md")];
        string[] dead = [.. pages.SelectMany(p => Link().Matches(File.ReadAllText(p)).Select(m => (Page: p, Target: m.Groups[1].Value)))
            .Where(l => !Path.Exists(Path.Combine(Path.GetDirectoryName(l.Page)!, l.Target)))
            .Select(l => $"{Path.GetFileName(l.Page)}: {l.Target}")];

        Assert.Empty(dead);
    }

    [GeneratedRegex("`(\\w+)\\.(\\w+)`\\s*$")]
    private static partial Regex TestName();

    [GeneratedRegex("\\]\\(([^)#:]+)\\)")]
    private static partial Regex Link();
}
