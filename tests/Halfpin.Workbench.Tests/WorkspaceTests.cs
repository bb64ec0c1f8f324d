using CsCheck;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Cases;
using Halfpin.Workbench.Documents;
using Xunit;

namespace Halfpin.Workbench.Tests;

public sealed class WorkspaceTests : IDisposable
{
    private readonly Works _works = new();

    private static CaseEdit Mass(double kg) => new($"mass {kg} kg", c => c with { Limb = c.Limb with { PatientMassKg = kg } });

    [Fact]
    public void Apply_validChange_isTheCaseOfAnotherRun()
    {
        Workspace work = _works.Begin();
        Assert.Empty(work.Apply(Mass(61.7)));
        Assert.Equal(61.7, _works.Open().Find(work.Id)!.Case.Limb.PatientMassKg);
    }

    [Fact]
    public void Apply_invalidChange_leavesCaseAndHistory()
    {
        Workspace work = _works.Begin();
        Fault fault = Assert.Single(work.Apply(Mass(1900)));
        Assert.Equal("/limb/patientMassKg", fault.Pointer);
        Assert.Equal(68, work.Case.Limb.PatientMassKg);
        Assert.Null(work.UndoWords);
    }

    [Fact]
    public void Apply_sameValue_isNoStepOfUndo()
    {
        Workspace work = _works.Begin();
        work.Apply(Mass(68));
        Assert.Null(work.UndoWords);
    }

    [Fact]
    public void Undo_inAnotherRun_takesTheLastChangeBack()
    {
        Workspace work = _works.Begin();
        work.Apply(Mass(61.7));
        Workspace again = _works.Open().Find(work.Id)!;
        Assert.Equal("mass 61.7 kg", again.UndoWords);
        again.Undo();
        Assert.Equal(68, _works.Open().Find(work.Id)!.Case.Limb.PatientMassKg);
        Assert.Equal("mass 61.7 kg", _works.Open().Find(work.Id)!.RedoWords);
    }

    [Fact]
    public void Apply_afterUndo_forgetsWhatWasUndone()
    {
        Workspace work = _works.Begin();
        work.Apply(Mass(61.7));
        work.Undo();
        work.Apply(Mass(83.2));
        Assert.Null(work.RedoWords);
        Assert.Equal(["opened for a test", "mass 83.2 kg"], _works.Open().Find(work.Id)!.History.Words);
    }

    [Fact]
    public void Draft_isShownButNotSaved()
    {
        Workspace work = _works.Begin();
        work.Draft(Mass(61.7));
        Assert.Equal((61.7, 68), (work.Shown.Limb.PatientMassKg, work.Case.Limb.PatientMassKg));
        work.DropDraft();
        Assert.Equal(68, work.Shown.Limb.PatientMassKg);
    }

    [Fact]
    public void Draft_thatCannotBe_leavesWhatWasShown()
    {
        Workspace work = _works.Begin();
        Assert.NotEmpty(work.Draft(new("level 351 mm", c => c with { Fractures = [c.Fractures[0] with { LevelMm = 351 }] })));
        Assert.False(work.IsDrafting);
    }

    // Model-based: any run of changes, undos and redos agrees with a plain list of states.
    [Fact]
    public void History_ofAnyRunOfSteps_agreesWithAList() =>
        Gen.Int[0, 9].List[1, 25].Sample(
            steps =>
            {
                Workspace work = _works.Begin();
                List<double> states = [68];
                int at = 0;
                for (int i = 0; i < steps.Count; i++)
                {
                    if (steps[i] < 3)
                    {
                        work.Undo();
                        at = Math.Max(0, at - 1);
                    }
                    else if (steps[i] < 5)
                    {
                        work.Redo();
                        at = Math.Min(states.Count - 1, at + 1);
                    }
                    else
                    {
                        double kg = 40.3 + i + (0.1 * steps[i]);
                        work.Apply(Mass(kg));
                        states.RemoveRange(at + 1, states.Count - at - 1);
                        states.Add(kg);
                        at++;
                    }
                }

                return work.Case.Limb.PatientMassKg == states[at] && _works.Open().Find(work.Id)!.Case.Limb.PatientMassKg == states[at];
            },
            iter: 12, threads: 1);

    [Theory]
    [InlineData("01-oblique-fracture.json")]
    [InlineData("02-bench-comparators.json")]
    [InlineData("03-published-pin-count.json")]
    [InlineData("04-segmental-fracture.json")]
    public void Case_written_readsBackAlike(string example)
    {
        Case value = new CaseReader(Stability.CaseValidity.Rules).Read(Works.Example(example)).Case!;
        byte[] written = CaseWriter.Write(value);
        CaseReading again = new CaseReader(Stability.CaseValidity.Rules).Read(written);
        Assert.Empty(again.Faults);
        Assert.Equal(value.Notes, again.Case!.Notes);
        Assert.Equal(written, CaseWriter.Write(again.Case));
    }

    public void Dispose() => _works.Dispose();

}
