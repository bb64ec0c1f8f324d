using System.Text.RegularExpressions;
using Halfpin.Reports.Words;
using Xunit;

namespace Halfpin.Architecture.Tests;

/// <summary>Texts that pages and the command line share speak to readers of both.</summary>
public partial class WordingTests
{
    [Fact]
    public void SharedTexts_nameNoVerbOfTheCommandLine()
    {
        string[] folders = ["Domain", "Anatomy", "Placement", "Stability", "Planning", "Search", "Studies", "Reports", "Workbench"];
        string[] found = [.. folders.SelectMany(f => Repository.Sources(Path.Combine("src", $"Halfpin.{f}"))).SelectMany(f => File.ReadLines(f)
            .Where(l => !l.TrimStart().StartsWith("//", StringComparison.Ordinal) && VerbInText().IsMatch(l)).Select(l => $"{Path.GetFileName(f)}: {l.Trim()}"))];
        Assert.Empty(found);
    }

    [Fact]
    public void TermsMarkedByHand_areInTheGlossary()
    {
        string[] keys = [.. Directory.GetFiles(Path.Combine(Repository.Root, "src", "Halfpin.Web", "Components"), "*.razor", SearchOption.AllDirectories)
            .SelectMany(f => MarkedTerm().Matches(File.ReadAllText(f))).Select(m => m.Groups[1].Value).Distinct()];
        Assert.NotEmpty(keys);
        Assert.All(keys, k => Assert.NotNull(Glossary.Find(k)));
    }

    [GeneratedRegex("\"[^\"]*\\bhalfpin [a-z]")]
    private static partial Regex VerbInText();

    [GeneratedRegex("<Term Of=\"([a-z-]+)\"")]
    private static partial Regex MarkedTerm();
}
