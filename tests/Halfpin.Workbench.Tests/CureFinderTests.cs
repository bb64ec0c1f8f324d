using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Workbench.Cures;
using Xunit;

namespace Halfpin.Workbench.Tests;

public class CureFinderTests
{
    private static ImmutableDictionary<string, Verdict> Verdicts(Case value, string frame) =>
        new Assessor(value).Assess(frame, new("test", "0"), "").Frames[0].Checks.GroupBy(c => c.Id).ToImmutableDictionary(g => g.Key, g => g.Max(c => c.Verdict));

    [Theory]
    [InlineData("near-far")]
    [InlineData("near-far-close")]
    [InlineData("two-plane")]
    public void Cure_applied_bettersItsCheckAndWorsensNone(string frame)
    {
        ImmutableDictionary<string, Verdict> before = Verdicts(Works.Demo, frame);
        ImmutableDictionary<string, Cure> cures = CureFinder.Of(Works.Demo, frame, TestContext.Current.CancellationToken);
        Assert.NotEmpty(cures);
        foreach (Cure cure in cures.Values)
        {
            ImmutableDictionary<string, Verdict> after = Verdicts(cure.Edit.Apply(Works.Demo), frame);
            Assert.True(after[cure.Check] < before[cure.Check], $"{cure.Check}: {cure.Words}");
            Assert.All(after, a => Assert.True(a.Value <= before.GetValueOrDefault(a.Key), $"{cure.Words} worsens {a.Key}"));
        }
    }

    [Fact]
    public void Cures_ofAFrameThatDoesNotHold_areNone() =>
        Assert.Empty(CureFinder.Of(new Storage.Cases.CaseReader(CaseValidity.Rules).Read(Works.Example("04-segmental-fracture.json")).Case!, "four-pins", TestContext.Current.CancellationToken));
}
