using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Dynamisation;
using Halfpin.Stability.Healing;
using Halfpin.Stability.Overload;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Course;
using Xunit;

namespace Halfpin.Workbench.Tests.Course;

public class CourseViewTests
{
    [Fact]
    public void Healing_usualWeeks_passesTheThresholdBetweenTwoOfThemAndPromisesNothing()
    {
        // The usual weeks are set so that a narrow gap passes 15 N·m/deg between weeks 12 and 24 (HealingPlan, ASSUMED).
        HealingView view = Healing(Examples.Oblique, "near-far");

        Assert.Equal("If callus stiffened as ASSUMED, it would pass 15 N·m/° in both planes between week 12 and week 24.", view.Headline);
        Assert.Contains("No sign that a frame may come off", view.Detail, StringComparison.Ordinal);
        Assert.Equal([false, false, false, true, true], view.Lines.Select(l => l.IsReached));
        Assert.True(view.IsAssumed);
    }

    [Fact]
    public void Healing_softCallusInEveryWeek_saysThatItDoesNotGetThere()
    {
        Case soft = Examples.Oblique with { Healing = new() { Weeks = [new() { Week = 3, CallusModulusMPa = 0.2 }, new() { Week = 7.5, CallusModulusMPa = 0.7 }] } };
        HealingView view = Healing(soft, "near-far");

        Assert.Equal("If callus stiffened as the case says, it would not reach 15 N·m/° in both planes by week 7.5, the last that is looked at.", view.Headline);
        Assert.False(view.IsAssumed);
    }

    [Fact]
    public void Healing_closedGap_saysWhyThereIsNone()
    {
        Case closed = Examples.Oblique with { Fractures = [Examples.Oblique.Fractures[0] with { GapMm = 0 }] };
        HealingView view = Healing(closed, "near-far");

        Assert.StartsWith("No healing to look at: There is no gap", view.Headline, StringComparison.Ordinal);
        Assert.Empty(view.Lines);
        Assert.Null(view.Callus);
    }

    [Fact]
    public void Healing_severalFractures_hasALineForEachInEveryWeek()
    {
        HealingView view = Healing(Examples.Segmental, "one-rod");

        Assert.Equal(Examples.Segmental.Healing.Weeks.Length * Examples.Segmental.Fractures.Length, view.Lines.Length);
        Assert.Equal(Examples.Segmental.Healing.Weeks.Length, view.Lines.Count(l => l.IsFirstOfWeek));
    }

    [Fact]
    public void Dynamisation_usualStageOfTwoRods_isOfferedAndAStageOfTheCaseIsItsOwn()
    {
        Frame frame = Examples.Oblique.Named("double-rod");
        StageLines shown = Dynamisation(Examples.Oblique, "double-rod").Stages[1];
        Case kept = shown.Offer!.Edit!.Apply(Examples.Oblique);
        StageLines own = Dynamisation(kept, frame.Id).Stages[1];

        Assert.Null(shown.Own);
        Assert.NotNull(own.Own);
        Assert.Null(own.Offer);
        Assert.Equal(shown.Rows, own.Rows);
        Assert.Equal("free", own.Rows[0].Axial);
    }

    [Fact]
    public void Dynamisation_nothingRecorded_saysWhatIsMissingFirst()
    {
        Check gate = Dynamisation(Examples.Oblique with { Progress = new() }, "double-rod").Gate;

        Assert.Equal(Verdict.Caution, gate.Verdict);
        Assert.Contains("callus is not recorded", gate.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Overload_firstToGive_isTheFirstEventThatIsNotTouchInNewtonAndKilogram()
    {
        Case open = Examples.Oblique with { Fractures = [Examples.Oblique.Fractures[0] with { Contact = false, GapMm = 31 }] };
        OverloadReport report = Report(open, "two-plane", 2800);
        OverloadEvent first = report.Events.First(e => e.Kind != OverloadEventKind.Contact);
        OverloadView view = OverloadView.Of(report, FrameAnswers.Drawing(open, open.Named("two-plane")));

        Assert.Contains(first.Part, view.Headline, StringComparison.Ordinal);
        Assert.EndsWith($"at {OverloadView.Load(first.LoadN)}.", view.Headline, StringComparison.Ordinal);
        Assert.Equal(Verdict.Caution, view.Verdict);
        Assert.Equal("637 N (64.9 kg)", OverloadView.Load(637.1));
    }

    [Fact]
    public void Overload_smallLoad_allowsNothing()
    {
        OverloadView view = OverloadView.Of(Report(Examples.Oblique, "two-plane", 13), FrameAnswers.Drawing(Examples.Oblique, Examples.Oblique.Named("two-plane")));

        Assert.Equal("Nothing slips, yields or crushes bone up to 13 N (1.3 kg), as the model has it. That allows no load.", view.Headline);
        Assert.Null(view.Verdict);
        Assert.StartsWith("Left between the fracture faces", view.Set, StringComparison.Ordinal);
    }

    [Fact]
    public void Overload_ofSeveralFractures_saysWhyThereIsNoPath()
    {
        OverloadReport report = Report(Examples.Segmental, Examples.Segmental.Frames[0].Id, 500);
        OverloadView view = OverloadView.Of(report, FrameAnswers.Drawing(Examples.Segmental, Examples.Segmental.Frames[0]));

        Assert.Equal($"No path: {report.Diagnosis!.Message}", view.Headline);
        Assert.Equal(Verdict.Fail, view.Verdict);
        Assert.Equal("", view.Set);
        Assert.False(view.HasPath);
    }

    [Fact]
    public void Overload_ofSeveralFractures_tellsThePathAtEach()
    {
        (Case value, Frame frame) = (Examples.Segmental, Examples.Segmental.Frames[^1]);
        OverloadReport report = Report(value, frame.Id, 90);
        OverloadView view = OverloadView.Of(report, FrameAnswers.Drawing(value, frame));

        Assert.Equal(2, report.Fractures.Length);
        Assert.Equal(["The path corner by corner at fracture 1", "The path corner by corner at fracture 2"], view.Traces.Select(t => t.Title));
        Assert.All(view.Traces, t => Assert.Equal(report.Path.Length, t.Corners.Length));
        Assert.Contains("Fracture 2 closes by", view.Picture, StringComparison.Ordinal);
        Assert.Contains("mm between the faces of fracture 2", view.Set, StringComparison.Ordinal);
    }

    [Fact]
    public void Overload_usualLoad_isTheChosenOneAndThePublishedExcess() =>
        // 35.3 % of body weight beyond an order: Dabke et al., CORR 2004;421:282 (READ). 5 kg and 68 kg in the example.
        Assert.Equal(Math.Round((5 + (0.353 * 68)) * 9.81), OverloadView.UsualToN(Examples.Oblique));

    private static HealingView Healing(Case value, string frame) =>
        HealingView.Of(value, new HealingAssessor(value).Assess(frame, Examples.Stamp, ""), FrameAnswers.Drawing(value, value.Named(frame)));

    private static DynamisationView Dynamisation(Case value, string frame) => DynamisationView.Of(
        value, value.Named(frame), new DynamisationAssessor(value).AssessStages(frame, Examples.Stamp, ""));

    private static OverloadReport Report(Case value, string frame, double toN) => new OverloadAssessor(value).Assess(value.Named(frame), toN, Examples.Stamp, "");
}
