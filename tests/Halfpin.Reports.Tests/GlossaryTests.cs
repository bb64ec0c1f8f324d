using Halfpin.Reports.Words;
using Xunit;

namespace Halfpin.Reports.Tests;

public class GlossaryTests
{
    public static TheoryData<string> Keys => new(Glossary.All.Select(t => t.Key));

    [Fact]
    public void Terms_haveKeysAndNamesOfTheirOwn()
    {
        Assert.Distinct(Glossary.All.Select(t => t.Key));
        Assert.Distinct(Glossary.All.Select(t => t.Name), StringComparer.OrdinalIgnoreCase);
    }

    [Theory]
    [MemberData(nameof(Keys))]
    public void Term_isExplainedInAFewShortSentences(string key)
    {
        GlossaryTerm term = Glossary.Find(key)!;
        Assert.Matches("^[a-z]+(-[a-z]+)*$", term.Key);
        Assert.EndsWith(".", term.Words, StringComparison.Ordinal);
        Assert.InRange(term.Words.Length, 30, 260);
        Assert.DoesNotContain("  ", term.Words, StringComparison.Ordinal);
    }

    // What a trainee met in a first reading of the pages.
    [Theory]
    [InlineData("half-pin")]
    [InlineData("Schanz screw")]
    [InlineData("standoff")]
    [InlineData("far-far")]
    [InlineData("near-far")]
    [InlineData("interfragmentary motion")]
    [InlineData("pull-out margin")]
    [InlineData("callus")]
    [InlineData("dynamisation")]
    [InlineData("Pareto set")]
    [InlineData("Sobol’ index")]
    [InlineData("corridor")]
    [InlineData("hazard")]
    [InlineData("axial stiffness")]
    [InlineData("AP bending")]
    [InlineData("torsion")]
    [InlineData("overshoot")]
    [InlineData("working length")]
    [InlineData("bicortical")]
    [InlineData("pre-drilled")]
    [InlineData("fatigue utilisation")]
    public void Word_ofTheTrade_isExplained(string word)
    {
        GlossaryRun run = Assert.Single(Glossary.Split(word));
        Assert.NotNull(run.Term);
    }

    [Fact]
    public void Text_cut_isThePiecesTogether()
    {
        const string Text = "Torsion, N·m/°: the Near-far frame (standoff 47 mm) is stiffer; torsion again.";
        Assert.Equal(Text, string.Concat(Glossary.Split(Text).Select(r => r.Text)));
        Assert.Equal(["torsion", "near-far", "standoff", "stiffness"], [.. Glossary.Split(Text.Replace("stiffer", "of more stiffness", StringComparison.Ordinal)).Where(r => r.Term is not null).Select(r => r.Term!.Key)]);
    }

    [Fact]
    public void LongestForm_isTaken() => Assert.Equal(["AP bending"], [.. Glossary.Split("AP bending").Select(r => r.Text)]);

    [Fact]
    public void PartOfAWord_isLeftAlone() => Assert.All(Glossary.Split("multilevel half-levels and shearing"), r => Assert.Null(r.Term));

    [Fact]
    public void Term_isMarkedOnceInAText() => Assert.Single(Glossary.Split("callus, then more callus"), r => r.Term is not null);

    [Fact]
    public void Text_withoutTerms_isOnePiece() => Assert.Equal([new("left leg", null)], Glossary.Split("left leg"));

    [Fact]
    public void EmptyText_hasNoPieces() => Assert.Empty(Glossary.Split(""));
}
