using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using CsCheck;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Planning.Building;
using Halfpin.Planning.Kit;
using Halfpin.Planning.Steps;
using Xunit;

namespace Halfpin.Planning.Tests.Steps;

public class StepsTests
{
    private static readonly Case _partial = Cases.Example.With(Frames.Partial(2, 31, 103, 57));

    // Read by people before they are committed: kit and steps of the two frames in full.
    [Theory]
    [InlineData("near-far")]
    [InlineData("two-plane")]
    public void Text_ofAFrameOfTheExample_isTheCommittedOne(string frame)
    {
        string expected = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Golden", $"{frame}.txt")).ReplaceLineEndings("\n");

        Assert.Equal(expected, Text(Cases.Example.Kit(frame), Cases.Example.Steps(frame)));
    }

    [Theory]
    [InlineData(0, "straight anterior")]
    [InlineData(45.2, "45° medial of straight anterior")]
    [InlineData(-30, "30° lateral of straight anterior")]
    [InlineData(90, "straight medial")]
    [InlineData(-90, "straight lateral")]
    [InlineData(120, "60° medial of straight posterior")]
    [InlineData(-179.8, "straight posterior")]
    [InlineData(-170, "10° lateral of straight posterior")]
    public void Azimuth_inWords_isMeasuredFromTheNearestStraightDirection(double azimuthDeg, string words) => Assert.Equal(words, SizeWords.Azimuth(azimuthDeg));

    // + is medial on both sides of the body.
    [Fact]
    public void Steps_onTheOtherLeg_readTheSame()
    {
        Case other = Cases.Example with { Limb = Cases.Example.Limb with { Side = Side.Right } };

        Assert.Equal(Cases.Example.Steps("two-plane").Steps.Select(s => s.Text), other.Steps("two-plane").Steps.Select(s => s.Text));
    }

    [Fact]
    public void Pin_inTheDistalHalf_isToldByTheAnkle() =>
        Assert.Contains(Cases.Example.Steps("near-far").Steps, s => s.Text.StartsWith("Pin p4 in the distal fragment: 51 mm above the ankle joint line, 93 mm from the fracture's edge along the bone, 50° medial of straight anterior.", StringComparison.Ordinal));

    // A frame that stands in the wound is not built without being told so, at the head and at its pins.
    [Fact]
    public void FrameThatFailsACheck_isHeadedByItAndItsPinsSaySo()
    {
        Case inWound = Cases.Example with { Wounds = [new() { FromLevelMm = 90, ToLevelMm = 130, FromAzimuthDeg = 30, ToAzimuthDeg = 70 }] };
        StepsReport report = inWound.Steps("near-far");

        Assert.Contains("p1 stands in the wound", report.Warning, StringComparison.Ordinal);
        Assert.Contains(Of(report.Steps, "p1").Cautions, c => c.Text.StartsWith("FAILS: p1 stands in the wound", StringComparison.Ordinal));
        Assert.Contains("p1 stands in the wound", inWound.Kit("near-far").Warning, StringComparison.Ordinal);
    }

    [Fact]
    public void OpenFractureWithoutAnEnteredWound_isDebridedAllTheSame()
    {
        Case graded = Cases.Example with { Wounds = [] };

        Assert.NotNull(graded.Indication!.OpenGrade);
        Assert.Contains(graded.Steps("near-far").Steps, s => s.Text.StartsWith("Debride", StringComparison.Ordinal));
    }

    [Fact]
    public void SuspectedCompartments_stopTheStepsAtTheirHead()
    {
        Case suspected = Cases.Example with { Indication = Cases.Example.Indication! with { Compartments = CompartmentState.Suspected } };

        Assert.Contains(suspected.Steps("near-far").Recorded, c => c.Text.Contains("must not delay its release", StringComparison.Ordinal));
    }

    [Fact]
    public void SingleRod_isAlignedBeforeItIsClosed()
    {
        Step[] steps = [.. Cases.Example.Steps("near-far").Steps];

        Assert.Contains(steps.TakeWhile(s => s.Places.IsEmpty), s => s.Cautions.Any(c => c.Text.StartsWith("A single rod", StringComparison.Ordinal)));
        Assert.True(Of(steps, "r1").N < steps.First(s => s.Phase == StepPhase.Align).N);
        Assert.True(steps.Last(s => s.Phase == StepPhase.Align).N < Of(steps, "p2").N);
    }

