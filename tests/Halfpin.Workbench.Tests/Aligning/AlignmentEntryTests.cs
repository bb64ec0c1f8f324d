using Halfpin.Domain.Assessments;
using Halfpin.Domain.Validity;
using Halfpin.Planning.Alignment;
using Halfpin.Workbench.Aligning;
using Xunit;

namespace Halfpin.Workbench.Tests.Aligning;

public class AlignmentEntryTests
{
    [Fact]
    public void Entry_withOneAngle_hasNoQuestionAndNamesTheOther()
    {
        AlignmentEntry entry = AlignmentEntry.Empty.With("ap", -3.7);

        Assert.Null(entry.Question(Examples.Oblique, "near-far", 1));
        Assert.Equal(["lat"], entry.Missing.Select(f => f.Key));
    }

    [Fact]
    public void Entry_ofEveryField_reachesTheMeasurementUnchanged()
    {
        double[] values = [-3.7, 8.2, 6.1, -2.3, 4.4, -7.9, 1.3, 2.6];
        AlignmentMeasurement m = AlignmentEntry.Fields.Zip(values).Aggregate(AlignmentEntry.Empty, (e, f) => e.With(f.First.Key, f.Second)).Measurement!;

        Assert.Equal(values, AlignmentEntry.Fields.Select(f => f.Of(m)!.Value));
        Assert.Equal((-3.7, 8.2, 6.1, -2.3), (m.ApDeg, m.LateralDeg, m.RotationDeg, m.ApShiftMm));
        Assert.Equal((4.4, -7.9, 1.3, 2.6), (m.LateralShiftMm, m.LengthMm, m.ErrorDeg, m.ErrorMm));
    }

    [Fact]
    public void Entry_withAValueTakenOut_hasTheUsualOne() =>
        Assert.Equal(AlignmentMeasurement.UsualErrorDeg, AlignmentEntry.Empty.With("ap", 1).With("lat", 2).With("error-deg", 4).With("error-deg", null).Measurement!.ErrorDeg);

    [Fact]
    public void Faults_nameFieldsAndNoOptions()
    {
        AlignmentEntry entry = AlignmentEntry.Empty.With("ap", 71).With("lat", 0).With("ap-shift", 3);
        Fault[] faults = [.. AlignmentEntry.FaultsOf(entry.Question(Examples.Oblique, "near-far", 1)!)];

        Assert.Equal(["Angulation on the AP view", "Shift of the distal end on the lateral view"], faults.Select(f => f.Pointer));
        Assert.DoesNotContain(faults, f => (f.Message + f.Try + f.Pointer).Contains("--", StringComparison.Ordinal));
    }

    [Fact]
    public void View_ofTheTextbookExample_saysTrueSizePlaneLimitsAndClamps()
    {
        // tan² A = tan² AP + tan² lateral (orthopedicreviews 120302, READ): 19° and 14° make 23.0°.
        AlignmentView view = View(AlignmentEntry.Empty.With("ap", 19).With("lat", 14));

        Assert.StartsWith("23.0° of true deformity, apex ", view.Headline, StringComparison.Ordinal);
        Assert.Contains("published limits", view.Headline, StringComparison.Ordinal);
        Assert.Equal(Verdict.Fail, view.Verdict);
    }

    [Fact]
    public void View_whereClampsFollow_namesThoseToLoosen()
    {
        AlignmentView view = View(AlignmentEntry.Empty.With("ap", 0).With("lat", 0).With("length", 9));
        ReductionWay way = view.Correction.Ways[0];

        Assert.NotEqual(Verdict.Fail, way.Verdict);
        Assert.Contains($"loosen {string.Join(", ", way.Loosen)} and move as said below", view.Headline, StringComparison.Ordinal);
    }

    [Fact]
    public void View_withinItsError_hasNothingToCorrect() =>
        Assert.EndsWith("nothing to correct beyond the error of measurement.", View(AlignmentEntry.Empty.With("ap", 1.1).With("lat", -0.6)).Headline, StringComparison.Ordinal);

    private static AlignmentView View(AlignmentEntry entry) => AlignmentView.Of(AlignmentAssessor.Assess(entry.Question(Examples.Oblique, "near-far", 1)!, Examples.Stamp, null));
}
