using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Dynamisation;
using Halfpin.Workbench.Course;
using Halfpin.Workbench.Documents;
using Xunit;

namespace Halfpin.Workbench.Tests.Course;

public class StageEditsTests
{
    private static readonly Frame _double = Examples.Oblique.Named("double-rod");

    [Fact]
    public void Loosen_onAFrameWithoutStages_loosensThemAndTightensNothing()
    {
        Stage stage = Added(Examples.Oblique, ["c1", "c3"]);

        Assert.Equal(["c1", "c3"], stage.Loosen);
        Assert.Empty(stage.Tighten);
        Assert.Equal("Loosen c1, c3", stage.Name);
    }

    [Fact]
    public void Loosen_afterAStage_tightensWhatThatLoosened()
    {
        Case one = StageEdits.Loosen(Examples.Oblique, _double, ["c1", "c3"]).Edit!.Apply(Examples.Oblique);
        StageOffer offer = StageEdits.Loosen(one, _double, ["c3", "c5"]);
        Case two = offer.Edit!.Apply(one);

        Assert.Equal(["c1"], two.Stages[^1].Tighten);
        Assert.Equal("", offer.Note);
        Assert.Equal(["c3", "c5"], LooseAtTheEnd(two));
    }

    [Fact]
    public void Loosen_whatIsLooseAlready_isNoChange()
    {
        Case one = StageEdits.Loosen(Examples.Oblique, _double, ["c2"]).Edit!.Apply(Examples.Oblique);

        Assert.Null(StageEdits.Loosen(one, _double, ["c2"]).Edit);
    }

    [Fact]
    public void Loosen_aClampThatAnEarlierStageTookAway_isRefusedByName()
    {
        Case less = Examples.Oblique with { Stages = [new() { Id = "less", Frame = "double-rod", Remove = ["c4"] }] };
        StageOffer offer = StageEdits.Loosen(less, _double, ["c1", "c4"]);

        Assert.Null(offer.Edit);
        Assert.Contains("c4", offer.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Loosen_afterAStageThatTookAPartAway_saysThatItDiffers()
    {
        Case less = Examples.Oblique with { Stages = [new() { Id = "less", Frame = "double-rod", Remove = ["c4"] }] };
        StageOffer offer = StageEdits.Loosen(less, _double, ["c1"]);

        Assert.NotNull(offer.Edit);
        Assert.NotEqual("", offer.Note);
    }

    [Fact]
    public void Loosen_aProposalAfterAnotherStage_keepsWhatThatProposalSaid()
    {
        Case before = StageEdits.Keep(Examples.Oblique, _double).Edit!.Apply(Examples.Oblique);
        LooseningProposal proposal = Report(before).Proposals.First(p => !p.Clamps.ToHashSet().SetEquals(before.Stages[0].Loosen));
        Case after = StageEdits.Loosen(before, _double, proposal.Clamps).Edit!.Apply(before);
        KeptStiffness kept = Report(after).Stages[^1].Kept!;

        Assert.Empty(Workspace.FaultsOf(after));
        Assert.Equal(proposal.Kept.Ap, kept.Ap, 9);
        Assert.Equal(proposal.Kept.Ml, kept.Ml, 9);
        Assert.Equal(proposal.Kept.Torsion, kept.Torsion, 9);
    }

    [Fact]
    public void Keep_theUsualStage_givesTheResultsThatWereShownWithoutIt()
    {
        Case kept = StageEdits.Keep(Examples.Oblique, _double).Edit!.Apply(Examples.Oblique);
        StageResult shown = Report(Examples.Oblique).Stages[^1], own = Report(kept).Stages[^1];

        Assert.Empty(Workspace.FaultsOf(kept));
        Assert.Equal(shown.Id, own.Id);
        Assert.Equal(shown.Stiffness, own.Stiffness);
    }

    [Fact]
    public void Keep_whereItsIdIsTaken_takesAnother()
    {
        Case twice = Examples.Oblique with { Stages = [new() { Id = "both-rods-slide", Frame = "near-far", Loosen = ["c1"] }] };

        Assert.Empty(Workspace.FaultsOf(StageEdits.Keep(twice, _double).Edit!.Apply(twice)));
    }

    [Fact]
    public void Remove_takesThatStageOnly()
    {
        Case two = Examples.Oblique with
        {
            Stages = [new() { Id = "a", Frame = "near-far", Loosen = ["c1"] }, new() { Id = "b", Frame = "double-rod", Loosen = ["c2"] }],
        };

        Assert.Equal("b", Assert.Single(StageEdits.Remove(two.Stages[0]).Apply(two).Stages).Id);
    }

    private static Stage Added(Case value, ImmutableArray<string> clamps) => StageEdits.Loosen(value, _double, clamps).Edit!.Apply(value).Stages[^1];

    private static DynamisationReport Report(Case value) => new DynamisationAssessor(value).Assess("double-rod", Examples.Stamp, "");

    private static string[] LooseAtTheEnd(Case value) =>
        [.. value.Stages.Where(s => s.Frame == _double.Id).Aggregate(ConstructBuilder.Build(_double.Construct!, value.Fractures), StageBuilder.Apply)
            .Clamps.Where(c => c.State == ClampState.Loose).Select(c => c.Id)];
}