    [Fact]
    public void FarPins_comeBeforeTheRodAndNearPinsThroughItsClamps()
    {
        Step[] steps = [.. Cases.Example.Steps("near-far").Steps];

        Assert.Equal(["p1", "p4", "r1", "p2", "p3"], steps.Where(s => !s.Places.IsEmpty).Select(s => s.Places[0]));
        Assert.Contains("pin opening of clamp c3", Of(steps, "p3").Text, StringComparison.Ordinal);
    }

    [Fact]
    public void SelfDrillingPins_areNotDrilledForAndStopInTheFarCortex()
    {
        Case value = Cases.Tube.With(Cases.NearFar);
        Parts parts = value.PartsOf();
        StepsReport steps = value.With(parts with { Pins = [.. parts.Pins.Select(p => p with { Tip = PinTip.SelfDrilling })] }).Steps();

        Assert.DoesNotContain(steps.Steps, s => s.Text.Contains("Drill both cortices", StringComparison.Ordinal));
        Assert.Contains("lodged in the far cortex, not through it", Of(steps.Steps, "p1").Text, StringComparison.Ordinal);
        Assert.Contains(Of(steps.Steps, "p1").Cautions, c => c.Text.StartsWith("A self-drilling tip", StringComparison.Ordinal));
    }

    [Fact]
    public void PredrilledPins_areDrilledForAndStopTwoMillimetresPastTheFarCortex() =>
        Assert.Contains("Drill both cortices 3.5 mm at low speed with cooling", Of(Cases.Example.Steps("near-far").Steps, "p1").Text, StringComparison.Ordinal);

    [Fact]
    public void PartialFrames_comeFirstAndAreTheHandles()
    {
        Step[] steps = [.. _partial.Steps().Steps];

        Assert.True(Cases.IsValid(_partial));
        Assert.Equal(["p1", "p2", "ra", "p3", "p4", "rb", "sa", "sb", "tie"], steps.Where(s => !s.Places.IsEmpty).Select(s => s.Places[0]));
        Assert.Contains("Reduce by the partial frames (rods ra and rb) as handles", steps.First(s => s.Phase == StepPhase.Align).Text, StringComparison.Ordinal);
        Assert.True(Of(steps, "tie").N < steps.First(s => s.Phase == StepPhase.Align).N);
    }

    [Fact]
    public void Mechanism_hasItsStepsWithTheWarningFirst()
    {
        string loose = Cases.Segmental.Frames.First(f => Cases.Segmental.Steps(f.Id).Status == FrameStatus.Mechanism).Id;
        StepsReport steps = Cases.Segmental.Steps(loose);

        Assert.StartsWith("This frame does not hold the fracture.", steps.Warning, StringComparison.Ordinal);
        Assert.Contains(steps.Steps, s => s.Text.Contains("it must be changed before the patient leaves", StringComparison.Ordinal));
        Assert.NotEmpty(steps.Steps.SelectMany(s => s.Places));
    }

    [Fact]
    public void LooseClamps_areNamedAsLooseAndTightenedForNow() =>
        Assert.Contains(Cases.Example.Steps("double-rod-dynamised").Steps, s => Regex.IsMatch(s.Text, "clamps c\\d, c\\d, c\\d and c\\d are loose, so that it slides as intended"));

    [Fact]
    public void Loading_isTheLoadLookedAtAndPermitsNothing() =>
        Assert.Contains(Cases.Example.Steps("near-far").Steps, s => s.Text.Contains("The load looked at in this case is 5 kg axial; it permits nothing.", StringComparison.Ordinal));

    [Fact]
    public void Wound_andPlannedIncisions_areKeptClear()
    {
        Case value = Cases.Example with { PlannedIncisions = [new() { FromLevelMm = 120, ToLevelMm = 300, FromAzimuthDeg = -60, ToAzimuthDeg = -20, For = IncisionPurpose.Plate }] };

        Assert.Contains(value.Steps("near-far").Steps, s => s.Text.Contains("the wound from 190 to 220 mm", StringComparison.Ordinal) && s.Text.Contains("the incision for a plate from 120 to 300 mm", StringComparison.Ordinal));
    }

