using Halfpin.Domain.Cases;
using Halfpin.Domain.Modelling;
using Halfpin.Domain.Validity;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Edits;
using Halfpin.Workbench.Fields;
using Xunit;

namespace Halfpin.Workbench.Tests;

public sealed class CaseFieldTests
{
    private static readonly Case _case = Works.Demo with { Indication = null };

    [Fact]
    public void Number_ofTheLimb_saysNameUnitRangeAndMeaning()
    {
        CaseField field = CaseField.Find(_case, "/limb/lengthMm")!;
        Assert.Equal(("Bone length", "mm", "150 to 600 mm", "352"), (field.Label, field.Unit, field.RangeText, field.TextOf(_case)));
        Assert.StartsWith("Length of the bone", field.Help, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("361,5")]
    [InlineData("361.5 mm")]
    [InlineData("205+156,5")]
    public void Number_typedAsPeopleDo_becomesAnEditWithGoodWords(string typed)
    {
        CaseEdit edit = CaseField.Find(_case, "/limb/lengthMm")!.Read(typed).Edit!;
        Assert.Equal("bone length 361.5 mm", edit.Words);
        Assert.Equal(361.5, edit.Apply(_case).Limb.LengthMm);
    }

    [Theory]
    [InlineData("long", FaultCodes.Type)]
    [InlineData("13", FaultCodes.Range)]
    [InlineData("", FaultCodes.Missing)]
    public void Number_thatCannotBe_saysWhatIsAllowed(string typed, string code)
    {
        FieldReading reading = CaseField.Find(_case, "/limb/lengthMm")!.Read(typed);
        Assert.Null(reading.Edit);
        Assert.Equal(("/limb/lengthMm", code, "150 to 600 mm."), (reading.Fault!.Pointer, reading.Fault.Code, reading.Fault.Allowed));
    }

    [Fact]
    public void Number_withAUnitOfItsOwn_takesItWhenTyped()
    {
        Case next = CaseField.Find(_case, "/indication/pressureGapMmHg")!.Read("27 mmHg").Edit!.Apply(_case);
        Assert.Equal(27, next.Indication!.PressureGapMmHg);
    }

    [Fact]
    public void Optional_ofALeftOutObject_isFoundAndMakesIt()
    {
        CaseField field = CaseField.Find(_case, "/indication/physiology/temperatureC")!;
        Assert.Equal(("", "°C", true), (field.TextOf(_case), field.Unit, field.MayBeEmpty));
        Assert.Equal(33.4, field.Read("33,4").Edit!.Apply(_case).Indication!.Physiology.TemperatureC);
    }

    [Fact]
    public void Optional_emptied_isNotGiven()
    {
        Case given = _case with { Requirements = new() { MostShearMm = 0.7 } };
        CaseEdit edit = CaseField.Find(given, "/requirements/mostShearMm")!.Read(" ").Edit!;
        Assert.Null(edit.Apply(given).Requirements.MostShearMm);
        Assert.Equal("most shear left open", edit.Words);
    }

    [Fact]
    public void NumberWithADefault_emptied_isTheDefault()
    {
        Case given = _case with { Limb = _case.Limb with { SoftTissue = new() { SwellingMm = 3 } } };
        CaseField field = CaseField.Find(given, "/limb/softTissue/swellingMm")!;
        Assert.Equal("15 mm", field.DefaultText);
        Assert.Equal(SoftTissueCover.UsualSwellingMm, field.Read("").Edit!.Apply(given).Limb.SoftTissue.SwellingMm);
    }

    [Fact]
    public void Choice_ofAFracture_namesTheFracture()
    {
        Case two = InjuryEdits.AddFracture(290, 2, FracturePattern.Transverse).Apply(_case);
        CaseEdit edit = CaseField.Find(two, "/fractures/1/pattern")!.Read("Spiral").Edit!;
        Assert.Equal("fracture 2, pattern: spiral", edit.Words);
        Assert.Equal([FracturePattern.Oblique, FracturePattern.Spiral], edit.Apply(two).Fractures.Select(f => f.Pattern));
    }

    [Fact]
    public void YesNo_thatMayBeOpen_hasThreeChoices()
    {
        CaseField field = CaseField.Find(_case, "/progress/callusSeen")!;
        Assert.Equal(["yes", "no", ""], field.Choices.Select(c => c.Key));
        Assert.False(field.Read("no").Edit!.Apply(_case).Progress.CallusSeen);
        Assert.Null(field.Read("").Edit!.Apply(_case).Progress.CallusSeen);
    }

    [Fact]
    public void Choices_takenInAnyOrder_standAsInTheList()
    {
        CaseField field = CaseField.Find(_case, "/indication/reasons")!;
        Case next = field.Choose("Swelling", true).Apply(field.Choose("Transport", true).Apply(_case));
        Assert.Equal([FrameReason.Swelling, FrameReason.Transport], next.Indication!.Reasons);
        Assert.Equal([FrameReason.Transport], field.Choose("Swelling", false).Apply(next).Indication!.Reasons);
    }

    [Fact]
    public void Texts_chosen_areKeptAsTexts() =>
        Assert.Equal(["corridor"], CaseField.Find(_case, "/requirements/acceptCautions")!.Choose("corridor", true).Apply(_case).Requirements.AcceptCautions);

    [Theory]
    [InlineData("/limb/boneModel/outerDiameterMm")]
    [InlineData("/fractures/1/levelMm")]
    [InlineData("/indication/conversion/toDay")]
    [InlineData("/limb/boneModel")]
    [InlineData("/formatVersion")]
    [InlineData("")]
    public void Pointer_toWhatTheCaseHasNot_findsNoField(string pointer) => Assert.Null(CaseField.Find(_case, pointer));

    [Fact]
    public void Numbers_ofKinds_areFoundOnceTheKindIsChosen()
    {
        Case tube = ModelEdits.Bone(tube: true).Apply(_case);
        Assert.Equal("MPa", CaseField.Find(tube, "/limb/boneModel/youngsModulusMPa")!.Unit);
        Case rigid = ModelEdits.Clamp(rigid: true).Apply(_case);
        Assert.Null(CaseField.Find(rigid, "/model/clamp/slipMomentNm"));
        Assert.Equal(SpringClamp.UsualSlipMomentNm, ((SpringClamp)ModelEdits.Clamp(rigid: false).Apply(rigid).Model.Clamp).SlipMomentNm);
    }

    [Theory]
    [InlineData("/model/clamp/rotationalNmPerRad", "N·m/rad")]
    [InlineData("/model/pinFixity/modulusNPerMm2", "N/mm²")]
    [InlineData("/requirements/leastWeakBendingNmPerDeg", "N·m/°")]
    [InlineData("/requirements/mostUsedPercent", "%")]
    [InlineData("/fractures/0/tiltAzimuthDeg", "°")]
    [InlineData("/loading/stepsPerDay", "")]
    [InlineData("/indication/coverAfterDays", "days")]
    [InlineData("/indication/physiology/injurySeverityScore", "")]
    public void Unit_followsFromTheName(string pointer, string unit) => Assert.Equal(unit, CaseField.Find(_case, pointer)!.Unit);

    [Fact]
    public void EveryField_ofTheCase_readsBackWhatItShows()
    {
        foreach (string pointer in CaseNumber.Below(_case).Where(p => !p.StartsWith("/frames", StringComparison.Ordinal)))
        {
            if (CaseField.Find(_case, pointer) is CaseField field)
            {
                Assert.Equal(CaseNumber.Find(_case, pointer)!.Of(_case), CaseNumber.Find(_case, pointer)!.Of(field.Read(field.TextOf(_case)).Edit!.Apply(_case)), 1e-4);
            }
        }
    }
}
