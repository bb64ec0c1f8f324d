using Halfpin.Domain.Cases;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Edits;
using Xunit;

namespace Halfpin.Workbench.Tests;

public sealed class EditTests : IDisposable
{
    private readonly Works _works = new();

    [Fact]
    public void Fracture_addedAboveAnother_standsBeforeIt()
    {
        Case next = InjuryEdits.AddFracture(118.5, 4, FracturePattern.Spiral).Apply(Works.Demo);
        Assert.Equal([118.5, 205], next.Fractures.Select(f => f.LevelMm));
        Assert.Equal(Works.Demo.Fractures, InjuryEdits.RemoveFracture(next, 0).Apply(next).Fractures);
    }

    [Fact]
    public void FreeLevel_isTheMiddleOfTheLongestStretch() => Assert.Equal(102, InjuryEdits.FreeLevelMm(Works.Demo));

    [Fact]
    public void Area_added_isValidAndRemovedAgain()
    {
        Workspace work = _works.Begin();
        Assert.Empty(work.Apply(InjuryEdits.AddWound()));
        Assert.Empty(work.Apply(InjuryEdits.AddIncision(IncisionPurpose.Plate)));
        Assert.Equal("plan an incision for a plate", work.UndoWords);
        Assert.Equal(2, work.Case.Wounds.Length);
        Assert.Empty(work.Apply(InjuryEdits.RemoveWound(1)));
        Assert.Equal(Works.Demo.Wounds, work.Case.Wounds);
    }

    [Fact]
    public void Grade_chosen_takesThePlaceOfKilograms()
    {
        Case byGrade = LoadingEdits.ByGrade(WeightBearing.Partial).Apply(Works.Demo);
        Assert.Equal((WeightBearing.Partial, 0d), (byGrade.Loading.Grade!.Value, byGrade.Loading.AllowedKg));

        // Half of 68 kg.
        Case byKg = LoadingEdits.ByKg().Apply(byGrade);
        Assert.Equal(((WeightBearing?)null, 34d), (byKg.Loading.Grade, byKg.Loading.AllowedKg));
    }

    [Fact]
    public void Steps_givenTogether_areValid_andOneAloneIsNot()
    {
        Workspace work = _works.Begin();
        Assert.NotEmpty(work.Apply(LoadingEdits.Repeated(5200, null)));
        Assert.Empty(work.Apply(LoadingEdits.Repeated(5200, 12.5)));
        Assert.Equal("5200 steps a day for 12.5 weeks", work.UndoWords);
    }

    [Fact]
    public void Week_added_standsInItsPlace()
    {
        Case next = LoadingEdits.AddWeek(9, 4.5).Apply(Works.Demo);
        Assert.Equal([2, 6, 9, 12, 24, 36], next.Healing.Weeks.Select(w => w.Week));
        Assert.True(LoadingEdits.UsualWeeks().Apply(next).Healing.HasUsualWeeks);
    }

    [Fact]
    public void Conversion_changed_keepsItsWindow()
    {
        Case next = RecordEdits.Conversion(ConversionTarget.Plate).Apply(Works.Demo);
        Assert.Equal(Works.Demo.Indication!.Conversion! with { To = ConversionTarget.Plate }, next.Indication!.Conversion);
        Assert.Null(RecordEdits.Conversion(null).Apply(next).Indication!.Conversion);
    }

    [Fact]
    public void Notes_typed_becomeLines() =>
        Assert.Equal(["one", "two"], RecordEdits.Notes(" one\r\n\r\ntwo ").Apply(Works.Demo).Notes.AsEnumerable());

    [Fact]
    public void Tube_chosenAndLeft_isValidEitherWay()
    {
        Workspace work = _works.Begin();
        Assert.Empty(work.Apply(ModelEdits.Bone(tube: true)));
        Assert.IsType<TubeBone>(work.Case.Limb.BoneModel);
        Assert.Empty(work.Apply(ModelEdits.Bone(tube: false)));
        Assert.Equal(Works.Demo.Limb, work.Case.Limb);
    }

    public void Dispose() => _works.Dispose();
}
