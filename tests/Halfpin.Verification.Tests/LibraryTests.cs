using System.Collections.Immutable;
using Halfpin.Verification.Formulas;
using Halfpin.Verification.Running;
using Xunit;

namespace Halfpin.Verification.Tests;

public class LibraryTests
{
    private static readonly ImmutableArray<(string Topic, VerificationCase Case)> _library = CaseLibrary.Load();

    [Fact]
    public void Library_hasAtLeast25SourcedCases() => Assert.True(_library.Count(c => c.Case.Tag == ReadTag.Read) >= 25);

    [Fact]
    public void Library_hasAtLeast8WorkedSpaceFrames() =>
        Assert.True(_library.Count(c => c is { Topic: "space-frames", Case: { Tag: ReadTag.Read, Kind: CheckKind.WorkedExample } }) >= 8);

    [Fact]
    public void Library_idsAreUnique() => Assert.Equal(_library.Length, _library.Select(c => c.Case.Id).Distinct().Count());

    [Fact]
    public void Case_anyOfTheLibrary_hasSourceLocatorAndOneModel()
    {
        string[] lacking = [.. _library.Select(c => c.Case)
            .Where(c => Blank(c.Source) || Blank(c.Locator) || Blank(c.Requirement) || c.Checks.IsEmpty
                || new object?[] { c.Frame, c.Section, c.Case }.Count(m => m is not null) != 1)
            .Select(c => c.Id)];

        Assert.Empty(lacking);
    }

    [Fact]
    public void Check_anyOfTheLibrary_hasReferenceToleranceAndReason()
    {
        string[] lacking = [.. _library.SelectMany(c => c.Case.Checks.Select(check => (c.Case.Id, Check: check)))
            .Where(c => (c.Check.Printed is null && c.Check.Formula is null) || Blank(c.Check.ToleranceReason) || Blank(c.Check.Unit)
                || Math.Max(c.Check.RelativeTolerance ?? 0, c.Check.AbsoluteTolerance ?? 0) <= 0 || c.Check.KnownGap is { Length: 0 })
            .Select(c => $"{c.Id}: {c.Check.Quantity}")];

        Assert.Empty(lacking);
    }

    [Fact]
    public void Page_committed_isWhatThisVersionGives()
    {
        string committed = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "VERIFICATION.md"));

        Assert.Equal(VerificationPage.Of([.. _library.Select(c => (c.Topic, c.Case, CaseRunner.Run(c.Case)))]), committed);
    }

    [Fact]
    public void KnownGap_ofACheckThatAgrees_isNotKept()
    {
        string[] stale = [.. _library.SelectMany(c => CaseRunner.Run(c.Case))
            .Where(r => r.Check.KnownGap is not null && r.Outcome == Outcome.Agrees)
            .Select(r => $"{r.Case.Id}: {r.Check.Quantity}")];

        Assert.Empty(stale);
    }

    [Fact]
    public void ClosedForm_anyNamed_isUsedByACase()
    {
        HashSet<string> used = [.. _library.SelectMany(c => c.Case.Checks).Select(c => c.Formula?.Name).OfType<string>()];

        Assert.Empty(ClosedForms.Names.Except(used));
    }

    private static bool Blank(string text) => string.IsNullOrWhiteSpace(text);
}