    [Fact]
    public void EveryCaution_hasASourceAndATag()
    {
        SourcedCaution[] cautions = [.. Cases.Example.Frames.SelectMany(f => Cases.Example.Steps(f.Id).Steps.SelectMany(s => s.Cautions).Concat(Cases.Example.Kit(f.Id).Cautions))];

        Assert.NotEmpty(cautions);
        Assert.All(cautions, c => Assert.True(c.Source.Length > 0 && c.Tag is "READ" or "MEMORY" or "DERIVED" or "ASSUMED" or "ESTIMATE" or "GIVEN" or "common practice", c.Text));
    }

    [Fact]
    public void AnyFrame_steps_placeEveryPartExactlyOnceAndNameIt() => Frames.Any.Sample(value =>
    {
        Parts parts = value.PartsOf();
        Step[] steps = Written(value);
        string[] all = [.. parts.Pins.Select(p => p.Id), .. parts.Rods.Select(r => r.Id), .. parts.Clamps.Select(c => c.Id)];

        Assert.Equal(all.Order(), steps.SelectMany(s => s.Places).Order());
        Assert.All(steps, s => Assert.All(s.Places, id => Assert.Matches($"\\b{Regex.Escape(id)}\\b", s.Text)));
        Assert.Equal(Enumerable.Range(1, steps.Length), steps.Select(s => s.N));
    }, iter: 60);

    // Read off the steps alone: a clamp placed after one of its rods must open to the side, every other need not.
    [Fact]
    public void AnyFrame_openSidedClamps_areExactlyThoseThatComeAfterARodOfTheirs() => Frames.Any.Sample(value =>
    {
        Parts parts = value.PartsOf();
        Dictionary<string, int> at = Written(value).SelectMany(s => s.Places.Select(id => (id, s.N))).ToDictionary(p => p.id, p => p.N);
        string[] late = [.. parts.Clamps.Where(c => at[c.Id] > at[c.Rod] || (c.OtherRod is string other && at[c.Id] > at[other])).Select(c => c.Id)];

        return FrameKit.Of(value, parts, null).Items.Where(i => i.OpenSided == true).SelectMany(i => i.Parts).Order().SequenceEqual(late.Order());
    }, iter: 60);

    // No step needs what is not there yet: rods come after the two pins they go to, guided pins after their clamp.
    [Fact]
    public void AnyFrame_order_usesOnlyWhatIsThere() => Frames.Any.Sample(value =>
    {
        HashSet<string> there = [];
        foreach (Step s in Written(value).Where(s => !s.Places.IsEmpty))
        {
            there.UnionWith(s.Places);
            foreach (Match m in Regex.Matches(s.Text, "(?:with clamp|pin opening of clamp|standing pin|mounted rod|Bring it to pin|to rod(?! axis)) (\\w+)"))
            {
                Assert.Contains(m.Groups[1].Value, there);
            }
        }
    }, iter: 60);

    private static Step[] Written(Case value) => [.. new StepWriter(value, FrameKit.Of(value, value.PartsOf(), null), holds: true, isClear: true).All()];

    private static Step Of(IEnumerable<Step> steps, string part) => steps.First(s => s.Places.Contains(part));

    private static string Text(KitReport kit, StepsReport steps)
    {
        StringBuilder text = new();
        foreach (KitItem i in kit.Items)
        {
            text.Append(CultureInfo.InvariantCulture, $"{i.Quantity} x {i.Description}{(i.LengthMm is double l ? $", {l:0.#} mm" : "")}{(i.Parts.IsEmpty ? "" : $" ({string.Join(' ', i.Parts)})")}{(i.Reason.Length > 0 ? $": {i.Reason}" : "")} [{i.Tag}]\n");
        }

        text.Append('\n');
        foreach (Step s in steps.Steps)
        {
            text.Append(CultureInfo.InvariantCulture, $"{s.N}. {s.Phase}: {s.Text}\n");
            foreach (SourcedCaution c in s.Cautions)
            {
                text.Append(CultureInfo.InvariantCulture, $"   ! {c.Text} {c.Source} [{c.Tag}]\n");
            }
        }

        return text.ToString();
    }
}
